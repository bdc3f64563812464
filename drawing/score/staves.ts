import type { PlanTask } from "../../core/run/result.ts";

/** What the staves of a score stand for. */
export type StaveKind = "station" | "person" | "equipment";

/** A task with its moments as minutes from 00:00 of the date of service. */
export interface TimedTask {
  readonly task: PlanTask;
  readonly from: number;
  readonly to: number;
}

export interface Stave {
  readonly kind: StaveKind;
  readonly id: string;
  readonly name: string;
  readonly tasks: readonly TimedTask[];
}

/**
 * Tasks in order of time on one axis.
 * @param midnight minute of the run (from its horizon) at which the date of service begins
 */
export function timed(tasks: readonly PlanTask[], midnight: number): TimedTask[] {
  return tasks
    .map((task) => ({ task, from: task.startMin - midnight, to: task.endMin - midnight }))
    .sort((a, b) => a.from - b.from || a.to - b.to || (a.task.id < b.task.id ? -1 : 1));
}

/**
 * Staves in the order of `names` (id → name), each with its tasks; a task is on every stave it uses. Staves without
 * tasks are left out; an id without a name stands last under its id.
 */
export function staves(
  tasks: readonly TimedTask[],
  kind: StaveKind,
  names: ReadonlyMap<string, string>,
): Stave[] {
  const byId = new Map<string, TimedTask[]>();
  for (const entry of tasks)
    for (const id of new Set(idsOf(entry.task, kind))) {
      const list = byId.get(id);
      if (list) list.push(entry);
      else byId.set(id, [entry]);
    }
  const order = [...names.keys()];
  const rank = (id: string) => {
    const at = order.indexOf(id);
    return at < 0 ? order.length : at;
  };
  return [...byId]
    .sort(([a], [b]) => rank(a) - rank(b) || (a < b ? -1 : 1))
    .map(([id, list]) => ({ kind, id, name: names.get(id) ?? id, tasks: list }));
}

function idsOf(task: PlanTask, kind: StaveKind): readonly string[] {
  if (kind === "station") return task.station === undefined ? [] : [task.station];
  if (kind === "person") return task.hands;
  return task.equipment.map((use) => use.id);
}
