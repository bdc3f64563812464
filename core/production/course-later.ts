import type { Told } from "./live-entries.ts";
import type { Task, TaskSet } from "./tasks.ts";

/** The tasks with a course so many minutes later: its moment, and its plates with their window. */
export function courseLater(tasks: readonly Task[], course: string, by: number): Task[] {
  return tasks.map((task): Task => {
    const plates = task.kind === "plate" && task.step === course;
    if (!plates && task.id !== `course/${course}`) return task;
    return {
      ...task,
      ...(task.at === undefined ? {} : { at: task.at + by }),
      ...(task.release === undefined ? {} : { release: task.release + by }),
      ...(task.deadline === undefined ? {} : { deadline: task.deadline + by }),
    };
  });
}

/**
 * The tasks as somebody called courses late: each with its plates, which begin as much later than planned, so that nothing
 * waits on a plate for a course that waits. The same set where nobody has.
 * @param planned where tasks begin in the plan before anything happened
 */
export function calledLate(
  set: TaskSet,
  { marks }: Told,
  planned: (task: string) => number | undefined,
): TaskSet {
  const called = set.tasks.flatMap((task) => {
    if (task.at === undefined || task.id !== `course/${task.step}`) return [];
    const by = (marks.get(task.id)?.notBefore ?? task.at) - task.at;
    return by > 0 ? [{ course: task.step, by }] : [];
  });
  if (called.length === 0) return set;
  const later = new Map(called.map(({ course, by }) => [course, by]));
  const moved = called.reduce<readonly Task[]>(
    (all, { course, by }) => courseLater(all, course, by),
    set.tasks,
  );
  const tasks = moved.map((task): Task => {
    const by = task.kind === "plate" ? later.get(task.step) : undefined;
    const start = planned(task.id);
    if (by === undefined || start === undefined) return task;
    return { ...task, release: Math.max(task.release ?? 0, start + by) };
  });
  return { ...set, tasks };
}
