import type { Content, ContentTable, TableCell } from "pdfmake/interfaces.js";
import type { Preparation } from "../../core/formula/schema.ts";
import type { BatchSheet } from "../../core/run/result.ts";
import type { SheetPages } from "../frame.ts";
import type { Paper } from "../paper.ts";
import {
  BOXED,
  beside,
  COLUMN,
  hair,
  label,
  MARGIN,
  PAGE,
  QUIET,
  quiet,
  RULED,
  ruled,
  sheetTitle,
  TYPE,
  tick,
  WIDTH,
  writeLine,
} from "../parts.ts";

/** A sheet for each batch of each preparation: what to weigh, what to do, room for what came of it. */
export function batchPages(paper: Paper): SheetPages[] {
  const { result, say, kitchen, write } = paper;
  if (result.batchSheets.length === 0) return [];
  const scales = say("pack.batch.scales", {
    list: write.list(kitchen.measures.scaleStepG.map((step) => write.weighed(step))),
  });
  const heights = result.batchSheets.map((sheet) =>
    heightOf(sheet, paper.library.preparations.get(sheet.preparation)),
  );
  return [
    {
      name: say("pack.batches"),
      content: [
        sheetTitle(say("pack.batches"), scales),
        // The groups fit by a high estimate; blocks that may not break would be moved although there is room.
        ...sharedPages(heights, TITLE).map(
          (group, page): Content => ({
            stack: group.flatMap((i) => batch(paper, result.batchSheets[i]!)),
            ...(page > 0 ? { pageBreak: "before" as const } : {}),
          }),
        ),
      ],
    },
  ];
}

/** Height a page has for sheets, and what the title takes of the first, points. */
const ROOM = PAGE.height - PAGE.top - PAGE.bottom;
const TITLE = 54;
/** So many pages back a small sheet may go to fill room that is left: sheets stay near their order. */
const BACK = 14;

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

/** A high estimate of a sheet's height from its texts, points. */
function heightOf(sheet: BatchSheet, preparation: Preparation | undefined): number {
  const textLines = (text: string, letters: number) => Math.ceil(text.length / letters);
  const lines = sheet.lines.reduce((sum, line) => sum + 11 + 15.5 * textLines(line.name, 36), 0);
  const steps = sheet.steps.reduce(
    (sum, step) => sum + 4.5 + 14.8 * Math.max(changes(step) ? 2 : 1, textLines(step.text, 56)),
    0,
  );
  const readings = (preparation?.specification.length ?? 0) > 0 ? 50 : 0;
  const notes = 15 * textLines(preparation?.notes ?? "", 80);
  return 104 + lines + steps + readings + notes;
}

/** Whether a step loses or takes up what a scale would show. */
function changes({ inG, outG }: BatchSheet["steps"][number]): boolean {
  return Math.abs(outG - inG) > 0.005 * inG;
}

function batch(paper: Paper, sheet: BatchSheet): Content[] {
  const { say, write, library, set } = paper;
  const amount = [
    write.mass(sheet.yield.value),
    ...(sheet.pieces === undefined ? [] : [say("bench.pieces", { count: Math.round(sheet.pieces) })]),
  ].join(", ");
  const preparation = library.preparations.get(sheet.preparation);
  return [
    hair(WIDTH, 1.5),
    {
      ...beside(
        { text: sheet.name, bold: true, fontSize: TYPE.board + 1 },
        { text: say("pack.batch.of", { n: sheet.batch, of: sheet.of }), bold: true, fontSize: TYPE.board },
      ),
      margin: [0, 4, 0, 2],
    },
    close(
      ruled(
        [18, 74, "*", MARGIN],
        undefined,
        sheet.lines.map((line) => weighed(paper, sheet, line)),
      ),
    ),
    { text: "", margin: [0, 2, 0, 0] },
    ...sheet.steps.map((step, i) => stepText(paper, step, i)),
    {
      columns: [
        { width: "*", text: say("pack.batch.yield", { amount }), bold: true, fontSize: TYPE.body + 1 },
        { width: 120, stack: [writeLine(say("pack.batch.weighed"), 120, 14)] },
        { width: 80, stack: [writeLine(say("pack.batch.initials"), 80, 14)] },
      ],
      columnGap: 16,
      margin: [0, 3, 0, 0],
    },
    ...(preparation && preparation.specification.length > 0
      ? [
          {
            columns: preparation.specification.map((reading) => ({
              width: 120,
              stack: [reads(paper, reading)],
            })),
            columnGap: 8,
            margin: [0, 4, 0, 0],
          } as Content,
        ]
      : []),
    ...(preparation?.notes
      ? [
          {
            text: set(preparation.notes),
            fontSize: TYPE.note,
            italics: true,
            color: QUIET,
            margin: [0, 3, 0, 0],
          } as Content,
        ]
      : []),
    { text: "", margin: [0, 0, 0, 12] },
  ];
}

/** A table with its rows close: two sheets on a page read as well as one. */
function close(table: Content): Content {
  return {
    ...(table as ContentTable),
    layout: { ...RULED, paddingTop: () => 2.5, paddingBottom: () => 2.5 },
  };
}

function weighed({ say, write }: Paper, sheet: BatchSheet, line: BatchSheet["lines"][number]): TableCell[] {
  const step = sheet.steps.findIndex((one) => one.step === line.step) + 1;
  const mass = write.weighed(line.weighG);
  // A spoon or a count stands as written, its weight beside it.
  const spoken = /\s?k?g$/.test(line.text) ? mass : line.text;
  const off = line.exactG > 0 && Math.abs(line.errorG) / line.exactG >= 0.01;
  const notes = [
    ...(spoken === mass || line.weighG === 0 ? [] : [mass]),
    ...(line.apG === undefined ? [] : [say("pack.batch.ap", { mass: write.mass(line.apG) })]),
    ...(off ? [say("pack.batch.exact", { exact: `${write.number(line.exactG, 2)}\u00a0g` })] : []),
  ];
  return [
    tick(12),
    line.toTaste
      ? { text: say("pack.batch.toTaste"), alignment: "right", italics: true }
      : { text: spoken, bold: true, fontSize: TYPE.body + 1.5, alignment: "right" },
    { text: line.name, fontSize: TYPE.body },
    {
      text: [...(sheet.steps.length > 1 ? [say("pack.batch.step", { n: step })] : []), ...notes].join("; "),
      fontSize: TYPE.note,
      color: QUIET,
    },
  ];
}

function stepText({ say, write, moment, set }: Paper, step: BatchSheet["steps"][number], i: number): Content {
  const when = step.start === undefined ? [] : [moment(step.start)];
  const minutes = step.minutes === undefined ? [] : [write.span(step.minutes)];
  return {
    ...beside(
      {
        columns: [
          { width: 18, text: `${i + 1}`, bold: true, fontSize: TYPE.body },
          { width: COLUMN - 24, text: set(step.text), fontSize: TYPE.body - 1 },
        ],
        columnGap: 6,
      },
      [
        { text: [...when, ...minutes].join(", "), bold: true, fontSize: TYPE.note },
        ...(changes(step)
          ? [quiet(say("pack.batch.masses", { in: write.mass(step.inG), out: write.mass(step.outG) }))]
          : []),
      ],
    ),
    margin: [0, 2, 0, 2],
    unbreakable: true,
  };
}

function reads(
  { say, write }: Paper,
  reading: { what: string; least?: number | undefined; most?: number | undefined; unit: string },
): Content {
  const text = say("pack.batch.between", {
    least: reading.least === undefined ? "none" : write.number(reading.least),
    most: reading.most === undefined ? "none" : write.number(reading.most),
    unit: reading.unit,
  });
  return {
    table: {
      widths: ["*", 42],
      heights: 20,
      body: [[{ stack: [label(reading.what), { text, fontSize: TYPE.note, bold: true }] }, { text: "" }]],
    },
    layout: BOXED,
    margin: [0, 0, 0, 3],
  };
}
