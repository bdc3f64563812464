import type { Ink } from "../ink.ts";
import type { TimedTask } from "./staves.ts";
import type { RunTime } from "./time.ts";

/** A mark a task carries: needs a decision, breaks a rule, is done, is under way. */
export type Mark = "tight" | "broken" | "done" | "started";

/** What every part of a score needs to be drawn. */
export interface Sheet {
  readonly time: RunTime;
  readonly ink: Ink;
  /** along: time to the right. down: time downwards, for a tall narrow screen. */
  readonly direction: "along" | "down";
  readonly size: number;
  readonly serviceMinute: number;
  readonly now?: number | undefined;
  readonly markOf: (entry: TimedTask) => Mark | undefined;
  /** What a task is, said whole, for those who can't see it. */
  readonly describe: (entry: TimedTask) => string;
  readonly chosen?: string | undefined;
  /** Tasks whose start, hands or equipment the chef has decided. */
  readonly pinned?: ReadonlySet<string> | undefined;
  /** Hours in which hands are full: a thick bar under the figures of the hours. */
  readonly peaks?: readonly { readonly from: number; readonly to: number }[] | undefined;
  readonly writeHour: (minute: number) => string;
  readonly writeDay: (minute: number) => string;
  readonly writeC: (celsius: number) => string;
}

/** Rectangle attributes from along and across, whichever way time runs. */
export function box(
  sheet: Pick<Sheet, "direction">,
  from: number,
  across: number,
  length: number,
  breadth: number,
) {
  return sheet.direction === "along"
    ? { x: from, y: across, width: length, height: breadth }
    : { x: across, y: from, width: breadth, height: length };
}

/** A point from along and across. */
export function point(sheet: Sheet, along: number, across: number): readonly [number, number] {
  return sheet.direction === "along" ? [along, across] : [across, along];
}
