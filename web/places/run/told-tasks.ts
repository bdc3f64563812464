import type { Plan, PlanTask } from "../../../core/run/result.ts";

/** The tasks of these ids, each step once: of its work and its waiting the one that ends last. */
export function stepsOnce(plan: Plan, ids: readonly string[]): PlanTask[] {
  const byId = new Map(plan.tasks.map((task) => [task.id, task]));
  const all = new Set(ids);
  return [...all].flatMap((id) => {
    const task = byId.get(id);
    return task === undefined || all.has(`${id}/wait`) ? [] : [task];
  });
}

/** The same with the clock each begins at, where another of them has the same name. */
export function toldApart(
  tasks: readonly PlanTask[],
  clock: (text: string) => string,
): { readonly id: string; readonly text: string }[] {
  return tasks.map(({ id, name, start }) => {
    const alike = tasks.some((other) => other.id !== id && other.name === name);
    return { id, text: alike ? `${name}, ${clock(start)}` : name };
  });
}
