import type { Content, TableCell } from "pdfmake/interfaces.js";
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
  return [
    {
      name: say("pack.batches"),
      content: [
        sheetTitle(say("pack.batches"), scales),
        ...result.batchSheets.map(
          (sheet): Content => ({
            stack: [batch(paper, sheet)],
            unbreakable: fits(sheet, paper.library.preparations.get(sheet.preparation)),
          }),
        ),
      ],
    },
  ];
}

/** Height a page has for sheets, points. */
const ROOM = PAGE.height - PAGE.top - PAGE.bottom;

/** Whether a sheet surely fits a page, and is then kept on one: a high estimate of its height from its texts. */
function fits(sheet: BatchSheet, preparation: Preparation | undefined): boolean {
  const textLines = (text: string, letters: number) => Math.ceil(text.length / letters);
  const lines = sheet.lines.reduce((sum, line) => sum + 9 + 16 * textLines(line.name, 34), 0);
  const steps = sheet.steps.reduce((sum, step) => sum + 7 + Math.max(29, 15.5 * textLines(step.text, 52)), 0);
  const readings = (preparation?.specification.length ?? 0) * 36;
  const notes = 15 * textLines(preparation?.notes ?? "", 60);
  return 60 + lines + steps + Math.max(75, readings) + notes < ROOM;
}

function batch(paper: Paper, sheet: BatchSheet): Content {
  const { say, write, library, set } = paper;
  const amount = [
    write.weighed(Math.round(sheet.yield.value * 10) / 10),
    ...(sheet.pieces === undefined ? [] : [say("bench.pieces", { count: Math.round(sheet.pieces) })]),
  ].join(", ");
  const preparation = library.preparations.get(sheet.preparation);
  return [
    hair(WIDTH, 1.5),
    {
      ...beside(
        { text: sheet.name, bold: true, fontSize: TYPE.board + 3 },
        { text: say("pack.batch.of", { n: sheet.batch, of: sheet.of }), bold: true, fontSize: TYPE.board },
      ),
      margin: [0, 5, 0, 4],
    },
    ruled(
      [18, 74, "*", MARGIN],
      undefined,
      sheet.lines.map((line) => weighed(paper, sheet, line)),
    ),
    { text: "", margin: [0, 4, 0, 0] },
    ...sheet.steps.map((step, i) => stepText(paper, step, i)),
    {
      ...beside(
        [
          { text: say("pack.batch.yield", { amount }), bold: true, fontSize: TYPE.body + 1.5 },
          {
            columns: [
              { width: 130, stack: [writeLine(say("pack.batch.weighed"), 130)] },
              { width: 90, stack: [writeLine(say("pack.batch.initials"), 90)] },
            ],
            columnGap: 16,
          },
        ],
        (preparation?.specification ?? []).map((reading): Content => reads(paper, reading)),
      ),
      margin: [0, 2, 0, 0],
    },
    ...(preparation?.notes
      ? [
          {
            text: set(preparation.notes),
            fontSize: TYPE.note,
            italics: true,
            color: QUIET,
            margin: [0, 4, MARGIN, 0],
          } as Content,
        ]
      : []),
    { text: "", margin: [0, 0, 0, 20] },
  ];
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
      columns: [
        {
          width: 44,
          text: sheet.steps.length > 1 ? say("pack.batch.step", { n: step }) : "",
          fontSize: TYPE.note,
          color: QUIET,
        },
        { width: "*", text: notes.join("; "), fontSize: TYPE.note, color: QUIET },
      ],
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
          { width: COLUMN - 24, text: set(step.text), fontSize: TYPE.body },
        ],
        columnGap: 6,
      },
      [
        { text: [...when, ...minutes].join(", "), bold: true, fontSize: TYPE.note },
        quiet(say("pack.batch.masses", { in: write.mass(step.inG), out: write.mass(step.outG) })),
      ],
    ),
    margin: [0, 3, 0, 3],
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
      widths: ["*", 54],
      heights: 20,
      body: [[{ stack: [label(reading.what), { text, fontSize: TYPE.note, bold: true }] }, { text: "" }]],
    },
    layout: BOXED,
    margin: [0, 0, 0, 3],
  };
}
