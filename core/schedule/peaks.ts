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
  const first = from > 0 ? from - every : 0;
  const count = Math.max(0, Math.ceil((problem.horizon - first) / every));
  const start = (k: number) => Math.max(0, first + k * every);
  const stop = (k: number) => Math.min(first + (k + 1) * every, problem.horizon);
  const hours = new Map((problem.persons ?? []).map((person) => [person.id, workOf(person)]));
  const worked = new Float64Array(count);
  for (const p of placements)
    for (let h = 0; h < p.persons.length; h++) {
      const list = hours.get(p.persons[h]!)!;
      for (let k = Math.max(0, Math.floor((p.start - first) / every)); k < count && start(k) < p.end; k++)
        worked[k]! += minutesIn(list, Math.max(p.start, start(k)), Math.min(p.end, stop(k)));
    }
  const stretches: Stretch[] = [];
  for (let k = 0; k < count; k++) {
    let there = 0;
    for (const list of hours.values()) there += minutesIn(list, start(k), stop(k));
    if (there === 0) continue;
    const over = Math.max(0, worked[k]! - share * there);
    stretches.push({ from: start(k), to: stop(k), worked: worked[k]!, there, over });
  }
  return stretches;
}
