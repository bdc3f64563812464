import type {
  Lag,
  Mode,
  Person,
  Task as Piece,
  Problem,
  Resource,
  ResourceNeed,
  Schedule,
  Span,
} from "../schedule/problem.ts";
import { benchOf, type Contacts, contactsOf } from "./contacts.ts";
import { peakOf } from "./peaks.ts";
import { wholeUp } from "./plan-rules.ts";
import type { Site } from "./site.ts";
import type { Link, RoomNeed, Space, Task, TaskSet } from "./tasks.ts";
import { bestWait } from "./terms.ts";
import { type Unit, VESSELS } from "./units.ts";
import { weightsFor } from "./weights.ts";

/** Room is counted in 36ths: every GN size is a whole number of them, and a breach weighs beside minutes. */
export const ROOM_STEPS = 36;

/**
 * Tasks in a kitchen as a scheduling problem, tasks in the same order. A unit that a step keeps from its work
 * through its waiting is held across both by one span; `unitsOfTasks` reads it back.
 */
export function problemOf(site: Site, set: TaskSet): Problem {
  const ends = [
    ...site.crew.flatMap((p) => p.shifts.map((s) => s.to)),
    ...set.tasks.map((t) => (t.at ?? 0) + (t.at === undefined ? 0 : (t.ways[0]?.minutes ?? 0))),
  ];
  const horizon = Math.max(1, ...ends);
  const weights = weightsFor(site.amounts.service);
  const reading = readingOf(site, set.tasks, horizon);
  return {
    horizon,
    ...reading.asked(set),
    resources: resourcesOf(site, set.tasks, horizon, reading),
    persons: personsOf(site, horizon),
    walks: site.kitchen.walk.map((w) => ({ from: w.from, to: w.to, minutes: wholeUp(w.min) })),
    objective: {
      late: weights.slack,
      early: 0,
      hold: 1,
      changes: weights.heatUps,
      walk: weights.walking,
      modes: weights.hands,
      pauses: weights.breaks,
      ...(weights.peaks > 0 ? { peak: { weight: weights.peaks, ...peakOf(site) } } : {}),
    },
  };
}

/** How the tasks of a kitchen are read. */
export interface Reading {
  readonly contacts: Contacts;
  readonly units: ReadonlyMap<string, Unit>;
  /** Vessels that are cleaned between two preparations. */
  readonly classed: ReadonlySet<string>;
  readonly classOf: ClassOf;
  piece(task: Task): Piece;
  /** What a set asks for. `piece`: where a task is known already. */
  asked(
    set: TaskSet,
    piece?: (task: Task, i: number) => Piece,
  ): Pick<Problem, "tasks" | "lags"> & { readonly spans: readonly Span[] };
}

/** @param tasks all whose food may meet. */
export function readingOf(site: Site, tasks: readonly Task[], horizon: number): Reading {
  const units = new Map(site.units.all.map((unit) => [unit.id, unit]));
  const cleaned = site.units.all.filter(
    ({ equipment }) => VESSELS.has(equipment.kind) && (equipment.cleanMin ?? 0) > 0,
  );
  const classed = new Set(cleaned.map((u) => u.id));
  const contacts = contactsOf(site, tasks, horizon + 1);
  const classOf: ClassOf = (task, of) => {
    const food = of.map((id) => contacts.classOf(task, id)).find((one) => one !== undefined);
    if (!of.some((id) => classed.has(id))) return food;
    return food === undefined ? task.preparation : `${task.preparation} ${food}`;
  };
  const weights = weightsFor(site.amounts.service);
  const plain = (task: Task) => pieceOf(task, units, classOf, contacts, site.crew.length > 0);
  return {
    ...{ contacts, units, classed, classOf },
    piece: plain,
    asked: (set, piece = plain) => ({
      tasks: set.tasks.map(piece),
      // A course is the deadline of its plate-up already.
      lags: set.links.filter((link) => link.rule !== "course").map((link) => lagOf(link, weights)),
      spans: [...keepsOf(set, units, classOf), ...spansOf(set, units)],
    }),
  };
}

function resourcesOf(
  site: Site,
  tasks: readonly Task[],
  horizon: number,
  reading: Reading,
): readonly Resource[] {
  const resources = site.units.all.map((unit) => resourceOf(site, unit, horizon));
  addSetups(resources, tasks, reading);
  const { contacts } = reading;
  return [...resources, ...contacts.benches.map((id) => benchResource(id, contacts))];
}

/** Cleaning class of a task's need that any of these units serves. */
type ClassOf = (task: Task, of: readonly string[]) => string | undefined;

/** A bench holds any number of hands; it is there for what must not stand on it together. */
function benchResource(id: string, contacts: Contacts): MutableResource {
  return { id, label: id, capacity: [1], setups: contacts.setups(id) };
}

type MutableResource = { -readonly [K in keyof Resource]: Resource[K] };

/** A unit as the engine knows it, without what must be kept apart in it. */
export function resourceOf(site: Site, unit: Unit, horizon: number): MutableResource {
  const { equipment } = unit;
  const capacity = equipment.capacity.map((c) => Math.floor(c.value * ROOM_STEPS + 1e-6));
  const days = equipment.days
    ?.map((span) => ({
      from: Math.max(0, site.clock.minuteOf(span.from)),
      to: Math.min(horizon, site.clock.minuteOf(span.to)),
      capacity,
    }))
    .filter((span) => span.from < span.to)
    .sort((a, b) => a.from - b.from);
  return {
    id: unit.id,
    label: unit.name,
    capacity,
    dimensions: equipment.capacity.map((c) => c.unit),
    ...(days ? { calendar: days } : {}),
    ...(equipment.rangeC
      ? {
          state: {
            lowest: equipment.rangeC[0],
            highest: equipment.rangeC[1],
            tolerance: equipment.toleranceC ?? 0,
            minutesPerUnit: equipment.changeover?.perKMin ?? 0,
            leastMinutes: wholeUp(equipment.changeover?.leastMin ?? 0),
          },
        }
      : {}),
  };
}

/** The crew on an axis of so many minutes. */
export function personsOf(site: Site, horizon: number): Person[] {
  return site.crew.map((person) => ({
    id: person.id,
    label: person.name,
    skills: person.skills,
    shifts: person.shifts
      .map((shift) => ({ ...shift, to: Math.min(shift.to, horizon) }))
      .filter((shift) => shift.from < shift.to),
  }));
}

function pieceOf(
  task: Task,
  units: ReadonlyMap<string, Unit>,
  classOf: ClassOf,
  contacts: Contacts,
  crewed: boolean,
): Piece {
  const resources = task.uses
    .filter((need) => need.same === undefined)
    .map((need) => needOf(need, task, units, classOf));
  // The bench comes last: `unitsOfTasks` reads the units before it.
  const bench = task.station === undefined ? undefined : contacts.classOf(task, benchOf(task.station));
  if (bench !== undefined) resources.push({ of: [benchOf(task.station!)], amount: [0], class: bench });
  const cheapest = Math.min(...task.ways.map((way) => way.hands * way.minutes));
  const modes = task.ways.map(
    (way): Mode => ({
      duration: way.minutes,
      ...(task.interruptible ? { interrupt: "breaks" as const } : {}),
      ...(way.hands > 0 && crewed
        ? {
            people: [
              {
                count: way.hands,
                ...(task.skill === undefined ? {} : { skill: task.skill }),
                ...(task.crew === undefined ? {} : { among: task.crew }),
              },
            ],
          }
        : {}),
      ...(resources.length > 0 ? { resources } : {}),
      cost: way.hands * way.minutes - cheapest,
    }),
  );
  return {
    id: task.id,
    label: task.name,
    modes,
    ...(task.release === undefined ? {} : { release: task.release }),
    ...(task.deadline === undefined ? {} : { deadline: task.deadline }),
    ...(task.due === undefined ? {} : { due: task.due }),
    ...(task.station === undefined ? {} : { place: task.station }),
    ...pinOf(task),
  };
}

function pinOf(task: Task): Pick<Piece, "pin" | "status"> {
  if (task.at === undefined) return {};
  const start = task.at;
  if (task.status === undefined) return { pin: { start } };
  const end = start + (task.ways[0]?.minutes ?? 0);
  return { status: task.status, pin: task.status === "done" ? { start, end } : { start } };
}

function needOf(
  need: RoomNeed,
  task: Task,
  units: ReadonlyMap<string, Unit>,
  classOf: ClassOf,
): ResourceNeed {
  const first = units.get(need.units[0]!)!;
  // Units of one need may list their dimensions in different order: then only those that match the first serve.
  const of = need.units.filter((id) => sameDimensions(units.get(id)!, first));
  const state =
    need.setC !== undefined && of.every((id) => units.get(id)!.equipment.rangeC)
      ? { set: need.setC, ...(need.toleranceC === undefined ? {} : { tolerance: need.toleranceC }) }
      : undefined;
  const cleaning = classOf(task, of);
  return {
    of,
    amount: amountOf(need.space, first),
    ...(state ? { state } : {}),
    ...(need.exclusive ? { exclusive: true } : {}),
    ...(cleaning === undefined ? {} : { class: cleaning }),
  };
}

function sameDimensions(a: Unit, b: Unit): boolean {
  const [x, y] = [a.equipment.capacity, b.equipment.capacity];
  return x.length === y.length && x.every((c, i) => c.unit === y[i]!.unit);
}

function amountOf(space: readonly Space[], unit: Unit): number[] {
  return unit.equipment.capacity.map((c) => {
    const wanted = space.find((s) => s.unit === c.unit);
    return wanted ? Math.ceil(wanted.value * ROOM_STEPS - 1e-6) : 0;
  });
}

/** Cleaning between two preparations in one vessel, and what keeps an allergen from who must not have it. */
function addSetups(resources: readonly MutableResource[], tasks: readonly Task[], by: Reading): void {
  for (const resource of resources) {
    if (!by.classed.has(resource.id)) {
      const setups = by.contacts.setups(resource.id);
      if (setups.length > 0) resource.setups = setups;
      continue;
    }
    const minutes = wholeUp(by.units.get(resource.id)!.equipment.cleanMin ?? 0);
    const users = new Map<string, Task>();
    for (const task of tasks)
      for (const { units: of } of task.uses)
        if (of.includes(resource.id)) users.set(by.classOf(task, of) ?? task.preparation, task);
    resource.setups = [...users].flatMap(([from, a]) =>
      [...users].filter(([, b]) => b.preparation !== a.preparation).map(([to]) => ({ from, to, minutes })),
    );
  }
}

function lagOf(link: Link, weights: ReturnType<typeof weightsFor>): Lag {
  const wait = bestWait(link);
  const soft = wait ? { best: wait.best, cost: weights[wait.key] } : {};
  return {
    from: link.from,
    to: link.to,
    rule: link.rule,
    ...(link.least === undefined ? {} : { least: link.least }),
    ...(link.most === undefined ? {} : { most: link.most }),
    ...soft,
  };
}

/** Units kept from the start of a step's work to the end of its waiting, by the need's name. */
function keepsOf(set: TaskSet, units: ReadonlyMap<string, Unit>, classOf: ClassOf): Span[] {
  const spans = new Map<string, Span>();
  for (const task of set.tasks)
    for (const need of task.uses) {
      if (need.same === undefined) continue;
      const known = spans.get(need.same);
      if (known) {
        // A pin may narrow the units of any of the tasks that keep it.
        const of = known.need.of.filter((id) => need.units.includes(id));
        const held = { ...known.need, of: of.length > 0 ? of : known.need.of };
        spans.set(need.same, { ...known, to: { task: task.id, at: "end" }, need: held });
      } else {
        const from = { task: task.id, at: "start" } as const;
        const held = needOf(need, task, units, classOf);
        spans.set(need.same, { id: need.same, from, to: { ...from, at: "end" }, need: held });
      }
    }
  return [...spans.values()];
}

/** The units of each task in the order of its uses. */
export function unitsOfTasks(set: TaskSet, problem: Problem, schedule: Schedule): string[][] {
  const kept = new Map((problem.spans ?? []).map((span, k) => [span.id, schedule.spans[k]!]));
  return set.tasks.map((task, i) => {
    let next = 0;
    const own = schedule.placements[i]!.resources;
    return task.uses.map((need) => (need.same === undefined ? own[next++]! : kept.get(need.same)!));
  });
}

/** Stays in a store; left out where all it could ever hold fits in it at once, because they can never collide. */
function spansOf(set: TaskSet, units: ReadonlyMap<string, Unit>): Span[] {
  const total = new Map<string, number>();
  const count = (store: string, positions: number) => total.set(store, (total.get(store) ?? 0) + positions);
  for (const stay of set.stays) count(stay.units[0]!, stay.positions);
  for (const task of set.tasks)
    for (const use of task.uses)
      for (const { unit, value } of use.space) if (unit === "position") count(use.units[0]!, value);
  return set.stays.flatMap((stay): Span[] => {
    const able = stay.units.map((id) => units.get(id)!);
    const room = Math.max(...able.map((u) => u.equipment.capacity.find((c) => c.unit === "position")!.value));
    if ((total.get(stay.units[0]!) ?? 0) <= room) return [];
    const first = able[0]!;
    const of = able.filter((unit) => sameDimensions(unit, first)).map((unit) => unit.id);
    const positions = Math.min(stay.positions, room);
    return [
      {
        id: stay.id,
        from: stay.from,
        to: stay.to,
        need: { of, amount: amountOf([{ unit: "position", value: positions }], first) },
      },
    ];
  });
}
