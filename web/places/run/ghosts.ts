import type { KeptPlan } from "../../../core/run/compare.ts";
import type { Plan } from "../../../core/run/result.ts";
import type { TriedMove } from "../../../core/run/try-move.ts";
import type { Place } from "./use-move.ts";

/** So many dashed bars can still be read beside the plan; of more, only what belongs to the chosen task is drawn. */
export const MOST_GHOSTS = 24;

/** Where the others that would move would stand; the task itself is drawn where it is dragged. */
export function triedPlaces({ moved, pin }: TriedMove): ReadonlyMap<string, Place> {
  return new Map(moved.filter((each) => each.task !== pin.task).map((each) => [each.task, each]));
}

/** Where tasks stand in the other plan, of those that stand elsewhere now. */
export function otherPlaces(other: KeptPlan, { tasks }: Plan): ReadonlyMap<string, Place> {
  const now = new Map(tasks.map((task) => [task.id, task.startMin]));
  return new Map(
    other.tasks.flatMap((task) => (now.get(task.id) === task.startMin ? [] : [[task.id, task] as const])),
  );
}

/**
 * Those to be drawn: all while they are few, else the chosen task's, with what it comes after, what comes after it, and
 * its own waiting and look-ins.
 */
export function ghostsShown(
  all: ReadonlyMap<string, Place>,
  { tasks }: Plan,
  chosen: string | undefined,
): ReadonlyMap<string, Place> {
  if (all.size <= MOST_GHOSTS) return all;
  const task = tasks.find(({ id }) => id === chosen);
  if (!task) return new Map();
  const own = task.id.replace(/\/(wait|look-\d+)$/, "");
  const near = new Set([task.id, ...task.after]);
  for (const { id, after } of tasks)
    if (id === own || id.startsWith(`${own}/`) || after.includes(task.id)) near.add(id);
  return new Map([...all].filter(([id]) => near.has(id)));
}
