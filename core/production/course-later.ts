import type { Told } from "./live-entries.ts";
import type { PlanTask } from "./plan-types.ts";
import { courseTask, type Task, type TaskSet } from "./tasks.ts";

/** The tasks with a course so many minutes later: its moment, and its plates with their window. */
export function courseLater(tasks: readonly Task[], course: string, by: number): Task[] {
  return tasks.map((task): Task => {
    const plates = task.kind === "plate" && task.step === course;
    if (!plates && task.id !== courseTask(course)) return task;
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
 * @param planned the plan before anything happened
 */
export function calledLate(set: TaskSet, { marks }: Told, planned: readonly PlanTask[]): TaskSet {
  let { tasks } = set;
  for (const { id, step, at } of set.tasks) {
    if (at === undefined || id !== courseTask(step)) continue;
    const by = (marks.get(id)?.notBefore ?? at) - at;
    if (by <= 0) continue;
    const starts = new Map(planned.map((task) => [task.id, task.startMin]));
    tasks = courseLater(tasks, step, by).map((task): Task => {
      const start = task.kind === "plate" && task.step === step ? starts.get(task.id) : undefined;
      return start === undefined ? task : { ...task, release: Math.max(task.release ?? 0, start + by) };
    });
  }
  return tasks === set.tasks ? set : { ...set, tasks };
}
