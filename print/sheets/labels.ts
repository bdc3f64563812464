import type { Column, Content, CustomTableLayout, TableCell } from "pdfmake/interfaces.js";
import type { Label } from "../../core/run/result.ts";
import { allergensSaid } from "../../words/allergens-said.ts";
import { wordFor } from "../../words/catalogue.ts";
import type { SheetPages } from "../frame.ts";
import type { Paper } from "../paper.ts";
import { DENSE, QUIET, sheetTitle, label as small, TYPE, WIDTH, writeLine } from "../parts.ts";

const COLUMNS = 2;
const PADDING = 7;
const HEIGHT = 76;
/** The last rows stay on one page: nobody cuts a sheet for one pair of labels. */
const TOGETHER = 3;

/** Lines to cut along. */
const CUT: CustomTableLayout = {
  hLineWidth: () => 0.75,
  vLineWidth: () => 0.75,
  hLineStyle: () => ({ dash: { length: 4, space: 3 } }),
  vLineStyle: () => ({ dash: { length: 4, space: 3 } }),
  paddingLeft: () => PADDING,
  paddingRight: () => PADDING,
  paddingTop: () => 3,
  paddingBottom: () => 2,
};

/** Labels to cut out, as many of each as containers are filled. */
export function labelPages(paper: Paper): SheetPages[] {
  const { result, say } = paper;
  const all = result.labels.flatMap((one) => Array.from({ length: one.count }, () => one));
  if (all.length === 0) return [];
  const batches = new Map<string, number>();
  for (const one of result.labels)
    batches.set(one.preparation, Math.max(batches.get(one.preparation) ?? 0, one.batch));
  const cells = all.map((one) => face(paper, one, batches.get(one.preparation) ?? 1));
  const rows: TableCell[][] = [];
  for (let i = 0; i < cells.length; i += COLUMNS)
    rows.push(Array.from({ length: COLUMNS }, (_, k) => cells[i + k] ?? { text: "" }));
  return [
    {
      name: say("pack.labels"),
      content: [
        sheetTitle(say("pack.labels"), say("pack.labels.what")),
        ...(rows.length > TOGETHER ? [rowsOf(rows.slice(0, -TOGETHER))] : []),
        { stack: [rowsOf(rows.slice(-TOGETHER))], unbreakable: true },
      ],
    },
  ];
}

function rowsOf(body: TableCell[][]): Content {
  return {
    table: {
      widths: Array.from({ length: COLUMNS }, () => WIDTH / COLUMNS - 2 * PADDING - 0.75),
      heights: HEIGHT,
      dontBreakRows: true,
      body,
    },
    layout: CUT,
  };
}

function face(paper: Paper, one: Label, of: number): TableCell {
  const { say, write, allergens, item } = paper;
  const upper = (ids: readonly string[]) =>
    write.list(ids.map((id) => wordFor(say, "allergen", id).toUpperCase()));
  const dated = (
    word: string,
    [day, hour]: readonly [string, string],
    size: number,
    width: number,
  ): Column => ({
    width,
    stack: [
      small(word),
      {
        text: [
          { text: day, bold: true, fontSize: size },
          { text: ` ${hour}`, fontSize: TYPE.note },
        ],
      },
    ],
  });
  const contains = allergensSaid(say, { ...one, contains: one.allergens }, allergens, {
    loud: upper,
    short: true,
  });
  return {
    ...DENSE,
    stack: [
      { text: one.name, bold: true, fontSize: TYPE.board },
      {
        text: [
          { text: one.for ? `${say("pack.labels.for", { who: one.for })}.  ` : "", bold: true },
          {
            text: [
              write.quantity(one.amount),
              ...(of > 1 ? [say("pack.labels.batch", { n: one.batch, of })] : []),
              one.storage,
            ].join(", "),
            color: QUIET,
          },
        ],
        fontSize: TYPE.note,
      },
      {
        columns: [
          dated(say("pack.labels.made"), dayAndHour(paper, one.madeOn), TYPE.body, 87),
          dated(say("pack.labels.useBy"), untilEnd(paper, one.useBy), TYPE.body + 1.5, 114),
          { width: 30, stack: [writeLine(say("pack.labels.who"), 30, 14)] },
        ],
        columnGap: 4,
        margin: [0, 0, 0, 0],
      },
      { text: contains, bold: one.allergens.length > 0, fontSize: TYPE.note },
      ...(one.useByFrom === one.preparation
        ? []
        : [
            {
              text: say("labels.from", { name: item(one.useByFrom) }),
              fontSize: TYPE.running,
              color: QUIET,
            },
          ]),
    ],
  };
}

function dayAndHour({ write, shortDate }: Paper, text: string): [string, string] {
  return /^D\S* \d\d:\d\d$/.test(text) ? [shortDate(text.split(" ")[0]!), write.hour(text)] : [text, ""];
}

/** A use-by that falls on midnight is the end of the day before: nobody reads 00:00 right at 6 pm. */
function untilEnd(paper: Paper, text: string): [string, string] {
  const { clock, say, shortDate } = paper;
  if (!/^D\S* 00:00$/.test(text)) return dayAndHour(paper, text);
  return [shortDate(clock.dayOf(clock.minuteOf(text) - 1)), say("pack.labels.endOf")];
}
