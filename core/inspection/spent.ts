import type { PlanTask, PlateCount } from "../run/result.ts";
import { namedForm } from "./forms.ts";
import type { Parts } from "./parts.ts";
import type { Scope } from "./scope.ts";
import { CRUMB, roundDown, roundUp } from "./types.ts";
import { type Stay, staysOf } from "./units.ts";
import { workMinutes } from "./work.ts";

/**
 * How often a unit is brought to another temperature: for the first load that asks for one, and for each that could not
 * share the temperature of the one before it. Undefined where a unit's temperatures are not stated, or a load stands in it
 * for no time: what has to be counted there is anybody's reading.
 */
export function heatUps(scope: Scope, parts: Parts): number | undefined {
  const set = staysOf(scope, parts).stays.filter((stay) => stay.setC !== undefined);
  const ranged = ({ equipment: { kind } }: Stay) =>
    scope.kitchen.equipment.every((each) => each.kind !== kind || each.rangeC !== undefined);
  if (!set.every((stay) => ranged(stay) && stay.to > stay.from)) return undefined;
  let count = 0;
  for (const unit of new Set(set.map((stay) => stay.unit))) {
    const own = set.filter((stay) => stay.unit === unit);
    own.sort((a, b) => a.from - b.from || a.setC! - b.setC!);
    own.forEach((stay, i) => {
      const before = own[i - 1];
      const apart = before && Math.abs(before.setC! - stay.setC!);
      if (!before || apart! > Math.min(before.toleranceC, stay.toleranceC) + CRUMB) count++;
    });
  }
  return count;
}

/** Minutes of hands beyond what each work and plate-up takes with the number of hands that makes them fewest. */
export function handsBeyond(scope: Scope, parts: Parts, plates: readonly PlateCount[]): number {
  const given = new Set(scope.service.pins.filter((pin) => pin.crew?.length).map((pin) => pin.task));
  const beyond = (task: PlanTask, minutes: (hands: number) => number, from: number, to: number) => {
    // Whoever is pinned to it does it: no other number of hands was open.
    if (given.has(task.id) || task.hands.length === 0) return 0;
    const open = Array.from({ length: Math.max(1, to - from + 1) }, (_, k) => from + k);
    const { length } = task.hands;
    return length * minutes(length) - Math.min(...open.map((hands) => hands * minutes(hands)));
  };
  let sum = 0;
  for (const load of parts.loads) {
    if (!load.work) continue;
    const able = ableFor(scope, load.step.work!.skill);
    const { least, most, split } = load.step.work!.hands;
    const from = Math.min(least, able);
    const to = split === "divides" ? Math.min(most, able) : from;
    sum += beyond(load.work, (hands) => workMinutes(scope, load, hands), from, to);
  }
  for (const task of parts.plates) {
    const rows = plates.filter((row) => row.course === task.step && row.dish === task.preparation);
    const { seconds, together } = gesturesOf(scope, rows);
    const minutes = (hands: number) => roundUp(seconds / 60 / hands);
    const window = Math.max(1, roundDown(scope.dishes.get(task.preparation)!.windowMin));
    const able = ableFor(scope, "plating");
    sum += beyond(task, minutes, Math.min(able, Math.max(together, minutes(window))), able);
  }
  return sum;
}

/** How many can do it; all, where nobody has the skill. */
function ableFor(scope: Scope, skill: string): number {
  const { crew } = scope.kitchen;
  return crew.filter((person) => person.skills.includes(skill)).length || crew.length;
}

function gesturesOf(scope: Scope, rows: readonly PlateCount[]): { seconds: number; together: number } {
  let [seconds, together] = [0, 1];
  for (const { dish, variant, count, spare } of rows) {
    if (count + spare === 0) continue;
    for (const placement of namedForm(scope.dishes.get(dish)!, variant)!) {
      seconds += (count + spare) * placement.seconds * placement.hands;
      together = Math.max(together, placement.hands);
    }
  }
  return { seconds, together };
}
