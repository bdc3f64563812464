import type { Column, Content, ContentCanvas, TableCell } from "pdfmake/interfaces.js";
import type { Preparation } from "../../core/formula/schema.ts";
import type { BatchSheet } from "../../core/run/result.ts";
import type { SheetPages } from "../frame.ts";
import type { Paper } from "../paper.ts";
import {
  BOXED,
  close,
  DENSE,
  hair,
  QUIET,
  ruled,
  sheetTitle,
  TYPE,
  tick,
  WIDTH,
  writeLine,
} from "../parts.ts";
import { FIGURES, type Layout, layoutOf, NUMBER, sharedPages, TITLE } from "./share-pages.ts";

/** A sheet for each batch of each preparation: what to weigh beside what to do, and room for what came of it. */
export function batchPages(paper: Paper): SheetPages[] {
  const { result, say, kitchen, write, library } = paper;
  if (result.batchSheets.length === 0) return [];
  const scales = say("pack.batch.scales", {
    list: write.list(kitchen.measures.scaleStepG.map((step) => write.weighed(step))),
  });
  const alike = batchesAlike(result.batchSheets);
  const layouts = alike.map((batches) =>
    measured(paper, batches, library.preparations.get(batches[0]!.preparation)),
  );
  return [
    {
      name: say("pack.batches"),
      content: [
        sheetTitle(say("pack.batches"), scales),
        // The groups fit by a high estimate; blocks that may not break would be moved although there is room.
        ...sharedPages(
          layouts.map(({ height }) => height),
          TITLE,
        ).map(
          (group, page): Content => ({
            stack: group.flatMap((i, k) => sheetOf(paper, alike[i]!, layouts[i]!, k === 0)),
            ...(page > 0 ? { pageBreak: "before" as const } : {}),
          }),
        ),
      ],
    },
  ];
}

/** So many batches share a sheet at most: there are as many lines to sign. */
const MOST_ALIKE = 6;

/** Batches one after another of which all is weighed alike: one sheet with the moments of each. */
export function batchesAlike(sheets: readonly BatchSheet[]): BatchSheet[][] {
  const groups: BatchSheet[][] = [];
  for (const sheet of sheets) {
    const group = groups.at(-1);
    if (group && group.length < MOST_ALIKE && same(group[0]!, sheet)) group.push(sheet);
    else groups.push([sheet]);
  }
  return groups;
}

/** Where other sheets find this one. */
export function sheetId({ preparation, batch }: BatchSheet): string {
  return `sheet/${preparation}/${batch}`;
}

function same(a: BatchSheet, b: BatchSheet): boolean {
  return (
    a.preparation === b.preparation &&
    a.yield.value === b.yield.value &&
    a.lines.every((line, i) => line.exactG === b.lines[i]?.exactG)
  );
}

export function measured(
  paper: Paper,
  batches: readonly BatchSheet[],
  preparation: Preparation | undefined,
): Layout {
  const [sheet] = batches as [BatchSheet];
  return layoutOf(
    sheet.lines.map((line) => ({ name: line.name, notes: notesOf(paper, sheet, line).join("; ") })),
    sheet.steps.map(
      (step, i) => `${timesOf(paper, batches, i)}  ${paper.set(step.text)}  ${massesOf(paper, step)}`,
    ),
    {
      signed: batches.length === 1 && yieldOf(paper, sheet).length < 12 ? 0 : batches.length,
      readings: preparation?.specification.length ?? 0,
      notes: preparation?.notes,
    },
  );
}

export function sheetOf(
  paper: Paper,
  batches: readonly BatchSheet[],
  layout: Layout,
  first: boolean,
): Content[] {
  const { say, library, set } = paper;
  const [sheet] = batches as [BatchSheet];
  const preparation = library.preparations.get(sheet.preparation);
  const written = outcome(paper, batches, preparation);
  const { formula, method, between, under } = layout;
  const n = batches.length === 1 ? `${sheet.batch}` : `${sheet.batch} to ${batches.at(-1)!.batch}`;
  return [
    { ...(hair(WIDTH, 1.5) as ContentCanvas), margin: [0, first ? 0 : 10, 0, 0] },
    {
      columns: [
        { width: WIDTH - 130, text: sheet.name, bold: true, fontSize: TYPE.board + 1, id: sheetId(sheet) },
        {
          width: 130,
          text: say("pack.batch.of", { n, of: sheet.of, count: batches.length }),
          bold: true,
          fontSize: TYPE.board,
          alignment: "right",
        },
      ],
      margin: [0, 3, 0, 1],
    },
    {
      columns: [
        {
          width: formula,
          stack: [
            close(
              ruled(
                [...FIGURES, "*"],
                undefined,
                sheet.lines.map((line) => weighed(paper, sheet, line)),
                formula,
              ),
              1.5,
            ),
            ...(under === "formula" ? written : []),
          ],
        },
        {
          width: method,
          stack: [
            ...sheet.steps.map((_, i) => stepText(paper, batches, i, method)),
            ...(under === "method" ? written : []),
          ],
        },
      ],
      columnGap: between,
      ...DENSE,
    },
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
  ];
}

function yieldOf({ say, write }: Pick<Paper, "say" | "write">, sheet: BatchSheet): string {
  return [
    write.mass(sheet.yield.value),
    ...(sheet.pieces === undefined ? [] : [say("bench.pieces", { count: Math.round(sheet.pieces) })]),
  ].join(", ");
}

/** What it comes to, a line to write on for each batch, and boxes for what the book wants read. */
function outcome(
  { say, write }: Paper,
  batches: readonly BatchSheet[],
  preparation: Preparation | undefined,
): Content[] {
  const [sheet] = batches as [BatchSheet];
  const amount = yieldOf({ say, write }, sheet);
  const readings = preparation?.specification ?? [];
  const whole: Content & { readonly width: "*" } = {
    width: "*",
    text: say("pack.batch.yield", { amount, count: batches.length }),
    bold: true,
    fontSize: TYPE.body,
    margin: [0, 4, 0, 0],
  };
  const signed = (wide: number): Column[] => [
    { width: wide, stack: [writeLine(say("pack.batch.weighed"), wide, 15)] },
    { width: wide - 10, stack: [writeLine(say("pack.batch.initials"), wide - 10, 15)] },
  ];
  const beside = batches.length === 1 && amount.length < 12;
  return [
    ...(beside ? [{ columns: [whole, ...signed(54)], columnGap: 6 }] : [whole]),
    ...(beside
      ? []
      : batches.map(
          (one): Content => ({
            columns: [
              ...(batches.length > 1
                ? [{ width: 18, text: `${one.batch}`, bold: true, margin: [0, 5, 0, 0] } as Column]
                : []),
              ...signed(84),
            ],
            columnGap: 8,
          }),
        )),
    ...readings.map((reading) => reads({ say, write }, reading)),
  ];
}

/** A spoon or a count stands as written, its weight beside it. */
function spokenOf({ write }: Paper, line: BatchSheet["lines"][number]): string {
  return /\s?k?g$/.test(line.text) ? write.weighed(line.weighG) : line.text;
}

/** What is said of a line beside its name: its step, its weight, what to buy for it, what the scale cannot show. */
function notesOf(paper: Paper, sheet: BatchSheet, line: BatchSheet["lines"][number]): string[] {
  const { say, write } = paper;
  const step = sheet.steps.findIndex((one) => one.step === line.step) + 1;
  const mass = write.weighed(line.weighG);
  const off = line.exactG > 0 && Math.abs(line.errorG) / line.exactG >= 0.01;
  return [
    ...(sheet.steps.length > 1 ? [say("pack.batch.step", { n: step }).replace(" ", "\u00a0")] : []),
    ...(spokenOf(paper, line) === mass || line.weighG === 0 ? [] : [mass]),
    ...(line.apG === undefined ? [] : [say("pack.batch.ap", { mass: write.mass(line.apG) })]),
    ...(off ? [say("pack.batch.exact", { exact: `${write.number(line.exactG, 2)}\u00a0g` })] : []),
  ];
}

function weighed(paper: Paper, sheet: BatchSheet, line: BatchSheet["lines"][number]): TableCell[] {
  const notes = notesOf(paper, sheet, line);
  return [
    tick(12),
    line.toTaste
      ? { text: paper.say("pack.batch.toTaste"), alignment: "right", italics: true }
      : { text: spokenOf(paper, line), bold: true, fontSize: TYPE.body + 1.5, alignment: "right" },
    {
      text: [
        { text: line.name, fontSize: TYPE.body },
        { text: notes.length > 0 ? `  ${notes.join("; ")}` : "", fontSize: TYPE.running, color: QUIET },
      ],
    },
  ];
}

/** When a step begins, of several batches each with the day said once, and how long it takes. */
function timesOf({ write, moment }: Paper, batches: readonly BatchSheet[], i: number): string {
  const starts = batches.flatMap((one) => one.steps[i]?.start ?? []);
  const days = [...Map.groupBy(starts, (start) => start.split(" ")[0]).values()].map((own) =>
    own.map((start, k) => (k === 0 ? moment(start) : write.hour(start))).join(", "),
  );
  const minutes = batches[0]?.steps[i]?.minutes;
  return [...days, ...(minutes === undefined ? [] : [write.span(minutes)])].join("; ");
}

/** What goes in and comes out, where a step loses or takes up what a scale would show. */
function massesOf({ say, write }: Paper, { inG, outG }: BatchSheet["steps"][number]): string {
  return Math.abs(outG - inG) > 0.005 * inG
    ? say("pack.batch.masses", { in: write.mass(inG), out: write.mass(outG) })
    : "";
}

function stepText(paper: Paper, batches: readonly BatchSheet[], i: number, width: number): Content {
  const step = batches[0]!.steps[i]!;
  const [times, masses] = [timesOf(paper, batches, i), massesOf(paper, step)];
  return {
    columns: [
      { width: NUMBER - 4, text: `${i + 1}`, bold: true, fontSize: TYPE.body },
      {
        width: width - NUMBER,
        text: [
          { text: times === "" ? "" : `${times}  `, bold: true, fontSize: TYPE.note },
          { text: paper.set(step.text), fontSize: TYPE.body - 1 },
          { text: masses === "" ? "" : `  ${masses}`, fontSize: TYPE.running, color: QUIET },
        ],
      },
    ],
    columnGap: 4,
    margin: [0, 1, 0, 2],
  };
}

function reads(
  { say, write }: Pick<Paper, "say" | "write">,
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
      heights: 15,
      body: [
        [
          {
            text: [
              { text: `${reading.what} `, color: QUIET },
              { text, bold: true },
            ],
            fontSize: TYPE.note,
          },
          { text: "" },
        ],
      ],
    },
    layout: { ...BOXED, paddingTop: () => 1, paddingBottom: () => 1 },
    margin: [0, 3, 0, 0],
  };
}
