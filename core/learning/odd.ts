import { studentCdf } from "../numerics/student.ts";
import type { Belief } from "./conjugate.ts";
import { fitTo, type Seen } from "./fit.ts";

/** Below this chance a measurement is asked about. One in a hundred that are quite in order is asked about too. */
export const ODD_BELOW = 0.01;

/**
 * How likely a measurement as far off as each one was, by what all the others tell of that cook's next lot (two-sided
 * posterior predictive p, each left out in turn; BDA3 §6.3, with the one judged left out).
 */
export function oddness(prior: Belief, seen: readonly Seen[]): number[] {
  return seen.map((_, i) => oddnessAt(prior, seen, i));
}

/** The same of one of them. */
export function oddnessAt(prior: Belief, seen: readonly Seen[], i: number): number {
  const { y, by } = seen[i]!;
  const next = fitTo(prior, seen.toSpliced(i, 1)).nextBy(by);
  const below = studentCdf((y - next.mean) / next.scale, next.nu);
  return 2 * Math.min(below, 1 - below);
}
