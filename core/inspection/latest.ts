import type { PlanTask, PlateCount } from "../run/result.ts";
import { keptApart } from "./contact.ts";
import { VESSELS } from "./equipment.ts";
import type { Load, Parts } from "./parts.ts";
import type { Scope } from "./scope.ts";
import type { Span } from "./spans.ts";
import { grouped, type Tie } from "./ties.ts";
import { CRUMB, roundDown, roundUp } from "./types.ts";
import { type Equipment, equipmentOf, staysOf } from "./units.ts";

/** A task, or one person's break: something that holds hands or room and may be pushed. */
interface Item {
  readonly startMin: number;
  readonly endMin: number;
  /** Stretches of time in which it has to lie, each list by itself: shifts of its hands, days of its units. */
  readonly inside: readonly (readonly Span[])[];
  /** Decided: it does not move. */
  readonly fixed: boolean;
  latest: number;
}

/** `next` begins so many minutes after the start of `item` at the soonest. */
interface Push {
  readonly item: Item;
  readonly next: Item;
  readonly after: number;
}

/**
 * Latest start of each task by its id, when what comes after it may be pushed (production, P17): nobody and no unit changes
 * what it does one after the other, courses and what is pinned stay, shifts and breaks keep their length, and what already
 * waits is used within its limit. Every item begins as late as it may by itself, and is brought forward until no pair is
 * wrong: slow, and plain.
 */
export function latestOf(
  scope: Scope,
  parts: Parts,
  plates: readonly PlateCount[],
  tasks: readonly PlanTask[],
  ties: readonly Tie[],
): ReadonlyMap<string, number> {
  const items = itemsOf(scope, tasks);
  const pushes = [
    ...pushedByTies(ties, items),
    ...pushedByHands(scope, tasks, items),
    ...pushedOnUnits(scope, parts, items),
    ...pushedApart(scope, parts, plates, items),
  ].filter(({ item }) => !item.fixed);
  for (const { from, to, most, goesWith } of ties) {
    const [a, b] = [items.get(from.task), items.get(to.task)];
    if (!a || !b || most === undefined || goesWith) continue;
    const waitsSince = from.at === "start" ? a.startMin : a.endMin;
    notAfter(b, waitsSince + most - (to.at === "end" ? b.endMin - b.startMin : 0));
  }
  pushes.sort((a, b) => b.item.startMin - a.item.startMin);
  for (let moved = true; moved; ) {
    moved = false;
    for (const { item, next, after } of pushes) if (notAfter(item, next.latest - after)) moved = true;
  }
  const before = grouped(ties, "to");
  return new Map(tasks.map((task) => [task.id, alone(task, items, before.get(task.id) ?? [])]));
}

/** A wait by itself begins when its work ends, a look-in within its time of a wait that stays. */
function alone({ id, startMin }: PlanTask, items: ReadonlyMap<string, Item>, ties: readonly Tie[]): number {
  let { latest } = items.get(id)!;
  for (const { from, goesWith, most } of ties) {
    const before = items.get(from.task);
    if (!goesWith || !before) continue;
    if (from.at === "end") latest = Math.min(latest, before.latest + before.endMin - before.startMin);
    else latest = Math.min(latest, before.startMin + most!);
  }
  return Math.max(startMin, latest);
}

/** Begins the item no later than that, and where it has to lie; whether that brought it forward. */
function notAfter(item: Item, minute: number): boolean {
  if (item.fixed) return false;
  const lasts = item.endMin - item.startMin;
  let at = Math.min(item.latest, minute);
  for (let settled = false; !settled; ) {
    settled = true;
    for (const spans of item.inside) {
      const starts = spans.flatMap(([from, to]) => {
        const last = Math.min(at, to - lasts);
        return last >= from ? [last] : [];
      });
      const last = Math.max(Number.NEGATIVE_INFINITY, ...starts);
      if (last < at) [at, settled] = [last, last === Number.NEGATIVE_INFINITY];
    }
  }
  if (at >= item.latest) return false;
  item.latest = at;
  return true;
}

function itemsOf(scope: Scope, tasks: readonly PlanTask[]): Map<string, Item> {
  const pinned = new Set(
    scope.service.pins.flatMap(({ task, start }) => (start === undefined ? [] : [task])),
  );
  const fixed = (task: PlanTask) => task.kind === "milestone" || pinned.has(task.id);
  const shifts = new Map(scope.kitchen.crew.map((person) => [person.id, shiftsOf(scope, person)]));
  const end = Math.max(
    ...[...shifts.values()].flat().map(([, to]) => to),
    ...tasks.filter(fixed).map((task) => task.endMin),
  );
  const days = ({ id }: { id: string }) => equipmentOf(scope, id)?.days?.map((day) => spanOf(scope, day));
  return new Map(
    tasks.map((task) => {
      const { startMin, endMin } = task;
      const hands = task.hands.map((id) => shifts.get(id) ?? []);
      const inside = [
        ...(hands.length > 0 ? [hands.reduce(common)] : []),
        ...task.equipment.flatMap((each) => {
          const open = days(each);
          return open ? [open] : [];
        }),
      ];
      const item: Item = {
        startMin,
        endMin,
        inside: endMin > startMin ? inside : [],
        fixed: fixed(task),
        latest: startMin,
      };
      if (!item.fixed) {
        item.latest = Number.POSITIVE_INFINITY;
        notAfter(item, Math.min(end, servedBy(scope, task)) - (endMin - startMin));
      }
      return [task.id, item];
    }),
  );
}

/** A plate-up ends by its course's moment. */
function servedBy(scope: Scope, task: PlanTask): number {
  const course = task.kind === "plate" && scope.menu.courses.find(({ id }) => id === task.step);
  return course ? scope.serviceMin + roundDown(course.afterMin) : Number.POSITIVE_INFINITY;
}

function pushedByTies(ties: readonly Tie[], items: ReadonlyMap<string, Item>): Push[] {
  return ties.flatMap(({ from, to, least }): Push[] => {
    const [item, next] = [items.get(from.task), items.get(to.task)];
    if (!item || !next || least === undefined) return [];
    const before = from.at === "end" ? item.endMin - item.startMin : 0;
    return [{ item, next, after: least + before - (to.at === "end" ? next.endMin - next.startMin : 0) }];
  });
}

/** With the same hands one thing comes after the other; so do breaks, which may come later in their shift. */
function pushedByHands(scope: Scope, tasks: readonly PlanTask[], items: ReadonlyMap<string, Item>): Push[] {
  return scope.kitchen.crew.flatMap((person) => {
    const breaks = shiftsOf(scope, person).flatMap((shift): Item[] =>
      restsIn(scope, person, shift).map(([startMin, endMin]) => ({
        ...{ startMin, endMin, inside: [], fixed: false, latest: shift[1] - (endMin - startMin) },
      })),
    );
    const own = tasks.filter((task) => task.hands.includes(person.id)).map(({ id }) => items.get(id)!);
    return inOrder(
      [...own, ...breaks],
      (item) => item,
      () => 0,
    );
  });
}

/** Whatever may not stand on a unit together stays one after the other there, with the minutes it takes between. */
function pushedOnUnits(scope: Scope, parts: Parts, items: ReadonlyMap<string, Item>): Push[] {
  return [...usersOf(scope, parts, items)].flatMap(([, users]) => {
    const meanwhile = new Map(users.map((user) => [user, takenMeanwhile(user, users)]));
    return inOrder(
      users,
      ({ item }) => item,
      (a, b) => minutesBetween(a, b, meanwhile.get(b)!),
    );
  });
}

/** What a guest must not have traces of stays before or behind what that guest gets, as it is planned. */
function pushedApart(
  scope: Scope,
  parts: Parts,
  plates: readonly PlateCount[],
  items: ReadonlyMap<string, Item>,
): Push[] {
  return keptApart(scope, parts, plates).flatMap(({ there, between }) => {
    const parted = there.flatMap((standing) =>
      tasksWithin(standing.load, ...standing.span).map(({ id }) => ({ standing, item: items.get(id)! })),
    );
    return inOrder(
      parted,
      ({ item }) => item,
      (a, b) => between(a.standing, b.standing),
    );
  });
}

/** Each before each that begins when it has ended, with the minutes between; not where there is no matter. */
function inOrder<T>(
  list: readonly T[],
  itemOf: (each: T) => Item,
  between: (a: T, b: T) => number | undefined,
): Push[] {
  return list.flatMap((a) =>
    list.flatMap((b): Push[] => {
      const [item, next] = [itemOf(a), itemOf(b)];
      if (item === next || next.startMin < item.endMin) return [];
      const minutes = between(a, b);
      return minutes === undefined ? [] : [{ item, next, after: item.endMin - item.startMin + minutes }];
    }),
  );
}

/** A task on a unit and what it takes there. */
interface User {
  readonly item: Item;
  readonly equipment: Equipment;
  readonly preparation: string;
  readonly space: readonly { readonly unit: string; readonly value: number }[];
  readonly setC?: number | undefined;
  readonly toleranceC: number;
  readonly exclusive: boolean;
}

/** By unit; what thaws takes positions of the cold room. */
function usersOf(scope: Scope, parts: Parts, items: ReadonlyMap<string, Item>): Map<string, User[]> {
  const users = new Map<string, User[]>();
  const add = (unit: string, user: User) => users.set(unit, [...(users.get(unit) ?? []), user]);
  for (const stay of staysOf(scope, parts).stays)
    for (const { id } of tasksWithin(stay.load, stay.from, stay.to))
      add(stay.unit, { ...stay, item: items.get(id)!, preparation: stay.load.preparation.id });
  for (const task of parts.thaws.values())
    for (const { id, space, unit } of task.equipment)
      add(id, {
        ...{ item: items.get(task.id)!, equipment: equipmentOf(scope, id)!, preparation: task.preparation },
        ...{ space: [{ unit, value: space }], toleranceC: 0, exclusive: false },
      });
  return users;
}

/** Tasks of a load in a stretch of time; what takes no time takes no room. */
const tasksWithin = ({ work, wait }: Load, from: number, to: number): PlanTask[] =>
  [work, wait].filter(
    (task): task is PlanTask =>
      task !== undefined && from <= task.startMin && task.startMin < task.endMin && task.endMin <= to,
  );

/** Minutes from a to b on one unit; undefined where both have room there with all that is there in b's time. */
function minutesBetween(a: User, b: User, meanwhile: ReadonlyMap<string, number>): number | undefined {
  const { equipment } = a;
  const vessel = VESSELS.has(equipment.kind);
  const clean = vessel && a.preparation !== b.preparation ? roundUp(equipment.cleanMin ?? 0) : 0;
  if (a.setC !== undefined && b.setC !== undefined && equipment.rangeC) {
    const apart = Math.abs(a.setC - b.setC);
    const { perKMin = 0, leastMin = 0 } = equipment.changeover ?? {};
    if (apart > Math.min(a.toleranceC, b.toleranceC))
      return Math.max(clean, roundUp(Math.max(leastMin, perKMin * apart)));
  }
  if (vessel || a.exclusive || b.exclusive) return clean;
  const over = equipment.capacity.some(({ unit, value }) => {
    const own = spaceIn(a, unit);
    return own > 0 && own + meanwhile.get(unit)! > value + CRUMB;
  });
  return over ? 0 : undefined;
}

/** Room taken on its unit by all that is there in a user's time, itself included, by dimension. */
function takenMeanwhile({ item, equipment }: User, users: readonly User[]): ReadonlyMap<string, number> {
  const there = users.filter((each) => each.item.startMin < item.endMin && each.item.endMin > item.startMin);
  return new Map(
    equipment.capacity.map(({ unit }) => [unit, there.reduce((sum, each) => sum + spaceIn(each, unit), 0)]),
  );
}

const spaceIn = ({ space }: User, dimension: string) =>
  space.find((each) => each.unit === dimension)?.value ?? 0;

type Person = Scope["kitchen"]["crew"][number];

const spanOf = (scope: Scope, { from, to }: { readonly from: string; readonly to: string }): Span => [
  scope.minuteOf(from),
  scope.minuteOf(to),
];

/** Shifts in order, from the horizon on; where two overlap the later begins when the earlier ends. */
function shiftsOf(scope: Scope, person: Person): Span[] {
  const shifts: Span[] = [];
  const spans = person.shifts.map((shift) => spanOf(scope, shift)).sort((a, b) => a[0] - b[0]);
  for (const [from, to] of spans) {
    const begins = Math.max(0, from, shifts.at(-1)?.[1] ?? 0);
    if (to > begins) shifts.push([begins, to]);
  }
  return shifts;
}

function restsIn(scope: Scope, person: Person, [from, to]: Span): Span[] {
  return person.shifts
    .flatMap((shift) => shift.breaks.map((rest) => spanOf(scope, rest)))
    .map(([a, b]): Span => [Math.max(a, from), Math.min(b, to)])
    .filter(([a, b]) => a < b);
}

/** Stretches that lie in both lists. */
function common(a: readonly Span[], b: readonly Span[]): Span[] {
  return a.flatMap((x) =>
    b.map((y): Span => [Math.max(x[0], y[0]), Math.min(x[1], y[1])]).filter(([from, to]) => from < to),
  );
}
