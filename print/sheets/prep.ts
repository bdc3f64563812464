import type { Content, TableCell } from "pdfmake/interfaces.js";
import type { BatchSheet, PlanTask, PrepList } from "../../core/run/result.ts";
import { cleanSaid } from "../../words/allergens-said.ts";
import type { SheetPages } from "../frame.ts";
import type { Paper } from "../paper.ts";
import { close, DENSE, QUIET, ruled, TYPE, tick, WIDTH, writeLine } from "../parts.ts";
import { batchesAlike, sheetId } from "./batches.ts";

/** Widths of the columns of an entry: box, times, the work and what it takes. */
const BOX = 18;
const TIMES = 48;
const WORK = WIDTH - BOX - TIMES - 20;
/** Room for an amount in arm's length type beside the name, and for a line to write on below it. */
const AMOUNT = 96;
/** Beside these: who, where, with what, and how long it keeps. */
const SAID = WORK - AMOUNT - 10;
/** Stations with no more entries than this follow others: a page with three lines on it is wasted. */
const FEW = 15;
/** Entries a page has as a rule, and what a day's heading takes of them. */
const ENTRIES = 14.5;
const HEADING = 0.9;

/** What an entry of a list is told with: its task in the plan, and the sheet that has its method. */
interface Known {
  readonly tasks: ReadonlyMap<string, PlanTask>;
  readonly sheets: ReadonlyMap<string, BatchSheet>;
}

/** Who does what at each station, day after day in the order of the plan; to be read at arm's length. */
export function prepPages(paper: Paper): SheetPages[] {
  const { result, say, kitchen } = paper;
  const known: Known = {
    tasks: new Map(result.plan.tasks.map((task) => [task.id, task])),
    sheets: new Map(
      batchesAlike(result.batchSheets).flatMap((alike) =>
        alike.map((sheet) => [`${sheet.preparation}/${sheet.batch}`, alike[0]!] as const),
      ),
    ),
  };
  const order = new Map(kitchen.stations.map((station, i) => [station.id, i]));
  const stations = [...Map.groupBy(result.prepLists, (list) => list.station)]
    .sort(([a], [b]) => (order.get(a) ?? order.size) - (order.get(b) ?? order.size))
    .map(([, lists]) => lists);
  return sharing(stations).map((together) => ({
    name:
      together[0]!.reduce((sum, { entries }) => sum + entries.length, 0) <= FEW
        ? say("pack.prep.several", { count: together.length })
        : together.length === 1
          ? say("pack.prep.of", { station: together[0]![0]!.name })
          : say("pack.prep.more", { station: together[0]![0]!.name, count: together.length - 1 }),
    content: together.flatMap((lists, i): Content[] => [
      { stack: lists.map((list, k) => dayOf(paper, list, known, i + k === 0)) },
    ]),
  }));
}

/**
 * Which stations share pages: one with little to do goes where a larger one leaves it room on its last page, the others
 * follow each other.
 */
function sharing(stations: readonly PrepList[][]): PrepList[][][] {
  const pagesOf = (lists: readonly PrepList[]) =>
    lists.reduce((sum, list) => sum + list.entries.length + HEADING, 0) / ENTRIES;
  const few = (lists: readonly PrepList[]) =>
    lists.reduce((sum, list) => sum + list.entries.length, 0) <= FEW;
  const large = stations
    .filter((lists) => !few(lists))
    .map((lists) => ({ lists: [lists], left: Math.ceil(pagesOf(lists)) - pagesOf(lists) }));
  const rest: PrepList[][] = [];
  for (const lists of stations.filter(few)) {
    const pages = pagesOf(lists);
    const there = large.find(({ left }) => left >= pages);
    if (!there) rest.push(lists);
    else {
      there.lists.push(lists);
      there.left -= pages;
    }
  }
  return [...large.map(({ lists }) => lists), ...(rest.length > 0 ? [rest] : [])];
}

/** One day of a station. Station and day are the head of its table, repeated where the list goes on. */
function dayOf(paper: Paper, list: PrepList, known: Known, first: boolean): Content {
  const { say, write } = paper;
  const day =
    list.day === "D"
      ? say("pack.day.service", { day: write.date(list.date) })
      : `${write.date(list.date)}, ${list.day}`;
  const heading: TableCell = {
    text: [
      { text: list.name, bold: true, fontSize: TYPE.head - 3 },
      { text: `   ${day}`, fontSize: TYPE.body },
    ],
    colSpan: 3,
    margin: [0, first ? 0 : 8, 0, 0],
  };
  const table = ruled(
    [BOX, TIMES, WORK],
    [heading, {}, {}],
    list.entries.map((entry) => row(paper, list, entry, known)),
  );
  return { ...(close(table, 2) as object), ...DENSE } as Content;
}

function row(
  paper: Paper,
  list: PrepList,
  entry: PrepList["entries"][number],
  { tasks, sheets }: Known,
): TableCell[] {
  const { write, say, setNear, cook } = paper;
  const task = tasks.get(entry.task);
  const name = task && entry.text.startsWith(task.name) ? task.name : "";
  const rest = entry.text.slice(name.length).replace(/^[.:]?\s*/, "");
  const set = (text: string) => setNear(text, list.day);
  // The method stands once in the pack, beside what is weighed; what no batch sheet tells is told here.
  const sheet = task && sheets.get(`${task.preparation}/${task.batch}`);
  const method = sheet?.steps.some(({ text }) => text === rest) ? sheet : undefined;
  // Of "1.75 kg, 20 pieces" the weight stands large, the pieces first below the name.
  const [amount, pieces] = entry.amount.split(/, (?=\d)/);
  const said = [
    ...(pieces === undefined ? [] : [{ text: pieces, bold: true }]),
    {
      text: entry.clean === undefined ? "" : `▲ ${cleanSaid(say, entry.clean, paper.allergens)}`,
      bold: true,
    },
    { text: entry.hands.map(cook).join("; ") },
    ...entry.equipment.map((text) => ({ text: set(text), bold: true })),
    ...entry.pull.map((text) => ({ text: set(text) })),
    ...(entry.note === undefined ? [] : [{ text: set(entry.note), color: QUIET, italics: true }]),
  ].filter(({ text }) => text !== "");
  return [
    tick(),
    {
      stack: [
        { text: write.hour(entry.start), bold: true, fontSize: TYPE.board + 1 },
        { text: say("pack.prep.to", { hour: set(entry.end) }), fontSize: TYPE.running },
        ...(method ? [pageOf(paper, method)] : []),
      ],
    },
    {
      columns: [
        {
          width: SAID,
          stack: [
            {
              text: [
                { text: set(name), bold: true, fontSize: TYPE.body + 1 },
                ...(method || rest === "" ? [] : [{ text: `  ${set(rest)}` }]),
              ],
            },
            { text: spaced(said), fontSize: TYPE.note },
          ],
        },
        {
          width: AMOUNT,
          stack: [
            { text: amount ?? "", bold: true, fontSize: TYPE.board, alignment: "right" },
            ...(task?.kind === "work" ? [writeLine(say("pack.prep.wrote"), AMOUNT, 10)] : []),
          ],
        },
      ],
      columnGap: 10,
    },
  ];
}

/** "page 51": where the method stands. A text of its own, since a number is filled in on a first line only. */
function pageOf({ say }: Paper, sheet: BatchSheet): Content {
  const page = { text: "", pageReference: sheetId(sheet) };
  return { text: [`${say("pack.prep.page")}\u00a0`, page as Content], fontSize: TYPE.running };
}

/** Texts one after the other, well apart. */
function spaced(texts: readonly Content[]): Content[] {
  return texts.flatMap((one, i) => (i === 0 ? [one] : [{ text: "   " }, one]));
}
