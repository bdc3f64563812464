import type { Step } from "../formula/schema.ts";
import { cleanFirst, eachOnce } from "./clean-first.ts";
import { massText, minutesText, nameOf } from "./names.ts";
import { pulledWhole, THAWED_IN_WATER_G } from "./plan-rules.ts";
import type { CleanFirst, PlanTask, PrepEntry, PrepList } from "./plan-types.ts";
import type { Planned } from "./planned.ts";
import type { Site } from "./site.ts";
import type { Task, TaskSet } from "./tasks.ts";
import { capacityOf } from "./units.ts";

/** Tasks beside their plan, in its order; empty when there is no plan. */
export function plannedTasks(set: TaskSet, plan: readonly PlanTask[]): Planned[] {
  return plan.map((entry, i) => ({ task: set.tasks[i]!, plan: entry }));
}

/**
 * Who does what at each station on each day, in the order of the plan (README, P18). A wait that follows its own
 * work is told with it; a course's moment is no work and is left out.
 */
export function prepLists(site: Site, planned: readonly Planned[]): PrepList[] {
  const byId = new Map(planned.map((p) => [p.task.id, p]));
  const firstUse = firstUses(site, planned);
  const cleaned = cleanFirst(site, planned);
  const lists = new Map<
    string,
    { list: Omit<PrepList, "entries">; from: number; entries: [number, PrepEntry][] }
  >();
  for (const p of planned) {
    const { task, plan } = p;
    if (task.kind === "milestone" && task.ways[0]?.hands === 0) continue;
    if (task.kind === "wait" && byId.has(task.id.replace(/\/wait$/, ""))) continue;
    const station = stationOf(site, p);
    const day = site.clock.dayOf(plan.startMin);
    const key = `${day} ${station}`;
    let found = lists.get(key);
    if (!found) {
      const name = site.kitchen.stations.find((s) => s.id === station)?.name ?? station;
      const list = { station, name, day, date: site.clock.dateOf(day) };
      found = { list, from: site.clock.spanOf(day).from, entries: [] };
      lists.set(key, found);
    }
    const wait = byId.get(`${task.id}/wait`);
    const clean = eachOnce([task.id, wait?.task.id ?? ""].flatMap((id) => cleaned.get(id) ?? []));
    found.entries.push([plan.startMin, entryOf(site, p, wait, firstUse, clean)]);
  }
  const order = new Map(site.kitchen.stations.map((s, i) => [s.id, i]));
  return [...lists.values()]
    .sort((a, b) => a.from - b.from || (order.get(a.list.station) ?? 99) - (order.get(b.list.station) ?? 99))
    .map(({ list, entries }) => ({
      ...list,
      entries: entries
        .sort((a, b) => a[0] - b[0] || (a[1].task < b[1].task ? -1 : 1))
        .map(([, entry]) => entry),
    }));
}

/** The station of the work; of the equipment; of the preparation's first work; else the first of the kitchen. */
function stationOf(site: Site, { task, plan }: Planned): string {
  if (task.station !== undefined) return task.station;
  for (const { id } of plan.equipment) {
    const unit = site.units.all.find((u) => u.id === id);
    if (unit?.equipment.station !== undefined) return unit.equipment.station;
  }
  const prep = site.docs.preparations.get(task.preparation);
  return prep?.steps.find((step) => step.work)?.work?.station ?? site.kitchen.stations[0]!.id;
}

function entryOf(
  site: Site,
  { task, plan }: Planned,
  wait: Planned | undefined,
  firstUse: ReadonlyMap<string, string>,
  clean: readonly CleanFirst[],
): PrepEntry {
  const prep = site.docs.preparations.get(task.preparation);
  const step = prep?.steps.find((s) => s.id === task.step);
  const people = new Map(site.crew.map((cook) => [cook.id, cook.name]));
  const equipment = [...plan.equipment, ...(wait?.plan.equipment ?? [])];
  const notes = [
    ...equipment.flatMap(
      ({ id }) => firstUse.get(`${task.id} ${id}`) ?? firstUse.get(`${wait?.task.id} ${id}`) ?? [],
    ),
    ...(wait && wait.task.ways[0]!.minutes > 0
      ? [`${minutesText(wait.plan.endMin - wait.plan.startMin)} by itself until ${wait.plan.end}`]
      : []),
    ...holdNote(site, wait?.plan ?? plan),
  ];
  return {
    task: task.id,
    start: plan.start,
    end: plan.end,
    text: textOf(site, task, step),
    amount: amountOf(task),
    hands: plan.hands.map((id) => people.get(id) ?? id),
    equipment: [...new Set(equipment.map((e) => equipmentText(site, e)))],
    pull: task.kind === "work" || task.kind === "wait" ? pullTexts(step, task) : [],
    ...(clean.length > 0 ? { clean } : {}),
    ...(notes.length > 0 ? { note: `${[...new Set(notes)].join("; ")}.` } : {}),
  };
}

function textOf(site: Site, task: Task, step: Step | undefined): string {
  const name = nameOf(site, task);
  if (task.kind === "look") return `${name}: look in.`;
  if (task.kind === "thaw")
    return task.uses.length > 0 || task.inG > THAWED_IN_WATER_G
      ? `${name} at 5 °C or below, on the lowest shelf.`
      : `${name} in its bag in cold water, an hour at most.`;
  return step ? `${name}. ${step.text}` : `${name}.`;
}

function amountOf(task: Task): string {
  if (task.kind === "plate") return `${task.pieces} plates`;
  if (task.kind === "milestone" || task.kind === "look") return "";
  const pieces = task.pieces > 0 ? `, ${Math.round(task.pieces * 10) / 10} pieces` : "";
  return task.inG > 0 || task.outG > 0 ? `${massText(Math.max(task.outG, 0) || task.inG)}${pieces}` : "";
}

function equipmentText(site: Site, e: PlanTask["equipment"][number]): string {
  const name = site.units.all.find((unit) => unit.id === e.id)?.name ?? e.id;
  return e.setC === undefined ? name : `${name}, ${e.setC} °C`;
}

function holdNote(site: Site, plan: PlanTask): string[] {
  if (!plan.hold) return [];
  const { state, maxMin } = plan.hold;
  return [`keep ${state} until ${site.clock.textOf(plan.endMin + maxMin)} (${minutesText(maxMin)} at most)`];
}

/** What a step pulls for one task, in words: "3 × GN 1/1 tray". */
export function pullTexts(step: Step | undefined, task: Task): string[] {
  return (step?.pull ?? []).map(
    (item) => `${pulledWhole(item.count, timesPulled(item, task))} × ${item.smallware}`,
  );
}

/** How many times a task takes what a step pulls: by its share of the batch, its kilograms out or its pieces. */
export function timesPulled(item: Step["pull"][number], task: Task): number {
  return item.per === "batch" ? task.share : item.per === "kg" ? task.outG / 1000 : task.pieces;
}

/** Notes on setting up equipment before its first use of a day, by "task unit". */
function firstUses(site: Site, planned: readonly Planned[]): Map<string, string> {
  const notes = new Map<string, string>();
  const first = new Map<string, { at: number; task: string; unit: string }>();
  for (const { task, plan } of planned)
    for (const { id } of plan.equipment) {
      const key = `${site.clock.dayOf(plan.startMin)} ${id}`;
      const known = first.get(key);
      if (!known || plan.startMin < known.at) first.set(key, { at: plan.startMin, task: task.id, unit: id });
    }
  for (const { at, task, unit: id } of first.values()) {
    const unit = site.units.all.find((u) => u.id === id);
    const setup = unit?.equipment.setupMin ?? 0;
    if (!unit || setup === 0 || capacityOf(unit, "position") !== undefined) continue;
    notes.set(`${task} ${id}`, `set up ${unit.name} from ${site.clock.textOf(Math.floor(at - setup))}`);
  }
  return notes;
}
