import { textWidth } from "../text.ts";
import type { HeatSpan } from "./oven.ts";

export interface HeatLabel {
  readonly span: HeatSpan;
  readonly text: string;
  readonly x: number;
  /** Of the base line. */
  readonly y: number;
}

/** Room for a line of a label. */
const LINE = 15;
/** Least room between labels side by side. */
const BESIDE = 4;
/** Half the breadth of the line of the service. */
const WALL = 4;

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/**
 * Where the temperatures of an oven are written along time: above their stretch or below it, else before its begin, else,
 * where others stand in the way everywhere, nowhere: none lies on another (D9), and the tasks below say theirs. Longer stretches
 * choose first.
 * @param place of a stretch: where it begins and ends along time, and its line across
 */
export function heatLabels(
  spans: readonly HeatSpan[],
  place: (span: HeatSpan) => { readonly from: number; readonly to: number; readonly across: number },
  write: (celsius: number) => string,
  size: number,
  within: {
    readonly top: number;
    readonly bottom: number;
    readonly end: number;
    /** Lines across time that no label may cross. */
    readonly walls?: readonly number[];
  },
): HeatLabel[] {
  const taken: Box[] = (within.walls ?? []).map((wall) => ({
    ...{ left: wall - WALL, right: wall + WALL, top: within.top, bottom: within.bottom },
  }));
  const labels: HeatLabel[] = [];
  const inOrder = [...spans].sort((a, b) => b.to - b.from - (a.to - a.from) || a.from - b.from);
  for (const span of inOrder) {
    const { from, across } = place(span);
    const text = write(span.setC);
    // They are set heavier than the widths are of.
    const width = 1.06 * textWidth(text, size);
    const ways = [from + 3, from - width - BESIDE].flatMap((x) =>
      [across - 5, across + size + 2].map((y) => [Math.max(0, Math.min(x, within.end - width)), y] as const),
    );
    for (const [x, y] of ways) {
      const box = { left: x, right: x + width + BESIDE, top: y - LINE + 3, bottom: y + 3 };
      if (box.top < within.top || box.bottom > within.bottom) continue;
      if (taken.some((other) => meet(box, other))) continue;
      taken.push(box);
      labels.push({ span, text, x, y });
      break;
    }
  }
  return labels.sort((a, b) => a.x - b.x);
}

const meet = (a: Box, b: Box) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
