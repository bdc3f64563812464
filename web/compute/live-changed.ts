import type { PlanTask } from "../../core/run/result.ts";

/** A plan's tasks in their order: by id alone where the other side has the same. */
export type ToldTasks = readonly (string | PlanTask)[];

export type TasksById = ReadonlyMap<string, PlanTask>;

export const tasksById = (tasks: readonly PlanTask[]): TasksById =>
  new Map(tasks.map((task) => [task.id, task]));

/** @param known what the other side has */
export function toldTasks(known: TasksById, tasks: readonly PlanTask[]): ToldTasks {
  return tasks.map((task) => (alike(known.get(task.id), task) ? task.id : task));
}

/** The tasks again; one that did not change is the same object as before. */
export function tasksTold(known: TasksById, told: ToldTasks): PlanTask[] {
  return told.map((one) => (typeof one === "string" ? known.get(one)! : one));
}

/** Whether two values of plain data say the same. */
export function alike(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (Array.isArray(a))
    return Array.isArray(b) && a.length === b.length && a.every((one, k) => alike(one, b[k]));
  const [x, y] = [a as Record<string, unknown>, b as Record<string, unknown>];
  const keys = Object.keys(x);
  // A key that is there without a value is as good as none.
  return (
    keys.every((key) => alike(x[key], y[key])) &&
    Object.keys(y).every((key) => key in x || y[key] === undefined)
  );
}
