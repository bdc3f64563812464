import type {
  Content,
  ContentColumns,
  ContentTable,
  ContentText,
  CustomTableLayout,
  TableCell,
} from "pdfmake/interfaces.js";

/** Sizes of type in points: the page's steps (14, 16, 20, 28, 40 px) on paper, and a smaller one for running lines. */
export const TYPE = { running: 9, note: 10.5, body: 12, board: 15, head: 21, title: 30 } as const;

/** A4 in points, the inner edge wide enough for a binder's holes. */
export const PAGE = { width: 595.28, height: 841.89, left: 50, right: 36, top: 54, bottom: 40 } as const;
/** The text column, the margin that annotates it, and the room between. */
export const WIDTH = PAGE.width - PAGE.left - PAGE.right;
export const MARGIN = 146;
export const GAP = 16;
export const COLUMN = WIDTH - MARGIN - GAP;
/** Width of a page on its side. */
export const LONG = PAGE.height - PAGE.left - PAGE.right;

export const SERIF = "SourceSerif4";
/** Second voice: still black enough for a copier. */
export const QUIET = "#3d3d3d";
const HAIR = 0.5;

/** A thick pen's tick box, points. */
export const BOX = 17;

/** A hairline across. */
export function hair(width: number = WIDTH, weight: number = HAIR): Content {
  return { canvas: [{ type: "line", x1: 0, y1: 0, x2: width, y2: 0, lineWidth: weight }] };
}

/** A box to tick with a thick pen. */
export function tick(size: number = BOX): Content {
  return { canvas: [{ type: "rect", x: 0.6, y: 1.5, w: size, h: size, lineWidth: 1.2 }] };
}

/** A line to write on, with its word in small below the line's left end. */
export function writeLine(word: string, width: number, room = 22): Content {
  return {
    stack: [
      {
        canvas: [
          {
            type: "line",
            x1: 0,
            y1: room,
            x2: width,
            y2: room,
            lineWidth: HAIR,
            dash: { length: 1.5, space: 2 },
          },
        ],
      },
      { text: word, fontSize: TYPE.running, color: QUIET, margin: [0, 1, 0, 0] },
    ],
  };
}

/** Text of the column with its computed figures beside it, in the margin. */
export function beside(column: Content, margin: Content): ContentColumns {
  return {
    columns: [
      { width: COLUMN, stack: [column] },
      { width: MARGIN, stack: [margin] },
    ],
    columnGap: GAP,
  };
}

/** The heading of a sheet, and its bookmark. */
export function sheetTitle(text: string, under?: string, marked = true): Content {
  return {
    stack: [
      {
        text,
        fontSize: TYPE.head,
        bold: true,
        ...(marked ? { outline: true } : {}),
      } as ContentText,
      ...(under ? [{ text: under, fontSize: TYPE.body, color: QUIET }] : []),
    ],
    margin: [0, 0, 0, 12],
  };
}

/** The heading of a part of a sheet. */
export function part(text: string, above = 16): Content {
  return { text, fontSize: TYPE.board, bold: true, margin: [0, above, 0, 4], headlineLevel: 2 };
}

/** A small word above a figure or a line. */
export function label(text: string): ContentText {
  return { text, fontSize: TYPE.running, color: QUIET };
}

export function quiet(text: string): ContentText {
  return { text, fontSize: TYPE.note, color: QUIET };
}

/** Where many short entries stand below each other: lines 1.25 of their size apart. */
export const DENSE = { lineHeight: 0.88 } as const;

/** Room between two columns of a ruled table. */
const BETWEEN = 10;

/** A table of lines and space: a rule under its head, hairlines between rows, nothing upright. */
export const RULED: CustomTableLayout = {
  hLineWidth: (i, node) => (i === 0 ? 0 : i === (node.table.headerRows ?? 0) ? 1 : HAIR),
  vLineWidth: () => 0,
  hLineColor: () => "black",
  paddingLeft: (i) => (i === 0 ? 0 : BETWEEN / 2),
  paddingRight: (i, node) => (i === (node.table.widths?.length ?? 0) - 1 ? 0 : BETWEEN / 2),
  paddingTop: () => 4,
  paddingBottom: () => 4,
};

/** A ruled table with its rows close, where many stand below each other. */
export function close(table: Content, padding = 2): Content {
  return {
    ...(table as ContentTable),
    layout: { ...RULED, paddingTop: () => padding, paddingBottom: () => padding },
  };
}

/** Boxes to write in. */
export const BOXED: CustomTableLayout = {
  hLineWidth: () => 0.75,
  vLineWidth: () => 0.75,
  paddingLeft: () => 5,
  paddingRight: () => 5,
  paddingTop: () => 3,
  paddingBottom: () => 3,
};

/** Head cells of a table, small; a right-aligned one is written ["Packs", "right"]. */
export function headCells(words: readonly (string | readonly [string, "right" | "center"])[]): TableCell[] {
  return words.map((word) =>
    typeof word === "string"
      ? { text: word, fontSize: TYPE.running, color: QUIET }
      : { text: word[0], fontSize: TYPE.running, color: QUIET, alignment: word[1] },
  );
}

/**
 * A ruled table with a head that is repeated on each page; rows stay whole. A "*" takes an equal part of what the
 * fixed widths leave of `inside`: worked out here, so that a long word is broken rather than the column widened.
 */
export function ruled(
  widths: readonly (number | "*")[],
  head: TableCell[] | undefined,
  rows: TableCell[][],
  inside: number = WIDTH,
): Content {
  if (rows.length === 0) return { text: "" };
  const fixed = widths.reduce((sum: number, width) => sum + (width === "*" ? 0 : width), 0);
  const stars = widths.filter((width) => width === "*").length;
  const star = (inside - fixed - BETWEEN * (widths.length - 1)) / Math.max(1, stars);
  return {
    table: {
      widths: widths.map((width) => (width === "*" ? star : width)),
      headerRows: head ? 1 : 0,
      dontBreakRows: true,
      ...(head ? { keepWithHeaderRows: 1 } : {}),
      body: head ? [head, ...rows] : rows,
    },
    layout: RULED,
  };
}
