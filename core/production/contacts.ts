import type { Apart } from "./apart.ts";
import { benchGap, isPacked, passingOf } from "./contact.ts";
import { wholeUp } from "./plan-rules.ts";
import type { Site } from "./site.ts";
import type { Task } from "./tasks.ts";
import { type Unit, VESSELS } from "./units.ts";

/** Where two foods that must be kept apart may meet: a unit by its id, a bench by `benchOf` its station. */
export interface Contacts {
  /** Class of a task's food at a place, or undefined where nothing there has to be kept apart. */
  classOf(task: Task, place: string): string | undefined;
  /** Minutes a place stands empty when b follows a there; 0: no matter. Above 0 they never stand there together. */
  gap(place: string, a: Task, b: Task): number;
  /** What must not come from a's food to b's, or from b's to a's. */
  traces(a: Task, b: Task): readonly string[];
  /** Every pair of classes of a place that must be kept apart, with its minutes. */
  setups(place: string): readonly { readonly from: string; readonly to: string; readonly minutes: number }[];
  /** Benches where it matters. */
  readonly benches: readonly string[];
}

/** Id of a station's bench among the resources: no equipment has a slash in its id. */
export const benchOf = (station: string) => `bench/${station}`;

const NONE: Contacts = {
  classOf: () => undefined,
  gap: () => 0,
  traces: () => [],
  setups: () => [],
  benches: [],
};

/** Food of a task at a place: what it carries and what it must be kept from, of what matters in the service. */
interface Food {
  readonly key: string;
  readonly carried: readonly string[];
  readonly keptFrom: readonly string[];
}

const known = new WeakMap<readonly Task[], { site: Site; never: number; contacts: Contacts }>();

/**
 * The places of a kitchen where the order of work, or a cleaning, keeps an allergen from a guest (README, P25).
 * @param never minutes so long that nothing may follow: of a unit that nobody has said how to clean
 */
export function contactsOf(site: Site, tasks: readonly Task[], never: number): Contacts {
  const found = known.get(tasks);
  if (found?.site === site && found.never === never) return found.contacts;
  const contacts = contactsAmong(site, tasks, never);
  known.set(tasks, { site, never, contacts });
  return contacts;
}

/** Contacts of tasks with the same food at the same places: dated anew, or with units that are closed for a time. */
export function sameContacts(before: readonly Task[], site: Site, tasks: readonly Task[]): void {
  const found = known.get(before);
  if (found) known.set(tasks, { ...found, site });
}

function contactsAmong(site: Site, tasks: readonly Task[], never: number): Contacts {
  const { apart } = site;
  if (!apart) return NONE;
  const guarded = new Set(
    [...site.amounts.preparations.keys()].flatMap((id) => [...apart.keptFrom(id)] as string[]),
  );
  if (guarded.size === 0) return NONE;
  const foods = new Map<string, Food>();
  const byTask = new WeakMap<Task, Food>();
  const foodOf = (task: Task): Food => {
    const asked = byTask.get(task);
    if (asked) return asked;
    const at = `${task.preparation} ${task.step}`;
    const food = foods.get(at) ?? foodIn(apart, task, guarded);
    foods.set(at, food);
    byTask.set(task, food);
    return food;
  };
  const there = new Map<
    string,
    { readonly minutes: (a: Food, b: Food) => number; readonly foods: Map<string, Food> }
  >();
  const put = (place: string, food: Food, minutes: (a: Food, b: Food) => number) => {
    if (food.key === "|") return;
    const known = there.get(place) ?? { minutes, foods: new Map<string, Food>() };
    known.foods.set(food.key, food);
    there.set(place, known);
  };
  const units = new Map(site.units.all.map((unit) => [unit.id, unit]));
  for (const task of tasks) {
    if (!hasFood(task)) continue;
    for (const use of task.uses)
      for (const id of use.units)
        if (!alwaysCleaned(units.get(id)!) && passing(site, units.get(id)!, task) !== "none")
          put(id, foodOf(task), unitMinutes(units.get(id)!, never));
    if (atBench(task)) {
      const wipe = Math.max(1, benchGap(site.kitchen));
      put(benchOf(task.station!), foodOf(task), (a, b) => (meet(a, b) ? wipe : 0));
    }
  }
  const setups = new Map<string, { from: string; to: string; minutes: number }[]>();
  for (const [place, { minutes, foods: list }] of there) {
    const pairs = [...list.values()].flatMap((a) =>
      [...list.values()].map((b) => ({ from: a.key, to: b.key, minutes: minutes(a, b) })),
    );
    const apartHere = pairs.filter((pair) => pair.minutes > 0);
    if (apartHere.length > 0) setups.set(place, apartHere);
  }
  const classOf = (task: Task, place: string) => {
    const list = setups.get(place);
    if (!list || !hasFood(task)) return undefined;
    const unit = units.get(place);
    if (unit ? passing(site, unit, task) === "none" : !atBench(task)) return undefined;
    const { key } = foodOf(task);
    return key === "|" ? undefined : key;
  };
  return {
    classOf,
    gap(place, a, b) {
      const [from, to] = [classOf(a, place), classOf(b, place)];
      if (from === undefined || to === undefined) return 0;
      return setups.get(place)!.find((each) => each.from === from && each.to === to)?.minutes ?? 0;
    },
    traces(a, b) {
      const [x, y] = [foodOf(a), foodOf(b)];
      return [...new Set([...common(x.carried, y.keptFrom), ...common(y.carried, x.keptFrom)])];
    },
    setups: (place) => setups.get(place) ?? [],
    benches: [...setups.keys()].filter((place) => !units.has(place)),
  };
}

/** Hands at work at a station, not only looking in. */
const atBench = (task: Task) => task.kind === "work" && task.station !== undefined;

/** Plates and milestones are of a dish; what thaws is packed. */
const hasFood = (task: Task) => task.kind === "work" || task.kind === "wait";

/** A vessel with its minutes of cleaning is cleaned before every other preparation anyway (P9). */
const alwaysCleaned = ({ equipment }: Unit) => VESSELS.has(equipment.kind) && (equipment.cleanMin ?? 0) > 0;

function passing(site: Site, unit: Unit, task: Task) {
  const preparation = site.docs.preparations.get(task.preparation);
  return passingOf(unit.equipment, preparation !== undefined && isPacked(preparation, task.step));
}

/** On a unit: cleaned in its minutes, never when it has none; shared air is over when the door is opened. */
function unitMinutes(unit: Unit, never: number) {
  const { cleanMin = 0 } = unit.equipment;
  const touch = passingOf(unit.equipment, false) === "touch";
  const clean = cleanMin > 0 ? wholeUp(cleanMin) : never;
  return (a: Food, b: Food) => {
    if (touch) return passes(a, b) ? clean : 0;
    return meet(a, b) ? 1 : 0;
  };
}

/** Whether something in a's food must not come to b's. */
const passes = (a: Food, b: Food) => common(a.carried, b.keptFrom).length > 0;
const common = (a: readonly string[], b: readonly string[]) => a.filter((one) => b.includes(one));
const meet = (a: Food, b: Food) => passes(a, b) || passes(b, a);

function foodIn(apart: Apart, task: Task, guarded: ReadonlySet<string>): Food {
  const carried = [...apart.carried(task.preparation, task.step)].filter((one) => guarded.has(one)).sort();
  const keptFrom = [...apart.keptFrom(task.preparation)].sort();
  return { key: `${carried.join(",")}|${keptFrom.join(",")}`, carried, keptFrom };
}
