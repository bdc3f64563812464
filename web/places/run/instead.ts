import type { Kitchen } from "../../../core/production/schema.ts";
import { unitsOf } from "../../../core/production/units.ts";
import type { PlanTask } from "../../../core/run/result.ts";
import type { Pin } from "./pins.ts";

/** Somebody, or some equipment, in the place of what a task has. */
export interface Instead {
  readonly kind: "person" | "equipment";
  readonly from: string;
  readonly to: string;
}

/** Who or what might stand in: everybody of the crew, the units of the same kind. Whether they can is the planner's word. */
export function othersFor(kitchen: Kitchen, kind: Instead["kind"], id: string): readonly string[] {
  if (kind === "person") return kitchen.crew.map((person) => person.id);
  const { all } = unitsOf(kitchen);
  const own = all.find((unit) => unit.id === id)?.equipment.kind;
  return all.filter((unit) => unit.equipment.kind === own).map((unit) => unit.id);
}

/** What of a task could be somebody's or something's else: its hands, and units of which there are others. */
export function replaceable(kitchen: Kitchen, task: PlanTask): Omit<Instead, "to">[] {
  const units = [...new Set(task.equipment.map((use) => use.id))];
  return [
    ...task.hands.map((from) => ({ kind: "person" as const, from })),
    ...units.map((from) => ({ kind: "equipment" as const, from })),
  ].filter(({ kind, from }) => othersFor(kitchen, kind, from).length > 1);
}

/** A task put elsewhere as a pin: a start where it moved in time, else only who or what it gets. */
export function pinOf(
  { task, startMin, instead }: { task: PlanTask; startMin: number; instead?: Instead | undefined },
  write: (minute: number) => string,
): Pin {
  const start = startMin !== task.startMin || !instead ? { start: write(startMin) } : {};
  if (!instead) return { task: task.id, ...start };
  const { kind, from, to } = instead;
  if (kind === "equipment") return { task: task.id, ...start, equipment: [to] };
  return { task: task.id, ...start, crew: task.hands.map((id) => (id === from ? to : id)) };
}
