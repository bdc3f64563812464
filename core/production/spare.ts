import type { Placement } from "../schedule/problem.ts";
import { benchOf, type Contacts, contactsOf } from "./contacts.ts";
import { wholeUp } from "./plan-rules.ts";
import type { Site } from "./site.ts";
import type { RoomNeed, Task, TaskSet } from "./tasks.ts";
import { capacityOf, type Unit, VESSELS } from "./units.ts";

/** A task of the plan, or a break of one person: something that holds hands or room and may slip. */
interface Item {
  readonly start: number;
  readonly end: number;
}

/**
 * Latest start of each task when it may push what comes after it, with the same hands and units in the same
 * order (README, P17): until a course's moment, the end of a shift, a decided start, or the limit of what already
 * waits for it. A break may be pushed too, not shortened. Never before its start; equal to it when nothing may
 * slip. In the order of the tasks.
 */
export function latestStarts(
  site: Site,
  set: TaskSet,
  placements: readonly Placement[],
  horizon: number,
): number[] {
  const items: Item[] = [...placements];
  const index = new Map(placements.map((p, i) => [p.task, i]));
  const together = new Map<string, readonly Span[]>();
  const days = daysOf(site);
  const length = (i: number) => items[i]!.end - items[i]!.start;
  const shifts: (readonly Span[])[] = [];
  const within = (i: number, start: number) => {
    shifts[i] ??= whenThere(site, days, placements[i]!, together);
    return inShift(shifts[i]!, start, length(i));
  };
  const latest = placements.map((p, i) => {
    const task = set.tasks[i]!;
    if (task.at !== undefined) return p.start;
    return within(i, Math.min(horizon, task.deadline ?? horizon) - length(i));
  });
  // What is decided does not slip, whatever follows it.
  const stays = (i: number) => set.tasks[i]?.at !== undefined;
  // By item: who follows it, and how long after its start at the least.
  const followers: { readonly of: number; readonly gap: number }[][] = placements.map(() => []);
  const contacts = contactsOf(site, set.tasks, horizon + 1);
  // What was over before anything that may slip comes after nothing.
  const first = placements.reduce((t, p, i) => (stays(i) ? t : Math.min(t, p.start)), horizon);
  const lists = users(set, placements, contacts.benches, first);
  for (const cook of site.crew)
    for (const shift of cook.shifts)
      for (const pause of shift.breaks) {
        lists.get(`person ${cook.id}`)?.push(items.length);
        latest.push(shift.to - (pause.to - pause.from));
        followers.push([]);
        items.push({ start: pause.from, end: pause.to });
      }
  for (const link of set.links) {
    const [i, j] = [index.get(link.from.task), index.get(link.to.task)];
    if (i === undefined || j === undefined) continue;
    const from = link.from.at === "end" ? length(i) : 0;
    const to = link.to.at === "end" ? length(j) : 0;
    if (link.least !== undefined && !stays(i)) followers[i]!.push({ of: j, gap: link.least + from - to });
    // A wait goes with its work, a look-in with its wait; all else already waits since its planned moment.
    if (link.most !== undefined && link.rule !== "follows" && link.rule !== "look-in")
      latest[j] = within(j, Math.min(latest[j]!, placements[i]![link.from.at] + link.most - to));
  }
  const units = new Map(site.units.all.map((unit) => [`unit ${unit.id}`, unit]));
  for (const [key, list] of lists) {
    list.sort((a, b) => items[a]!.start - items[b]!.start || items[a]!.end - items[b]!.end);
    if (key.startsWith("person ")) {
      followHands(list, items, stays, (i, j) => followers[i]!.push({ of: j, gap: length(i) }));
      continue;
    }
    const place = key.slice(key.indexOf(" ") + 1);
    const unit = units.get(key);
    const there = unit && needsOn(unit, set, items, list);
    const between = gapsAt(contacts, place, set.tasks, list);
    for (let a = 0; a < list.length; a++) {
      if (stays(list[a]!)) continue;
      for (let b = a + 1; b < list.length; b++) {
        const [i, j] = [list[a]!, list[b]!];
        if (items[j]!.start < items[i]!.end) continue;
        const kept = between(a, b);
        // What must be cleaned off before the other may come stays behind it.
        const parted = kept > 0 || between(b, a) > 0;
        const shared = unit ? gapOn(unit, there!, a, b) : undefined;
        const gap = parted ? Math.max(kept, shared ?? 0) : shared;
        if (gap !== undefined) followers[i]!.push({ of: j, gap: length(i) + gap });
      }
    }
  }
  const order = items.map((_, i) => i).sort((a, b) => items[b]!.start - items[a]!.start);
  for (let moved = true; moved; ) {
    moved = false;
    for (const i of order)
      for (const { of: j, gap } of followers[i]!) {
        if (latest[j]! - gap >= latest[i]!) continue;
        latest[i] = i < placements.length ? within(i, latest[j]! - gap) : latest[j]! - gap;
        moved = true;
      }
  }
  // By itself a wait begins when its work ends, and a look-in inside its window.
  for (const link of set.links) {
    if (link.rule !== "follows" && link.rule !== "look-in") continue;
    const [i, j] = [index.get(link.from.task), index.get(link.to.task)];
    if (i === undefined || j === undefined) continue;
    const own = link.rule === "follows" ? latest[i]! + length(i) : placements[i]!.start + link.most!;
    latest[j] = Math.min(latest[j]!, own);
  }
  return placements.map((p, i) => Math.max(p.start, latest[i]!));
}

/** Minutes that one user of a place must stay behind another because of its food, each pair of classes worked out once. */
function gapsAt(
  contacts: Contacts,
  place: string,
  tasks: readonly Task[],
  list: readonly number[],
): (a: number, b: number) => number {
  if (contacts.setups(place).length === 0) return () => 0;
  const numbers = new Map<string | undefined, number>([[undefined, -1]]);
  const kind = Int32Array.from(list, (i) => {
    const name = contacts.classOf(tasks[i]!, place);
    if (!numbers.has(name)) numbers.set(name, numbers.size - 1);
    return numbers.get(name)!;
  });
  const kinds = numbers.size;
  const gaps = new Float64Array(kinds * kinds).fill(-1);
  return (a, b) => {
    const [x, y] = [kind[a]!, kind[b]!];
    if (x < 0 || y < 0) return 0;
    if (gaps[x * kinds + y]! < 0)
      gaps[x * kinds + y] = contacts.gap(place, tasks[list[a]!]!, tasks[list[b]!]!);
    return gaps[x * kinds + y]!;
  };
}

type Span = { readonly from: number; readonly to: number };

/** When units that are not always there are there, in order, by unit. */
function daysOf({ clock, units }: Site): ReadonlyMap<string, readonly Span[]> {
  const spanOf = (day: { readonly from: string; readonly to: string }) => ({
    from: clock.minuteOf(day.from),
    to: clock.minuteOf(day.to),
  });
  return new Map(
    units.all.flatMap(({ id, equipment: { days } }): [string, readonly Span[]][] =>
      days ? [[id, days.map(spanOf).sort((a, b) => a.from - b.from)]] : [],
    ),
  );
}

const ALWAYS: readonly Span[] = [{ from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY }];

/**
 * When all the hands of a task are in and its units are there; always when it needs none that ever are not. `known`
 * by the hands and units, worked out once.
 */
function whenThere(
  site: Site,
  days: ReadonlyMap<string, readonly Span[]>,
  p: Placement,
  known: Map<string, readonly Span[]>,
): readonly Span[] {
  const units = p.resources.filter((id) => days.has(id));
  if (p.persons.length === 0 && units.length === 0) return ALWAYS;
  const key = [...p.persons, "", ...units].join(" ");
  const found = known.get(key);
  if (found) return found;
  const shifts = p.persons.map((id) => site.crew.find((cook) => cook.id === id)?.shifts ?? []);
  const spans = [...shifts, ...units.map((id) => days.get(id)!)].reduce<readonly Span[]>(
    (a, b) =>
      a.flatMap((x) =>
        b
          .map((y) => ({ from: Math.max(x.from, y.from), to: Math.min(x.to, y.to) }))
          .filter((both) => both.from < both.to),
      ),
    ALWAYS,
  );
  known.set(key, spans);
  return spans;
}

/** The latest start at or before `start` at which so many minutes fit in one shift or day. */
function inShift(shifts: readonly Span[], start: number, minutes: number): number {
  if (minutes === 0) return start;
  for (let k = shifts.length - 1; k >= 0; k--) {
    const last = Math.min(start, shifts[k]!.to - minutes);
    if (last >= shifts[k]!.from) return last;
  }
  return Number.NEGATIVE_INFINITY;
}

/** Who comes after whom with the same hands: what comes after a follower is reached by way of it. */
function followHands(
  list: readonly number[],
  items: readonly Item[],
  stays: (i: number) => boolean,
  follow: (i: number, j: number) => void,
): void {
  for (let a = 0; a < list.length; a++) {
    if (stays(list[a]!)) continue;
    let reached = Number.POSITIVE_INFINITY;
    for (let b = a + 1; b < list.length; b++) {
      const next = items[list[b]!]!;
      if (next.start >= reached) break;
      if (next.start < items[list[a]!]!.end) continue;
      reached = Math.min(reached, next.end);
      follow(list[a]!, list[b]!);
    }
  }
}

/** A user of a unit with what it takes there. */
interface User {
  readonly task: Task;
  readonly need: RoomNeed | undefined;
  readonly item: Item;
  /** Room taken by all that is there in its time, itself included, by dimension: worked out once. */
  readonly taken: Map<string, number>;
}

function needsOn(unit: Unit, set: TaskSet, items: readonly Item[], list: readonly number[]): User[] {
  return list.map((i) => ({
    ...{ task: set.tasks[i]!, need: needOn(set.tasks[i]!, unit), item: items[i]! },
    taken: new Map(),
  }));
}

/**
 * Minutes a unit stands empty from its user a to its user b, to change its temperature or be cleaned; undefined when
 * the two may be on it together with what else is there in b's time. Users are in order of their start.
 */
function gapOn(unit: Unit, users: readonly User[], a: number, b: number): number | undefined {
  const { changeover, cleanMin, kind, toleranceC = 0 } = unit.equipment;
  const [before, after] = [users[a]!, users[b]!];
  const [x, y] = [before.need, after.need];
  if (!x || !y) return undefined;
  const clean = VESSELS.has(kind) && before.task.preparation !== after.task.preparation ? (cleanMin ?? 0) : 0;
  if (x.setC !== undefined && y.setC !== undefined && unit.equipment.rangeC) {
    const apart = Math.abs(x.setC - y.setC);
    if (apart > Math.min(x.toleranceC ?? toleranceC, y.toleranceC ?? toleranceC))
      return wholeUp(Math.max(clean, changeover?.leastMin ?? 0, (changeover?.perKMin ?? 0) * apart));
  }
  if (x.exclusive || y.exclusive) return wholeUp(clean);
  const full = x.space.some(({ unit: dimension, value }) => {
    return (
      takenWith(after, users, dimension) + value >
      (capacityOf(unit, dimension) ?? Number.POSITIVE_INFINITY) + 1e-9
    );
  });
  return full ? 0 : undefined;
}

function takenWith({ item, taken }: User, users: readonly User[], dimension: string): number {
  const known = taken.get(dimension);
  if (known !== undefined) return known;
  let sum = 0;
  for (const { need, item: other } of users) {
    if (other.start >= item.end) break;
    if (need && other.end > item.start) sum += spaceOf(need, dimension);
  }
  taken.set(dimension, sum);
  return sum;
}

const spaceOf = (need: RoomNeed, dimension: string) =>
  need.space.find((s) => s.unit === dimension)?.value ?? 0;

function needOn(task: Task, unit: Unit): RoomNeed | undefined {
  return task.uses.find((use) => use.units.includes(unit.id));
}

/** Tasks by person, by unit, and by bench where something must be kept apart; without those that ended by `first`. */
function users(
  set: TaskSet,
  placements: readonly Placement[],
  benches: readonly string[],
  first: number,
): Map<string, number[]> {
  const lists = new Map<string, number[]>();
  const put = (key: string, i: number) => {
    const list = lists.get(key);
    if (!list) lists.set(key, [i]);
    else if (list.at(-1) !== i) list.push(i);
  };
  placements.forEach((p, i) => {
    const task = set.tasks[i]!;
    if (task.at !== undefined && p.end <= first) return;
    for (const id of p.persons) put(`person ${id}`, i);
    // What takes no time takes no room.
    if (p.end === p.start) return;
    task.uses.forEach((_, k) => {
      put(`unit ${p.resources[k]}`, i);
    });
    const bench = benchOf(task.station ?? "");
    if (task.kind === "work" && benches.includes(bench)) put(`unit ${bench}`, i);
  });
  return lists;
}
