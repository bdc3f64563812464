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

/** The tasks as somebody called courses late: each with its plates. The same set where nobody has. */
export function calledLate(set: TaskSet, { marks }: Told): TaskSet {
  const called = set.tasks.flatMap((task) => {
    if (task.at === undefined || task.id !== `course/${task.step}`) return [];
    const by = (marks.get(task.id)?.notBefore ?? task.at) - task.at;
    return by > 0 ? [{ course: task.step, by }] : [];
  });
  if (called.length === 0) return set;
  const tasks = called.reduce<readonly Task[]>(
    (all, { course, by }) => courseLater(all, course, by),
    set.tasks,
  );
  return { ...set, tasks };
}
