import type { Larder } from "../formula/larder.ts";
import type { Allergen } from "../pantry/schema.ts";
import { BENCH_WIPE_MIN, isPacked, passingOf } from "../production/contact.ts";
import type { Plan, PlanTask } from "../production/plan-types.ts";
import type { Kitchen } from "../production/schema.ts";
import { unitsOf } from "../production/units.ts";
import type { Contents } from "./contents.ts";

/** Food that stood where an allergen was, and was not cleaned off: it may contain it (README, S19). */
export interface Exposure {
  /** What was exposed, and at which task. */
  readonly preparation: string;
  readonly task: string;
  readonly allergens: readonly Allergen[];
  /** Unit or station. */
  readonly place: string;
  readonly placeName: string;
  readonly how: "beside" | "after";
  /** What brought it. */
  readonly from: string;
  readonly fromStep: string;
  readonly fromTask: string;
  /** Clock of the moment from which it may have passed. */
  readonly at: string;
}

/** Food of a task at a place, from its start to its end. */
interface Standing {
  readonly task: PlanTask;
  readonly from: number;
  readonly to: number;
  readonly carried: ReadonlySet<Allergen>;
}

interface Place {
  readonly id: string;
  readonly name: string;
  /** Empty minutes after which nothing passes from what was there before; never when undefined. */
  readonly cleanMin: number | undefined;
  readonly there: Standing[];
}

/**
 * Every exposure in a plan: by touch on one unit until it is cleaned, by air on shelves that share it at one time, on
 * one bench at one time. What stood beside or before is told with its place and clock. Traces of traces are not followed.
 */
export function exposuresIn(
  plan: Plan,
  larder: Larder,
  kitchen: Kitchen,
  carried: (preparation: string, step: string) => ReadonlySet<Allergen>,
): Exposure[] {
  const found = new Map<string, Exposure>();
  for (const place of placesOf(plan, larder, kitchen, carried)) {
    place.there.sort((a, b) => a.from - b.from || a.to - b.to);
    place.there.forEach((late, j) => {
      // Minutes in which nothing stood there, from the end of each that came before up to `late`.
      let empty = 0;
      let busyFrom = late.from;
      const before = place.there.slice(0, j).toSorted((a, b) => b.to - a.to);
      for (const early of before) {
        const together = Math.min(early.to, late.to) - late.from > 0;
        if (!together) {
          empty += Math.max(0, busyFrom - early.to);
          if (place.cleanMin !== undefined && empty >= place.cleanMin) break;
        }
        busyFrom = Math.min(busyFrom, early.from);
        const how = together ? "beside" : "after";
        meet(found, place, early, late, how);
        if (together) meet(found, place, late, early, how);
      }
    });
  }
  return [...found.values()];
}

/** `to` stands where `from` stands or stood: what `from` brings and `to` has not is told, the first time it happens. */
function meet(
  found: Map<string, Exposure>,
  { id, name }: Place,
  from: Standing,
  to: Standing,
  how: Exposure["how"],
): void {
  const [a, b] = [from.task, to.task];
  if (a.preparation === b.preparation) return;
  const allergens = [...from.carried].filter((one) => !to.carried.has(one));
  const key = [b.preparation, id, a.preparation, a.step, allergens.join()].join(" ");
  if (allergens.length === 0 || found.has(key)) return;
  found.set(key, {
    ...{ preparation: b.preparation, task: b.id, allergens, place: id, placeName: name, how },
    ...{ from: a.preparation, fromStep: a.step, fromTask: a.id },
    at: to.from >= from.from ? b.start : a.start,
  });
}

function placesOf(
  plan: Plan,
  larder: Larder,
  kitchen: Kitchen,
  carried: (preparation: string, step: string) => ReadonlySet<Allergen>,
): Place[] {
  const units = new Map(unitsOf(kitchen).all.map((unit) => [unit.id, unit]));
  const stations = new Map(kitchen.stations.map((station) => [station.id, station.name]));
  const places = new Map<string, Place>();
  const at = (key: string, made: () => Omit<Place, "there">) => {
    const known = places.get(key) ?? { ...made(), there: [] };
    places.set(key, known);
    return known.there;
  };
  for (const task of plan.tasks) {
    if (!handlesFood(task) || task.endMin <= task.startMin) continue;
    const preparation = larder.preparations.get(task.preparation)!;
    const standing = {
      ...{ task, from: task.startMin, to: task.endMin },
      carried: carried(task.preparation, task.step),
    };
    for (const id of new Set(task.equipment.map((entry) => entry.id))) {
      const unit = units.get(id);
      if (!unit) continue;
      const passing = passingOf(unit.equipment, isPacked(preparation, task.step));
      if (passing === "none") continue;
      const { cleanMin = 0 } = unit.equipment;
      const clean = passing === "air" ? 0 : cleanMin > 0 ? cleanMin : undefined;
      at(`unit ${id}`, () => ({ id, name: unit.name, cleanMin: clean })).push(standing);
    }
    const { station } = task;
    if (task.kind !== "work" || station === undefined) continue;
    at(`bench ${station}`, () => ({
      ...{ id: station, name: stations.get(station) ?? station },
      cleanMin: kitchen.around > 0 ? 0 : BENCH_WIPE_MIN,
    })).push(standing);
  }
  return [...places.values()];
}

/** Hands or heat on the food of a preparation: no look-in, thawing, plate-up or milestone. */
const handlesFood = (task: PlanTask) =>
  (task.kind === "work" || task.kind === "passive") &&
  !task.id.startsWith("thaw/") &&
  !/\/look-\d+$/.test(task.id);

/** Exposed preparations of a plate, with the way from the dish down to each. */
export function exposuresOn(
  contents: Contents,
  placements: Parameters<Contents["preparationsOn"]>[0],
  exposures: ReadonlyMap<string, readonly Exposure[]>,
): { readonly way: readonly string[]; readonly exposure: Exposure }[] {
  return [...contents.preparationsOn(placements)].flatMap((id) => {
    const own = exposures.get(id) ?? [];
    if (own.length === 0) return [];
    const way = contents.wayTo(placements, id);
    return own.map((exposure) => ({ way, exposure }));
  });
}
