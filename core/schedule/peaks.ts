import { minutesIn, workOf } from "./calendar.ts";
import type { Interval, Objective, Placement, Problem } from "./problem.ts";

/** One stretch of the axis: minutes of hands at work in it, and of those there. */
export interface Stretch extends Interval {
  readonly worked: number;
  readonly there: number;
  /** Minutes of hands at work above the share that is counted as comfortable. */
  readonly over: number;
}

/**
 * How full the hands are, stretch by stretch (S21): a person works while on a task and inside the own hours, so that
 * overtime, which is a breach, is no peak as well. Stretches in which nobody is there are left out.
 */
export function stretchesOf(
  problem: Problem,
  placements: readonly Placement[],
  { share, every, from = 0 }: Omit<NonNullable<Objective["peak"]>, "weight">,
): Stretch[] {
  const hours = new Map((problem.persons ?? []).map((person) => [person.id, workOf(person)]));
  const stretches: Stretch[] = [];
  for (let at = from > 0 ? from - every : 0; at < problem.horizon; at += every) {
    const stretch = { from: Math.max(0, at), to: Math.min(at + every, problem.horizon) };
    let there = 0;
    for (const list of hours.values()) there += minutesIn(list, stretch.from, stretch.to);
    if (there === 0) continue;
    let worked = 0;
    for (const p of placements)
      for (const id of p.persons)
        worked += minutesIn(hours.get(id)!, Math.max(p.start, stretch.from), Math.min(p.end, stretch.to));
    stretches.push({ ...stretch, worked, there, over: Math.max(0, worked - share * there) });
  }
  return stretches;
}
