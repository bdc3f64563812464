import { common, shiftsOf, workOf } from "./calendar.ts";
import type { Problem, Task } from "./problem.ts";

/** The problem with an expected end for every started task that names none: its work run over its people's hours. */
export function withEnds(problem: Problem): Problem {
  if (!problem.tasks.some((t) => t.status === "started" && t.pin?.end === undefined)) return problem;
  const tasks = problem.tasks.map((t): Task => {
    if (t.status !== "started" || t.pin?.start === undefined || t.pin.end !== undefined) return t;
    return { ...t, pin: { ...t.pin, end: endOf(problem, t, t.pin.start) } };
  });
  return { ...problem, tasks };
}

function endOf(problem: Problem, task: Task, start: number): number {
  const mode = task.modes[task.pin?.mode ?? 0]!;
  const straight = start + mode.duration;
  const interrupt = mode.interrupt ?? "no";
  const team = (task.pin?.persons ?? []).map((id) => problem.persons!.find((p) => p.id === id)!);
  if (interrupt === "no" || team.length === 0) return straight;
  let hours = team.map(workOf).reduce(common);
  if (interrupt === "breaks") {
    const shift = team
      .map(shiftsOf)
      .reduce(common)
      .find((s) => s.from <= start && start < s.to);
    hours = shift ? common(hours, [shift]) : [];
  }
  let left = mode.duration;
  for (const h of hours) {
    const from = Math.max(h.from, start);
    if (from >= h.to) continue;
    if (h.to - from >= left) return from + left;
    left -= h.to - from;
  }
  // The hours do not suffice: what is left is worked straight through, as overtime.
  return straight;
}
