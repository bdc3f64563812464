import { common, shiftsOf, workOf } from "./calendar.ts";
import type { Mode, Person, Problem, Task } from "./problem.ts";

/** The problem with an expected end for every started task that names none: its work run over its people's hours. */
export function withEnds(problem: Problem): Problem {
  if (!problem.tasks.some((t) => t.status === "started" && t.pin?.end === undefined)) return problem;
  const tasks = problem.tasks.map((t): Task => {
    if (t.status !== "started" || t.pin?.start === undefined || t.pin.end !== undefined) return t;
    const end = endOfWork(problem, t.modes[t.pin.mode ?? 0]!, t.pin.persons ?? [], t.pin.start);
    return { ...t, pin: { ...t.pin, end } };
  });
  return { ...problem, tasks };
}

/** Where work begun at `start` ends; worked straight through where its people's hours do not suffice. */
export function endOfWork(problem: Problem, mode: Mode, persons: readonly string[], start: number): number {
  const straight = start + mode.duration;
  const interrupt = mode.interrupt ?? "no";
  if (interrupt === "no" || persons.length === 0) return straight;
  const team = persons.map((id): Person => problem.persons!.find((p) => p.id === id)!);
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
  return straight;
}
