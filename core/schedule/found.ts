import type { Problem, Result, Schedule, Term } from "./problem.ts";

/** What only a search can tell of a problem; all the rest of an answer follows from it by sums, and is summed anew. */
export interface Found {
  readonly schedule: Schedule;
  readonly reason: Result["reason"];
  /** Schedules the search took. */
  readonly schedules: number;
  readonly bounds: readonly (readonly [Term, number])[];
}

/** Plans that were found before. The same question has the same answer, so a search may be spared. */
export interface FoundPlans {
  /** @param asked the question, whole (`questionOf`) */
  find(asked: string): Found | undefined;
  keep(asked: string, found: Found): void;
}

/** Problem and effort as text: all that an answer hangs on. */
export function questionOf(problem: Problem, effort: object): string {
  return JSON.stringify([effort, problem]);
}

/** What the search found; undefined when it planned nothing, or was stopped by a clock and might find more. */
export function foundIn(result: Result): Found | undefined {
  const { schedule, reason, schedules, objective } = result;
  if (!schedule || reason === "stopped" || reason === "refused") return undefined;
  const bounds = objective.flatMap(({ term, bound }) =>
    bound === undefined ? [] : [[term, bound] as const],
  );
  return { schedule, reason, schedules, bounds };
}

/** Whether the schedule speaks of this problem's tasks, ways and spans; whether it keeps the rules is judged after. */
export function speaksOf(problem: Problem, { schedule }: Found): boolean {
  const { placements, spans } = schedule;
  return (
    placements.length === problem.tasks.length &&
    spans.length === (problem.spans ?? []).length &&
    problem.tasks.every((task, i) => {
      const place = placements[i]!;
      const mode = task.modes[place.mode];
      return place.task === task.id && mode && (mode.resources ?? []).length === place.resources.length;
    })
  );
}
