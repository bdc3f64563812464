import type { Moment, Problem } from "./problem.ts";

/**
 * Tasks that wait for each other in a circle by least lags alone, with their shortest durations; null if none.
 * Such a problem can't be meant. (Circles that need a longest wait or a date are conflicts, found by the
 * engine, because a live plan may run into them.) Bellman-Ford on longest paths.
 */
export function leastCycle(problem: Problem): string[] | null {
  const index = new Map(problem.tasks.map((t, i) => [t.id, i]));
  const n = problem.tasks.length;
  const shortest = problem.tasks.map((t) => Math.min(...t.modes.map((m) => m.duration)));
  const offset = (m: Moment): number => (m.at === "end" ? shortest[index.get(m.task)!]! : 0);
  const arcs: [number, number, number][] = [];
  for (const lag of problem.lags ?? []) {
    if (lag.least === undefined || lag.from.task === lag.to.task) continue;
    arcs.push([
      index.get(lag.from.task)!,
      index.get(lag.to.task)!,
      lag.least + offset(lag.from) - offset(lag.to),
    ]);
  }
  const far = new Array<number>(n).fill(0);
  const before = new Array<number>(n).fill(-1);
  for (let round = 0; round <= n; round++) {
    let moved = -1;
    for (const [a, b, w] of arcs)
      if (far[a]! + w > far[b]!) {
        far[b] = far[a]! + w;
        before[b] = a;
        moved = b;
      }
    if (moved < 0) return null;
    if (round === n) {
      let at = moved;
      for (let i = 0; i < n; i++) at = before[at]!;
      const ids = [problem.tasks[at]!.id];
      for (let k = before[at]!; k !== at; k = before[k]!) ids.push(problem.tasks[k]!.id);
      ids.push(problem.tasks[at]!.id);
      return ids.reverse();
    }
  }
  return null;
}
