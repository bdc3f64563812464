import { endOfWork } from "../schedule/facts.ts";
import type { Problem, Result as Solved, Violation } from "../schedule/problem.ts";
import { type Repair, repair } from "../schedule/repair.ts";
import { calledLate } from "./course-later.ts";
import { newBreaches } from "./live-breaches.ts";
import {
  type Instead,
  type LiveEntry,
  readLive,
  type Stretch,
  type Told,
  type Unfollowed,
} from "./live-entries.ts";
import { missedMoments } from "./live-missed.ts";
import { type LiveProblem, liveProblem } from "./live-problem.ts";
import { originalId, restId } from "./live-rest.ts";
import type { WrittenPlace } from "./live-schema.ts";
import { type Out, type Place, type Stand, standsOf } from "./live-stand.ts";
import { GIVEN_UP } from "./make-plan.ts";
import { nameOf } from "./names.ts";
import { planOf } from "./plan.ts";
import type { Broken, Plan, PlanTask } from "./plan-types.ts";
import { problemOf, unitsOfTasks } from "./problem.ts";
import type { Site } from "./site.ts";
import type { TaskSet } from "./tasks.ts";

/** A task that stands elsewhere than before: in time, with other hands or on other equipment. */
export interface LiveChange {
  readonly task: string;
  readonly before: Place | undefined;
  readonly after: Place;
}

/** How a task stands, for a board. */
export interface LiveState {
  readonly task: string;
  readonly status: "open" | "started" | "done";
  /** Nobody marked it. */
  readonly assumed: boolean;
}

/** The plan as it is now. */
export interface LivePlan {
  readonly plan: Plan;
  readonly states: readonly LiveState[];
  /** What stands elsewhere than the log has it so far; the cause is the last entry. */
  readonly changes: readonly LiveChange[];
  /** What the plan breaks and did not break before. */
  readonly breaches: readonly Broken[];
  /** Entries that could not be followed, and why. */
  readonly unfollowed: readonly Unfollowed[];
  /** Entries that no longer count. */
  readonly takenBack: readonly string[];
  /** Entry that the changes follow from. */
  readonly because?: string | undefined;
  /** Whether the changes have been written down already. */
  readonly answered: boolean;
  readonly away: readonly Stretch[];
  readonly closed: readonly Stretch[];
}

/** All that an answer was made from, for who judges it or looks for remedies. */
export interface LiveMade {
  readonly live: LivePlan;
  readonly problem: LiveProblem;
  readonly repaired: Repair;
  readonly stands: ReadonlyMap<string, Stand>;
  readonly places: ReadonlyMap<string, Place>;
  /** Tasks that may use other equipment than their steps ask for. */
  readonly elsewhere: ReadonlySet<string>;
}

export interface LiveAsk {
  readonly entries: readonly LiveEntry[];
  /** Minute of the run. */
  readonly now: number;
  readonly rehearsal: boolean;
  /** Tasks that may use other equipment, beside what the log says: a remedy that is tried. */
  readonly instead?: ReadonlyMap<string, Instead> | undefined;
  /** A change is tried: nothing stands just because what was told has been answered. */
  readonly trial?: boolean;
}

/** What stays between two events. */
export interface LiveBase {
  readonly site: Site;
  readonly set: TaskSet;
  /** Without anything that has happened; its horizon ends the axis. */
  readonly problem: Problem;
  /** The plan before anything happened. */
  readonly plan: Plan;
}

/**
 * Mends the plan after what the log tells, with few changes (README, L1 to L9). Nothing in the past moves; what has
 * begun keeps its place, though its end may grow.
 */
export function livePlan(base: LiveBase, asked: LiveAsk): LiveMade {
  const { site } = base;
  const told = readLive(asked.entries, site.clock, knownOf(base), asked);
  const set = calledLate(base.set, told, base.plan.tasks);
  const latest = Math.max(asked.now, 0);
  const now = Math.min(latest, base.problem.horizon);
  const places = placesOf(base, told);
  const away: Out[] = told.absences.map(({ id, from, to }) => ({ id, from, to }));
  const closed = told.closures.flatMap(({ id, from, to }): Out[] =>
    site.units.all
      .filter((unit) => unit.id === id || unit.equipment.id === id)
      .map((unit) => ({ id: unit.id, from, to })),
  );
  const outs = [...away, ...closed];
  const pieces = new Map(base.problem.tasks.map((piece) => [piece.id, piece]));
  const stands = standsOf({
    ...{ set, places, told, now },
    endOf: (task, place, start) => {
      const modes = pieces.get(task.id)!.modes;
      const heads = (k: number) => (modes[k]!.people ?? []).reduce((sum, need) => sum + need.count, 0);
      const k = modes.findIndex((_, at) => heads(at) === place.hands.length);
      return endOfWork(base.problem, modes[Math.max(0, k)]!, k < 0 ? [] : place.hands, start);
    },
    out: (id, at) => outs.some((out) => out.id === id && out.from <= at && at < out.to),
  });
  const instead = new Map(
    [...told.instead, ...(asked.instead ?? [])].map(([task, { unit: id, parts }]) => [
      task,
      { parts, units: site.units.all.filter((u) => u.id === id || u.equipment.id === id).map((u) => u.id) },
    ]),
  );
  const problem = liveProblem({
    site,
    set,
    problem: base.problem,
    places,
    stands,
    instead,
    away,
    closed,
    now,
  });
  // What was told and could not be mended stands until something is said, or time itself upsets the plan.
  const answered = told.last === undefined || told.answered.has(told.last);
  const upset = (id: string) => {
    const [stand, place] = [stands.get(originalId(id)), places.get(originalId(id))];
    if (!stand || !place || stand.status === "done") return false;
    return stand.status === "open" ? place.start < now : stand.end > place.end;
  };
  const content = (broken: readonly Violation[]) =>
    asked.trial !== true && answered && !broken.some((v) => v.rule === "now" || v.tasks.some(upset));
  const repaired = repair(problem.problem, problem.old, { relax: GIVEN_UP, content });
  const after = placesAfter(set, problem, repaired, places, stands);
  const plan = planNow(base, problem, repaired, stands, after, now);
  const changes = set.tasks.flatMap(({ id }): LiveChange[] => {
    const [was, is] = [places.get(id), after.get(id)!];
    const stand = stands.get(id)!;
    // What is over, or was marked, is where it was said to be: that is no move.
    if (stand.status === "done" && !problem.rests.has(id)) return [];
    if (was && samePlace(was, is)) return [];
    return [{ task: id, before: was, after: is }];
  });
  const live: LivePlan = {
    plan,
    states: set.tasks.map(({ id }) => {
      const { status, assumed } = stands.get(id)!;
      const again = problem.rests.has(id) ? "started" : status;
      return { task: id, status: again, assumed: assumed === true };
    }),
    changes,
    breaches: newBreaches(base.plan.broken, plan.broken),
    unfollowed: told.unfollowed,
    takenBack: told.takenBack,
    because: told.last,
    answered: told.last !== undefined && told.answered.has(told.last),
    away: told.absences,
    closed: told.closures,
  };
  return { live, problem, repaired, stands, places: after, elsewhere: new Set(instead.keys()) };
}

function knownOf({ site, set }: LiveBase) {
  return {
    tasks: new Set(set.tasks.map((task) => task.id)),
    persons: new Set(site.crew.map((cook) => cook.id)),
    units: new Set(site.units.all.flatMap((unit) => [unit.id, unit.equipment.id])),
  };
}

/** Where each task stood: by the plan, then as the log has moved it. */
function placesOf(base: LiveBase, told: Told): Map<string, Place> {
  const places = new Map(placesOfPlan(base.set, base.plan.tasks));
  const { clock } = base.site;
  const persons = new Set(base.site.crew.map((cook) => cook.id));
  for (const [task, written] of told.places) {
    const start = clock.minuteOf(written.start);
    const end = Math.max(start, clock.minuteOf(written.end));
    places.set(task, {
      ...{ start, end, units: written.units },
      hands: written.hands.filter((id) => persons.has(id)),
      ...(written.again
        ? { again: { stopped: clock.minuteOf(written.again.stopped), at: clock.minuteOf(written.again.at) } }
        : {}),
    });
  }
  return places;
}

/** The places of a plan's tasks; units by their uses. */
export function placesOfPlan(set: TaskSet, planned: readonly PlanTask[]): Map<string, Place> {
  const byId = new Map(planned.map((task) => [task.id, task]));
  return new Map(
    set.tasks.flatMap((task): [string, Place][] => {
      const own = byId.get(task.id);
      if (!own) return [];
      let next = 0;
      // The plan writes a unit once for each dimension of room a use takes.
      const units = task.uses.map((use) => {
        const unit = use.space.length > 0 ? own.equipment[next]?.id : undefined;
        next += use.space.length;
        return unit ?? use.units[0] ?? "";
      });
      return [[task.id, { start: own.startMin, end: own.endMin, hands: own.hands, units }]];
    }),
  );
}

function placesAfter(
  set: TaskSet,
  { set: live, problem, rests }: LiveProblem,
  { schedule }: Repair,
  before: ReadonlyMap<string, Place>,
  stands: ReadonlyMap<string, Stand>,
): Map<string, Place> {
  const units = unitsOfTasks(live, problem, schedule);
  const index = new Map(live.tasks.map((task, i) => [task.id, i]));
  return new Map(
    set.tasks.map((task): [string, Place] => {
      const at = index.get(task.id)!;
      const own = schedule.placements[at]!;
      const was = before.get(task.id);
      const rest = rests.get(task.id);
      if (rest) {
        const r = index.get(restId(task.id))!;
        const on = schedule.placements[r]!;
        return [
          task.id,
          {
            ...{ start: own.start, end: on.end, hands: on.persons },
            units: had(task.uses.length, units[r]!, was),
            again: { stopped: rest.stopped, at: on.start },
          },
        ];
      }
      const stand = stands.get(task.id)!;
      const { start, end } = own;
      // What has begun keeps its hands and its equipment, whatever the engine could read of them.
      if (stand.status !== "open" && was)
        return [task.id, { start, end, hands: was.hands, units: was.units }];
      return [task.id, { start, end, hands: own.persons, units: had(task.uses.length, units[at]!, was) }];
    }),
  );
}

/** Units by the task's uses; where one was taken out because nothing is left for it, what it had. */
function had(uses: number, units: readonly string[], was: Place | undefined): readonly string[] {
  return units.length >= uses ? units : (was?.units ?? units);
}

const samePlace = (a: Place, b: Place) =>
  a.start === b.start &&
  a.end === b.end &&
  sameSet(a.hands, b.hands) &&
  a.units.join(" ") === b.units.join(" ") &&
  a.again?.at === b.again?.at;

const sameSet = (a: readonly string[], b: readonly string[]) =>
  a.length === b.length && a.every((id) => b.includes(id));

/** The repaired schedule as a plan of the same tasks; a task that was broken off ends when its rest does. */
function planNow(
  base: LiveBase,
  { site, set, problem, rests, noUnit }: LiveProblem,
  repaired: Repair,
  stands: ReadonlyMap<string, Stand>,
  after: ReadonlyMap<string, Place>,
  now: number,
): Plan {
  const { schedule, violations, objective } = repaired;
  const solved: Solved = {
    ...{
      refusals: [],
      status: violations.length > 0 ? "broken" : "feasible",
      schedule,
      violations,
      objective,
    },
    ...{ value: repaired.value, bound: 0, reason: "schedules", schedules: base.plan.schedules },
    ...{ seed: base.plan.seed, earliest: [], latest: [], conflicts: [] },
  };
  const before = new Map(base.plan.tasks.map((task) => [task.id, task]));
  const follows = (id: string) => before.get(originalId(id))?.after ?? [];
  const drawn = planOf(site, set, problem, solved, [], follows);
  const byId = new Map(drawn.tasks.map((task) => [task.id, task]));
  const tasks = base.set.tasks.map(({ id }): PlanTask => {
    const own = byId.get(id)!;
    const rest = byId.get(restId(id));
    const { start, end, hands } = after.get(id)!;
    if (rest) {
      const { clock } = site;
      const begins = clock.textOf(start);
      return {
        ...rest,
        ...{ id, start: begins, end: clock.textOf(end), startMin: start, endMin: end, hands },
        ...{ earliest: begins, latest: begins },
      };
    }
    // What is over has let its equipment go; it is told with what it had.
    const equipment = stands.get(id)!.status === "done" ? before.get(id)?.equipment : undefined;
    return equipment || hands !== own.hands ? { ...own, hands, equipment: equipment ?? own.equipment } : own;
  });
  const lost = lostOf(base, site, rests, noUnit, after);
  const broken = [
    ...lost,
    ...missedMoments(site, base.set.tasks, stands, after, now),
    ...drawn.broken.map((b) => ({ ...b, tasks: [...new Set(b.tasks.map(originalId))] })),
  ];
  return { ...drawn, tasks, broken, status: broken.length > 0 ? "broken" : "feasible" };
}

/** What has no equipment any more, each step of a batch once with its work and its waiting. */
function lostOf(
  base: LiveBase,
  site: Site,
  rests: LiveProblem["rests"],
  noUnit: LiveProblem["noUnit"],
  after: ReadonlyMap<string, Place>,
): Broken[] {
  const tasks = new Map(base.set.tasks.map((task) => [task.id, task]));
  const lost = new Map<string, Broken>();
  for (const { task: id, use, minutes } of noUnit) {
    const task = tasks.get(id)!;
    const unit = after.get(id)?.units[use] ?? "";
    const name = site.units.all.find((u) => u.id === unit)?.name ?? unit;
    const goes = rests.has(id) ? "was broken off and cannot go on" : "has no equipment";
    const what = `${nameOf(site, task)} ${goes}: ${name} is out`;
    const known = lost.get(what);
    lost.set(what, {
      ...{ rule: "equipment", tasks: [...(known?.tasks ?? []), id], by: (known?.by ?? 0) + minutes },
      ...{ unit: "min", what },
    });
  }
  return [...lost.values()];
}

/**
 * What is to be written into the log after an event: the whole plan the first time, so that every tablet works by the
 * same one, later what it moved.
 */
export function placesToWrite(base: LiveBase, made: LiveMade, entries: readonly LiveEntry[]): WrittenPlace[] {
  const written = entries.some(({ body }) => (body as { kind?: unknown } | null)?.kind === "placed");
  const changes = new Map(made.live.changes.map((change) => [change.task, change]));
  if (written) return made.live.changes.map((change) => writtenPlace(base.site, change));
  return [...placesOfPlan(base.set, base.plan.tasks)].map(([task, place]) =>
    writtenPlace(base.site, { task, before: place, after: changes.get(task)?.after ?? place }),
  );
}

/** A place as the log keeps it. */
export function writtenPlace(site: Site, { task, after }: LiveChange): WrittenPlace {
  const text = site.clock.textOf;
  return {
    ...{ task, start: text(after.start), end: text(after.end) },
    hands: [...after.hands],
    units: [...after.units],
    ...(after.again ? { again: { stopped: text(after.again.stopped), at: text(after.again.at) } } : {}),
  };
}

/** The problem of a service before anything has happened. */
export function liveBase(site: Site, set: TaskSet, plan: Plan): LiveBase {
  return { site, set, problem: problemOf(site, set), plan };
}
