import { worked } from "./load.ts";
import type { Site } from "./site.ts";
import type { Lack, Task } from "./tasks.ts";
import { capacityOf } from "./units.ts";

/**
 * What no plan can give because there is not enough of it over the whole time (README, P17): minutes of hands of
 * each skill and of all, minutes of room on each kind of equipment. The least that the tasks can take is held
 * against all there is, so a lack found here is proved; none found proves nothing.
 */
export function totalLacks(site: Site, tasks: readonly Task[], horizon: number): Lack[] {
  return [...handsLacks(site, tasks), ...roomLacks(site, tasks, horizon)];
}

function handsLacks(site: Site, tasks: readonly Task[]): Lack[] {
  const wanted = new Map<string | undefined, number>();
  for (const task of tasks) {
    const least = Math.min(...task.ways.map((way) => way.hands * way.minutes));
    if (least === 0) continue;
    wanted.set(undefined, (wanted.get(undefined) ?? 0) + least);
    if (task.skill !== undefined) wanted.set(task.skill, (wanted.get(task.skill) ?? 0) + least);
  }
  const lacks: Lack[] = [];
  for (const [skill, minutes] of wanted) {
    const hands = site.crew.filter((cook) => skill === undefined || cook.skills.includes(skill));
    const there = hands
      .flatMap((cook) => cook.shifts.flatMap(worked))
      .reduce((sum, span) => sum + span.to - span.from, 0);
    if (minutes <= there) continue;
    const name = site.kitchen.skills.find((s) => s.id === skill)?.name ?? skill;
    const what = skill === undefined ? "all the work" : `the work of "${name}"`;
    lacks.push({
      rule: "hands",
      tasks: [],
      by: minutes - there,
      unit: "min",
      what: `${what} takes ${hours(minutes)} of hands, the crew has ${hours(there)}`,
    });
  }
  return lacks;
}

function roomLacks(site: Site, tasks: readonly Task[], horizon: number): Lack[] {
  const wanted = new Map<string, { units: readonly string[]; dimension: string; roomMinutes: number }>();
  for (const task of tasks) {
    const minutes = Math.min(...task.ways.map((way) => way.minutes));
    for (const need of task.uses)
      for (const { unit: dimension, value } of need.space) {
        const key = `${dimension} ${need.units.join(" ")}`;
        const known = wanted.get(key) ?? { units: need.units, dimension, roomMinutes: 0 };
        known.roomMinutes += value * minutes;
        wanted.set(key, known);
      }
  }
  const lacks: Lack[] = [];
  for (const { units, dimension, roomMinutes } of wanted.values()) {
    const able = site.units.all.filter((unit) => units.includes(unit.id));
    const open = (days: (typeof able)[number]["equipment"]["days"]) =>
      days
        ? days.reduce((sum, d) => {
            const [from, to] = [
              Math.max(0, site.clock.minuteOf(d.from)),
              Math.min(horizon, site.clock.minuteOf(d.to)),
            ];
            return sum + Math.max(0, to - from);
          }, 0)
        : horizon;
    const there = able.reduce((sum, u) => sum + (capacityOf(u, dimension) ?? 0) * open(u.equipment.days), 0);
    if (there === 0 || roomMinutes <= there * (1 + 1e-9)) continue;
    const name = able.length === 1 ? able[0]!.name : `${able.length} × ${able[0]!.equipment.name}`;
    lacks.push({
      rule: "room",
      tasks: [],
      by: (roomMinutes - there) / 60,
      unit: `${dimension} hours`,
      what: `${name} would have to be full for ${hours((roomMinutes / there) * horizon)}, there are ${hours(horizon)}`,
      units,
      times: roomMinutes / there,
    });
  }
  return lacks;
}

const hours = (minutes: number) => `${Math.round(minutes / 6) / 10} h`;
