import { named } from "./named.ts";
import type { Parts } from "./parts.ts";
import type { Scope } from "./scope.ts";
import { covered, type Span, shared, worstOfStretches } from "./spans.ts";
import { type Finding, roundUp } from "./types.ts";
import { type Stay, staysOf } from "./units.ts";

/** Kinds that hold one preparation at a time and are cleaned before another (production, P9). */
export const VESSELS = new Set(["kettle", "mixer", "blender", "stick-blender", "cutter", "batch-freezer"]);

/** Judges equipment: a unit for each use, its room, one temperature at a time, changes, cleaning, days. */
export function judgeEquipment(scope: Scope, parts: Parts): Finding[] {
  const { stays, findings } = staysOf(scope, parts);
  const found = [...findings];
  for (const stay of stays) found.push(...judgeDays(scope, stay));
  const byUnit = new Map<string, Stay[]>();
  for (const stay of stays)
    if (stay.to > stay.from) byUnit.set(stay.unit, [...(byUnit.get(stay.unit) ?? []), stay]);
  for (const own of byUnit.values()) {
    own.sort((a, b) => a.from - b.from);
    found.push(...judgeRoom(own));
    own.forEach((a, i) => {
      for (const b of own.slice(i + 1)) found.push(...judgePair(a, b));
    });
  }
  return found;
}

function judgeDays(scope: Scope, stay: Stay): Finding[] {
  const { days } = stay.equipment;
  if (!days) return [];
  const open = days.map((span): Span => [scope.minuteOf(span.from), scope.minuteOf(span.to)]);
  const by = stay.to - stay.from - covered(open, stay.from, stay.to);
  if (by <= 0) return [];
  const what = `${named(stay.unit, "unit")} is not there for ${by} min of ${named(stay.task)}`;
  return [{ rule: "days", tasks: [stay.task], by, unit: "min", what }];
}

/** In each dimension no more than the unit holds; each unbroken stretch of too much is told by its worst moment. */
function judgeRoom(own: readonly Stay[]): Finding[] {
  const found: Finding[] = [];
  for (const { unit: dimension, value: room } of own[0]!.equipment.capacity) {
    const taking = own.filter((stay) => spaceIn(stay, dimension) > 0);
    const hereAt = (at: number) => taking.filter((stay) => stay.from <= at && stay.to > at);
    const over = (at: number) => {
      const by = hereAt(at).reduce((sum, stay) => sum + spaceIn(stay, dimension), 0) - room;
      return by > 1e-6 * room ? by : 0;
    };
    const moments = taking.flatMap((stay) => [stay.from, stay.to]);
    for (const { at, by } of worstOfStretches(moments, over)) {
      const tasks = hereAt(at).map((stay) => stay.task);
      const what = `${named(own[0]!.unit, "unit")} is over full by ${by} ${dimension} with ${named(tasks.at(-1)!)}${others(tasks)}`;
      found.push({ rule: "room", tasks, by, unit: dimension, what });
    }
  }
  return found;
}

const others = (tasks: readonly string[]) =>
  tasks.length > 1
    ? ` beside ${tasks
        .slice(0, -1)
        .map((id) => named(id))
        .join("; ")}`
    : "";

const spaceIn = (stay: Stay, dimension: string) =>
  stay.space.find((each) => each.unit === dimension)?.value ?? 0;

/** Two stays on one unit, `a` beginning no later than `b`. */
function judgePair(a: Stay, b: Stay): Finding[] {
  const found: Finding[] = [];
  const say = (rule: string, by: number, unit: string, what: string) =>
    found.push({
      rule,
      tasks: [a.task, b.task],
      by,
      unit,
      what: `${named(a.unit, "unit")}, ${named(a.task)} and ${named(b.task)}: ${what}`,
    });
  const overlap = shared([a.from, a.to], [b.from, b.to]);
  const gap = b.from - a.to;
  if (overlap > 0 && (a.exclusive || b.exclusive))
    say("exclusive", overlap, "min", "one of them wants it alone");
  if (VESSELS.has(a.equipment.kind) && a.load.preparation.id !== b.load.preparation.id) {
    const clean = roundUp(a.equipment.cleanMin ?? 0);
    if (overlap > 0) say("exclusive", overlap, "min", "it holds one preparation at a time");
    else if (gap < clean)
      say("cleaning", clean - gap, "min", `it takes ${clean} min to clean, ${Math.max(0, gap)} are left`);
  }
  if (a.setC === undefined || b.setC === undefined) return found;
  const apart = Math.abs(a.setC - b.setC);
  if (apart <= Math.min(a.toleranceC, b.toleranceC) + 1e-9) return found;
  if (overlap > 0) say("temperature", apart, "°C", `${a.setC} and ${b.setC} °C at once`);
  else {
    const { perKMin = 0, leastMin = 0 } = a.equipment.changeover ?? {};
    const change = roundUp(Math.max(leastMin, perKMin * apart));
    if (gap < change)
      say(
        "changeover",
        change - gap,
        "min",
        `it takes ${change} min from ${a.setC} to ${b.setC} °C, ${Math.max(0, gap)} are left`,
      );
  }
  return found;
}
