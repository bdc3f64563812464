import type { Problem } from "../problem.ts";

/**
 * The resource-constrained project problem of the literature: activities of fixed duration, constant
 * capacities, start-to-start arcs; the makespan is to be least. With arcs that are more than "after its end"
 * it is the problem with minimum and maximum time lags (RCPSP/max).
 */
export interface Project {
  /** Activities, the file's dummies included. */
  readonly n: number;
  readonly resources: number;
  readonly duration: Int32Array;
  /** demand[i * resources + r]. */
  readonly demand: Int32Array;
  readonly capacity: Int32Array;
  /** start[to[k]] >= start[from[k]] + lag[k]. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly lag: Int32Array;
  /** Pairs that never run at once, whatever they ask for. */
  readonly apart?: readonly (readonly [number, number])[];
  /** Number of the first activity in the file: 1 (.sm) or 0 (.sch). */
  readonly base: number;
}

/** Whether every arc says only "after the end of". */
export function isPlain(p: Project): boolean {
  return p.lag.every((lag, k) => lag === p.duration[p.from[k]!]);
}

/** A makespan within which every plain project fits, and beyond which no plan with lags needs to look. */
export function longestPlan(p: Project): number {
  // Each activity lasts its duration or the longest lag that leaves it (Bartusch, Möhring and Radermacher 1988).
  const most = p.duration.slice();
  for (let k = 0; k < p.lag.length; k++) most[p.from[k]!] = Math.max(most[p.from[k]!]!, p.lag[k]!);
  return most.reduce((a, b) => a + b, 0);
}

/** The same as a general problem, for the checker. */
export function problemOf(p: Project): Problem {
  const id = (i: number) => `${i + p.base}`;
  const resources = Array.from({ length: p.resources }, (_, r) => ({
    id: `R${r + 1}`,
    capacity: [p.capacity[r]!],
  }));
  return {
    horizon: Math.max(1, longestPlan(p)),
    tasks: Array.from({ length: p.n }, (_, i) => {
      const needs = resources
        .map((r, k) => ({ of: [r.id], amount: [p.demand[i * p.resources + k]!] }))
        .filter((need) => need.amount[0]! > 0);
      return { id: id(i), modes: [{ duration: p.duration[i]!, resources: needs }] };
    }),
    lags: Array.from(p.lag, (lag, k) => ({
      from: { task: id(p.from[k]!), at: "start" as const },
      to: { task: id(p.to[k]!), at: "start" as const },
      least: lag,
    })),
    resources,
    objective: { makespan: 1, late: 0, early: 0, hold: 0, modes: 0 },
  };
}

/** Activities that ask for more than a capacity: [activity, resource]; with one of them there is no plan. */
export function tooMuch(p: Project): [number, number][] {
  const found: [number, number][] = [];
  for (let i = 0; i < p.n; i++)
    for (let r = 0; r < p.resources; r++)
      if (p.duration[i]! > 0 && p.demand[i * p.resources + r]! > p.capacity[r]!) found.push([i, r]);
  return found;
}

/** Nothing when the starts keep every arc and capacity; else the first thing they break, in words. */
export function faultOf(p: Project, start: ArrayLike<number>): string | null {
  for (let i = 0; i < p.n; i++)
    if (!Number.isInteger(start[i]) || start[i]! < 0) return `activity ${i + p.base} starts at ${start[i]}`;
  for (let k = 0; k < p.lag.length; k++) {
    const [i, j] = [p.from[k]!, p.to[k]!];
    if (start[j]! < start[i]! + p.lag[k]!)
      return `activity ${j + p.base} starts ${start[j]! - start[i]!} after ${i + p.base}, less than ${p.lag[k]}`;
  }
  for (let r = 0; r < p.resources; r++)
    for (let i = 0; i < p.n; i++) {
      // Use can only be at its largest where something starts.
      const t = start[i]!;
      let use = 0;
      for (let j = 0; j < p.n; j++)
        if (start[j]! <= t && t < start[j]! + p.duration[j]!) use += p.demand[j * p.resources + r]!;
      if (use > p.capacity[r]!) return `${use} of ${p.capacity[r]} of resource ${r + 1} in use at ${t}`;
    }
  return null;
}
