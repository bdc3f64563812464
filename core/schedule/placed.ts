import type { Moment, Placement, Task } from "./problem.ts";

/** Task and placement by id. */
export type Placed = ReadonlyMap<string, { readonly task: Task; readonly placement: Placement }>;

/** Minute of a moment in a schedule. */
export function momentOf(m: Moment, placed: Placed): number {
  return placed.get(m.task)!.placement[m.at];
}
