import type { TimedTask } from "./staves.ts";

/** What is left of a hold along time: 1 when the task ends, 0 when the hold is over. */
export interface Wedge {
  readonly from: number;
  /** Moment at which what is held is used. */
  readonly used: number;
  readonly over: number;
  /** Share of the hold left when it is used, 0 to 1: the blunt end of the wedge. */
  readonly left: number;
}

/** Holds up to this long are always drawn, minutes. */
const SHORT = 360;
/** Longer ones when more than this share of them is used. */
const NEARLY_USED = 0.75;

/** The wedge of a task's hold (D7); none when it has no hold. */
export function wedgeOf({ task, to }: TimedTask): Wedge | undefined {
  const hold = task.hold;
  if (!hold || hold.maxMin <= 0) return undefined;
  const left = Math.max(0, 1 - hold.usedMin / hold.maxMin);
  return { from: to, used: to + hold.usedMin, over: to + hold.maxMin, left };
}

/** Whether a hold can matter to the plan's reader without being asked for: it is short, or nearly used up. */
export function holdMatters(entry: TimedTask): boolean {
  const hold = entry.task.hold;
  if (!hold || hold.usedMin <= 0) return false;
  return hold.maxMin <= SHORT || hold.usedMin / hold.maxMin > NEARLY_USED;
}
