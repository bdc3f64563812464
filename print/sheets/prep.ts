import type { Content, TableCell } from "pdfmake/interfaces.js";
import type { PlanTask, PrepList } from "../../core/run/result.ts";
import type { SheetPages } from "../frame.ts";
import type { Paper } from "../paper.ts";
import { MARGIN, QUIET, quiet, ruled, sheetTitle, TYPE, tick, writeLine } from "../parts.ts";

/** Who does what at each station on each day, in the order of the plan; to be read at arm's length. */
export function prepPages(paper: Paper): SheetPages[] {
  const { result, say, write } = paper;
  const tasks = new Map(result.plan.tasks.map((task) => [task.id, task]));
  return result.prepLists.map((list) => {
    const day = write.shortDate(list.date);
    return {
      name: say("pack.prep.station", { station: list.name, day }),
      content: [
        sheetTitle(
          say("pack.prep.station", { station: list.name, day }),
          list.day === "D"
            ? say("pack.day.service", { day: write.date(list.date) })
            : `${write.date(list.date)}, ${list.day}`,
        ),
        ruled(
          [20, 54, "*", MARGIN],
          undefined,
          list.entries.map((entry) => row(paper, list, entry, tasks.get(entry.task))),
        ),
      ],
    };
  });
}

function row(
  { write, say, set: setDated }: Paper,
  list: PrepList,
  entry: PrepList["entries"][number],
  task: PlanTask | undefined,
): TableCell[] {
  const name = task?.name ?? "";
  const [head, rest] = entry.text.startsWith(name)
    ? [name, entry.text.slice(name.length).replace(/^[.:]?\s*/, "")]
    : ["", entry.text];
  const works = task?.kind === "work";
  const set = (text: string) => setDated(text, list.day);
  const line = (text: string, bold = false): Content => ({ text: set(text), fontSize: TYPE.note, bold });
  return [
    tick(),
    {
      stack: [
        { text: write.hour(entry.start), bold: true, fontSize: TYPE.board + 2 },
        quiet(say("pack.prep.to", { hour: set(entry.end) })),
      ],
    },
    {
      stack: [
        ...(head === "" ? [] : [{ text: set(head), bold: true, fontSize: TYPE.board }]),
        ...(rest === "" ? [] : [{ text: set(rest), fontSize: TYPE.body, margin: [0, 2, 0, 0] } as Content]),
        ...(works ? [writeLine(say("pack.prep.wrote"), 250, 17)] : []),
      ],
    },
    {
      stack: [
        ...(entry.amount === "" ? [] : [{ text: entry.amount, bold: true, fontSize: TYPE.board }]),
        ...(entry.hands.length === 0 ? [] : [line(entry.hands.join("; "))]),
        ...entry.equipment.map((text) => line(text, true)),
        ...entry.pull.map((text) => line(text)),
        ...(entry.note === undefined
          ? []
          : [{ text: set(entry.note), fontSize: TYPE.note, color: QUIET, italics: true }]),
      ],
    },
  ];
}
