import type { Use } from "../formula/schema.ts";
import type { PlanTask } from "../run/result.ts";
import { named } from "./named.ts";
import type { Load, Parts } from "./parts.ts";
import type { Scope } from "./scope.ts";
import type { Finding } from "./types.ts";

export type Equipment = Scope["kitchen"]["equipment"][number];

/** A unit of equipment taken by a load for a stretch of time. */
export interface Stay {
  readonly unit: string;
  readonly equipment: Equipment;
  readonly load: Load;
  /** Task in which it begins. */
  readonly task: string;
  readonly from: number;
  readonly to: number;
  readonly space: readonly { readonly unit: string; readonly value: number }[];
  readonly setC?: number | undefined;
  readonly toleranceC: number;
  readonly exclusive: boolean;
  /** How deep the food lies, mm; 0 where nobody says. */
  readonly depthMm: number;
}

/** Dimensions that come whole only. */
const WHOLE = new Set(["shelf", "burner", "piece"]);

/** Finds which unit each use of each load has in the plan; what has none, or one that cannot serve, is told. */
export function staysOf(scope: Scope, parts: Parts): { stays: Stay[]; findings: Finding[] } {
  const stays: Stay[] = [];
  const findings: Finding[] = [];
  for (const load of parts.loads) {
    const given = new Map<PlanTask, Set<PlanTask["equipment"][number]>>();
    for (const uses of together(load.step.uses)) {
      const { during } = uses[0]!;
      const tasks = [
        ...(during === "passive" ? [] : [load.work]),
        ...(during === "work" ? [] : [load.wait]),
      ].filter((task) => task !== undefined);
      const first = tasks[0];
      if (!first) continue;
      const found = tasks.map((task) => entryFor(scope, task, uses, given));
      const say = (rule: string, by: number, unit: string, what: string) =>
        findings.push({ rule, tasks: [first.id], by, unit, what: `${named(first.id)}: ${what}` });
      const name = uses[0]!.equipment ?? uses[0]!.kind ?? "";
      const at = found.indexOf(undefined);
      if (at >= 0) {
        findings.push({
          ...{ rule: "equipment", tasks: [tasks[at]!.id], by: 1, unit: "unit" },
          what: `${named(tasks[at]!.id)} has no ${named(name, "unit")}`,
        });
        continue;
      }
      const [unit, other] = found as PlanTask["equipment"];
      if (other && other.id !== unit!.id)
        say("equipment", 1, "unit", `moves from ${named(unit!.id, "unit")} to ${named(other.id, "unit")}`);
      const equipment = equipmentOf(scope, unit!.id)!;
      const stay = stayOf(scope, load, uses, equipment, unit!.id, tasks);
      stays.push(stay);
      judgeEntry(stay, unit!, say);
      for (const task of tasks) findings.push(...judgeSpace(stay, task));
    }
    for (const task of [load.work, load.wait])
      for (const entry of task?.equipment ?? [])
        if (!given.get(task!)?.has(entry))
          findings.push({
            ...{ rule: "equipment", tasks: [task!.id], by: 1, unit: "unit" },
            what: `${named(task!.id)} has ${named(entry.id, "unit")}, which its step does not ask for`,
          });
  }
  return { stays, findings };
}

/** Uses of one kind, time and temperature are one need on one unit. */
function together(uses: readonly Use[]): Use[][] {
  const groups = new Map<string, Use[]>();
  for (const use of uses) {
    const key = JSON.stringify([use.kind, use.equipment, use.during, use.setC]);
    groups.set(key, [...(groups.get(key) ?? []), use]);
  }
  return [...groups.values()];
}

function entryFor(
  scope: Scope,
  task: PlanTask,
  uses: readonly Use[],
  given: Map<PlanTask, Set<PlanTask["equipment"][number]>>,
): PlanTask["equipment"][number] | undefined {
  const taken = given.get(task) ?? new Set();
  given.set(task, taken);
  const { kind, equipment: id, setC } = uses[0]!;
  const fits = (entry: PlanTask["equipment"][number]) => {
    const equipment = equipmentOf(scope, entry.id);
    return (
      !taken.has(entry) && equipment !== undefined && (id ? equipment.id === id : equipment.kind === kind)
    );
  };
  const entry =
    task.equipment.find((each) => fits(each) && each.setC === setC) ??
    task.equipment.find((each) => fits(each));
  if (!entry) return undefined;
  // A plan may write one unit once for each dimension of room it gives.
  for (const each of task.equipment)
    if (each.id === entry.id && each.setC === entry.setC && fits(each)) taken.add(each);
  return entry;
}

/** The equipment that a unit of the plan is one of: "deck-oven#2". */
export function equipmentOf(scope: Scope, unit: string): Equipment | undefined {
  const [, id, number] = /^(.*?)(?:#(\d+))?$/.exec(unit) ?? [];
  const equipment = scope.kitchen.equipment.find((each) => each.id === id);
  return equipment && Number(number ?? 1) >= 1 && Number(number ?? 1) <= equipment.count
    ? equipment
    : undefined;
}

function stayOf(
  scope: Scope,
  load: Load,
  uses: readonly Use[],
  equipment: Equipment,
  unit: string,
  tasks: readonly PlanTask[],
): Stay {
  const space = new Map<string, number>();
  for (const use of uses) {
    const times = { batch: 1 / load.of, kg: Math.max(load.inKg, load.outKg), piece: load.pieces }[use.per];
    space.set(use.space.unit, (space.get(use.space.unit) ?? 0) + use.space.value * times);
  }
  const whole = (dimension: string, value: number) =>
    WHOLE.has(dimension) ? Math.ceil(value - 1e-9) : value;
  const tolerances = uses.flatMap((use) => use.toleranceC ?? []);
  const last = tasks.at(-1)!;
  // A waiting that was broken off has left its unit, and takes one anew when it goes on.
  const left = (scope.begun?.get(last.id) ?? last.startMin) < last.startMin;
  const from = left ? last.startMin : tasks[0]!.startMin;
  return {
    ...{ unit, equipment, load, task: tasks[0]!.id, from, to: last.endMin },
    space: [...space].map(([dimension, value]) => ({ unit: dimension, value: whole(dimension, value) })),
    setC: uses[0]!.setC,
    toleranceC: tolerances.length > 0 ? Math.min(...tolerances) : (equipment.toleranceC ?? 0),
    exclusive: uses.some((use) => use.exclusive === true),
    depthMm: Math.max(0, ...uses.flatMap((use) => use.depthMm ?? [])),
  };
}

/** One unit by itself: its temperature, its room, and what the plan says of them. */
function judgeEntry(
  stay: Stay,
  entry: PlanTask["equipment"][number],
  say: (rule: string, by: number, unit: string, what: string) => void,
): void {
  const { equipment, setC } = stay;
  if (entry.setC !== setC)
    say(
      "temperature",
      Math.abs((entry.setC ?? 0) - (setC ?? 0)),
      "°C",
      `${named(entry.id, "unit")} is set to ${entry.setC} °C, not ${setC}`,
    );
  const [low, high] = equipment.rangeC ?? [-Infinity, Infinity];
  if (setC !== undefined && (setC < low || setC > high))
    say(
      "range",
      setC < low ? low - setC : setC - high,
      "°C",
      `${named(entry.id, "unit")} cannot be set to ${setC} °C`,
    );
  const { maxDepthMm = Infinity } = equipment;
  if (stay.depthMm > maxDepthMm)
    say(
      "depth",
      stay.depthMm - maxDepthMm,
      "mm",
      `${named(entry.id, "unit")} takes food no deeper than ${maxDepthMm} mm`,
    );
  for (const need of stay.space) {
    const room = equipment.capacity.find((each) => each.unit === need.unit);
    if (!room)
      say("room", need.value, need.unit, `${named(entry.id, "unit")} states no room in ${need.unit}`);
  }
}

/** What a task says it takes of the unit, in each dimension it names. */
function judgeSpace({ unit, space }: Stay, task: PlanTask): Finding[] {
  return task.equipment.flatMap((entry): Finding[] => {
    const need = space.find((each) => each.unit === entry.unit);
    if (entry.id !== unit || !need) return [];
    const by = Math.abs(entry.space - need.value);
    if (by <= 1e-3 * Math.max(1, need.value)) return [];
    const what = `${named(task.id)}: takes ${need.value} ${need.unit}, not ${entry.space}`;
    return [{ rule: "room", tasks: [task.id], by, unit: need.unit, what }];
  });
}
