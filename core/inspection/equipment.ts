import type { Parts } from "./parts.ts";
import type { Scope } from "./scope.ts";
import { covered, type Span, shared } from "./spans.ts";
import { type Finding, roundUp } from "./types.ts";
import { type Stay, staysOf } from "./units.ts";

/** Kinds that hold one preparation at a time and are cleaned before another (production, P9). */
const VESSELS = new Set(["kettle", "mixer", "blender", "stick-blender", "cutter", "batch-freezer"]);

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
  const what = `${stay.unit} is not there for ${by} min of ${stay.task}`;
  return [{ rule: "days", tasks: [stay.task], by, unit: "min", what }];
}

/** At the moment each stay begins, in each dimension: no more than the unit holds. */
function judgeRoom(own: readonly Stay[]): Finding[] {
  const found: Finding[] = [];
  for (const { unit: dimension, value: room } of own[0]!.equipment.capacity)
    for (const stay of own) {
      const here = own.filter((each) => each.from <= stay.from && each.to > stay.from);
      const taking = here.filter((each) => spaceIn(each, dimension) > 0);
      const by = taking.reduce((sum, each) => sum + spaceIn(each, dimension), 0) - room;
      if (by > 1e-6 * room && spaceIn(stay, dimension) > 0)
        found.push({
          ...{ rule: "room", tasks: taking.map((each) => each.task), by, unit: dimension },
          what: `${stay.unit} is over full by ${by} ${dimension} when ${stay.task} begins`,
        });
    }
  return found;
}

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
      what: `${a.unit}, ${a.task} and ${b.task}: ${what}`,
    });
  const overlap = shared([a.from, a.to], [b.from, b.to]);
  const gap = b.from - a.to;
  if (overlap > 0 && (a.exclusive || b.exclusive))
    say("exclusive", overlap, "min", "one of them wants it alone");
  if (VESSELS.has(a.equipment.kind) && a.load.preparation.id !== b.load.preparation.id) {
    const clean = roundUp(a.equipment.cleanMin ?? 0);
    if (overlap > 0) say("exclusive", overlap, "min", "it holds one preparation at a time");
    else if (gap < clean) say("cleaning", clean - gap, "min", `it takes ${clean} min to clean`);
  }
  if (a.setC === undefined || b.setC === undefined) return found;
  const apart = Math.abs(a.setC - b.setC);
  if (apart <= Math.min(a.toleranceC, b.toleranceC) + 1e-9) return found;
  if (overlap > 0) say("temperature", apart, "°C", `${a.setC} and ${b.setC} °C at once`);
  else {
    const { perKMin = 0, leastMin = 0 } = a.equipment.changeover ?? {};
    const change = roundUp(Math.max(leastMin, perKMin * apart));
    if (gap < change) say("changeover", change - gap, "min", `${change} min from ${a.setC} to ${b.setC} °C`);
  }
  return found;
}
