import { PAGE, WIDTH } from "../parts.ts";
import { linesOf } from "../text-lines.ts";

/** Widths tried for what is weighed, points; what is done stands beside it in what they leave. */
const SPLITS = [225, 255, 285, 195] as const;
const BETWEEN = 14;
/** Of what is weighed: box, amount, and the rest for the name. */
export const FIGURES = [13, 62] as const;
/** The number of a step and the room after it. */
export const NUMBER = 20;

/** Height a page has for sheets, and what the title takes of the first, points. */
const ROOM = PAGE.height - PAGE.top - PAGE.bottom;
export const TITLE = 54;
/** So many pages back a small sheet may go to fill room that is left: sheets stay near their order. */
const BACK = 30;

/**
 * Which sheets share a page: each goes on the first of the last few pages that has room for it whole, else on a new one.
 * @param first what is taken of the first page. @returns places of the sheets, page by page.
 */
export function sharedPages(heights: readonly number[], first = 0): number[][] {
  const pages: { left: number; sheets: number[] }[] = [];
  heights.forEach((height, i) => {
    const open = pages.slice(-BACK).find(({ left }) => left >= height);
    if (open) {
      open.left -= height;
      open.sheets.push(i);
      return;
    }
    const left = ROOM - (pages.length === 0 ? first : 0) - height;
    pages.push({ left, sheets: [i] });
  });
  return pages.map(({ sheets }) => sheets);
}

/** Lines of type with the room around them, points: a figure to weigh, a note, a step's text. */
const LINE = { name: 13.6, step: 12.8, note: 12 } as const;

/** How a sheet is laid out. */
export interface Layout {
  /** Widths of what is weighed and what is done, and the room between, points. */
  readonly formula: number;
  readonly method: number;
  readonly between: number;
  /** Whether yield, lines to write on and readings stand under what is weighed: else under what is done. */
  readonly under: "formula" | "method";
  readonly height: number;
}

/**
 * The lowest way of laying out a sheet by a high estimate of its height, from the texts it will have.
 * @param signed lines to sign below the yield; 0 where they stand beside it
 */
export function layoutOf(
  lines: readonly { readonly name: string; readonly notes: string }[],
  steps: readonly string[],
  { signed, readings, notes }: { signed: number; readings: number; notes: string | undefined },
): Layout {
  const outcome = (signed === 0 ? 33 : 20 + 29 * signed) + 25 * readings;
  const last = notes === undefined ? 0 : 3 + LINE.note * linesOf(notes, 10.5, WIDTH);
  const layouts = SPLITS.map((formula): Layout => {
    const method = WIDTH - formula - BETWEEN;
    const name = formula - FIGURES[0] - FIGURES[1] - 20;
    const weighed = lines.reduce(
      // The notes are smaller: so many letters of the names' size.
      (sum, line) =>
        sum +
        5 +
        LINE.name * linesOf(`${line.name}  ${line.notes.slice(0, 0.78 * line.notes.length)}`, 12, name),
      0,
    );
    const done = steps.reduce((sum, text) => sum + 4 + LINE.step * linesOf(text, 11.2, method - NUMBER), 0);
    const height = 37 + Math.max(weighed, done, Math.min(weighed, done) + outcome) + last;
    return { formula, method, between: BETWEEN, under: weighed <= done ? "formula" : "method", height };
  });
  return layouts.reduce((best, one) => (one.height < best.height ? one : best));
}
