import { type Arc, positiveCircle } from "./circle.ts";
import type { Moment, Problem } from "./problem.ts";

/**
 * Tasks that wait for each other in a circle by least lags alone, with their shortest durations; null if none.
 * Such a problem can't be meant. (Circles that need a longest wait or a date are conflicts, found by the
 * engine, because a live plan may run into them.)
 */
export function leastCycle(problem: Problem): string[] | null {
  const index = new Map(problem.tasks.map((t, i) => [t.id, i]));
  const shortest = problem.tasks.map((t) => Math.min(...t.modes.map((m) => m.duration)));
  const offset = (m: Moment): number => (m.at === "end" ? shortest[index.get(m.task)!]! : 0);
  const arcs = (problem.lags ?? []).flatMap(({ from, to, least }): Arc[] =>
    least === undefined || from.task === to.task
      ? []
      : [
          {
            ...{ from: index.get(from.task)!, to: index.get(to.task)! },
            length: least + offset(from) - offset(to),
          },
        ],
  );
  const circle = positiveCircle(problem.tasks.length, arcs);
  if (!circle) return null;
  return [...circle.map(({ from }) => from), circle[0]!.from].map((i) => problem.tasks[i]!.id);
}
