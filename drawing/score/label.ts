import { fitText, wrapText } from "../text.ts";
import { type Drawn, draw } from "../tree.ts";
import type { Sheet } from "./sheet.ts";
import type { TimedTask } from "./staves.ts";

const TEXT = 14;

/** Where a task lies, for its name: along from/to, free until the next of its lane, across and breadth. */
export interface LabelPlace {
  readonly task: TimedTask["task"];
  readonly from: number;
  readonly to: number;
  readonly free: number;
  readonly across: number;
  readonly bar: number;
  /** A mark stands at the beginning of the bar. */
  readonly marked: boolean;
}

/** A task's name: in its bar where it fits, else beside it as far as the lane is free, else nowhere (D10). */
export function taskLabel(sheet: Sheet, place: LabelPlace): Drawn[] {
  return sheet.direction === "down" ? downwards(sheet, place) : along(sheet, place);
}

function along({ ink }: Sheet, { task, from, to, free, across, bar, marked }: LabelPlace): Drawn[] {
  const baseline = across + bar / 2 + 5;
  const write = (x: number, text: string, fill: string, y = baseline) =>
    text === "" ? [] : [draw("text", { x, y, "font-size": TEXT, fill }, text)];
  switch (task.kind) {
    case "work":
    case "plate": {
      const lead = marked && to - from > 20 ? 22 : 6;
      const inside = fitText(task.name, TEXT, to - from - lead - 6);
      if (inside !== "" && (inside === task.name || to - from > 60))
        return write(from + lead, inside, task.kind === "work" ? ink.ground : ink.ink);
      const beside = to + (marked && to - from <= 20 ? 8 : 4);
      return write(beside, fitText(task.name, TEXT, free - beside - 6), ink.ink);
    }
    case "milestone":
      return write(from + bar / 2 + 2, fitText(task.name, TEXT, free - from - bar), ink.ink);
    case "passive":
      return write(from + 4, fitText(task.name, TEXT, free - from - 8), ink.quiet, across + bar - 10);
  }
}

function downwards({ ink, time }: Sheet, { task, from, to, across, bar, marked }: LabelPlace): Drawn[] {
  // In a fold stands the name of the day.
  const fold = time.folds.find(({ place, width }) => place + width > from && place < to);
  const tall = task.kind === "milestone" ? 18 : Math.min(to, fold?.place ?? to) - from;
  if (tall < 15) return [];
  const top = task.kind === "milestone" ? from + 5 : from + 14;
  const lead = task.kind === "milestone" ? bar / 2 + 14 : marked ? 22 : 6;
  const lines = wrapText(task.name, TEXT, bar - lead - 4, Math.max(1, Math.floor((tall - 2) / 16)));
  const fill = task.kind === "work" ? ink.ground : ink.ink;
  return lines.map((line, i) =>
    draw("text", { x: across + lead, y: top + i * 16, "font-size": TEXT, fill }, line),
  );
}
