import type { Task as Piece, Pin, Placement, Problem, Schedule } from "../schedule/problem.ts";
import { benchOf } from "./contacts.ts";
import { problemAgain } from "./live-again.ts";
import { type Interruption, interruptions, originalId, restId } from "./live-rest.ts";
import type { Out, Place, Stand } from "./live-stand.ts";
import { ofLoad, wholeRoom } from "./plan-rules.ts";
import type { Site } from "./site.ts";
import type { At, RoomNeed, Task, TaskSet } from "./tasks.ts";
import { WHOLE_ROOM } from "./units.ts";

/** A use of equipment for which nothing is left. */
export interface NoUnit {
  readonly task: string;
  readonly use: number;
  readonly minutes: number;
}

/** The kitchen as it is now, and what is still to be done in it. */
export interface LiveProblem {
  readonly site: Site;
  /** With a task of its own for what goes on after it was broken off. */
  readonly set: TaskSet;
  readonly problem: Problem;
  readonly old: Schedule;
  readonly rests: ReadonlyMap<string, Interruption>;
  readonly noUnit: readonly NoUnit[];
}

export interface LiveProblemOf {
  readonly site: Site;
  readonly set: TaskSet;
  /** Of the site and the tasks before anything happened. */
  readonly problem: Problem;
  readonly places: ReadonlyMap<string, Place>;
  readonly stands: ReadonlyMap<string, Stand>;
  /** Units that these tasks may use instead. */
  readonly instead: ReadonlyMap<string, { readonly units: readonly string[]; readonly parts: number }>;
  readonly away: readonly Out[];
  readonly closed: readonly Out[];
  readonly now: number;
}

/**
 * The scheduling problem at minute `now` (README, L7, L8): what has begun or is over is fixed where it was, people are
 * out and units closed for their time, and what was broken off has a rest to be done.
 */
export function liveProblem(given: LiveProblemOf): LiveProblem {
  const { places, stands, now } = given;
  const site = siteNow(given);
  const noUnit: NoUnit[] = [];
  const widened = given.set.tasks.map((task) => servable(given, task, noUnit));
  const rests = interruptions(given, widened);
  const set = withRests({ ...given.set, tasks: widened }, rests, stands, now);
  const begun = [...stands.values()].filter((stand) => stand.status !== "open");
  const latest = begun.reduce((most, stand) => Math.max(most, stand.end), 0);
  const problem = problemAgain(given, site, set, latest);
  const had = problem.tasks.map((piece, i) => hadBy(piece, set.tasks[i]!, places));
  const pinned = problem.tasks.map((piece, i) => pinnedPiece(piece, set.tasks[i]!, had[i]!, stands, rests));
  const fixed = fixedUnits(set, places);
  const byId = new Map(pinned.map((piece) => [piece.id, piece]));
  const spans = problem.spans?.map((span) => {
    const from = byId.get(span.from.task);
    const unit = fixed.get(span.id);
    return from?.status !== undefined && unit !== undefined && span.need.of.includes(unit)
      ? { ...span, need: { ...span.need, of: [unit] } }
      : span;
  });
  const told: Problem = {
    ...problem,
    now: Math.min(now, problem.horizon),
    tasks: pinned,
    ...(spans ? { spans } : {}),
  };
  return {
    site,
    set,
    problem: told,
    old: scheduleBefore(set, told, had, fixed, rests),
    rests,
    noUnit,
  };
}

const sites = new WeakMap<Site, { readonly key: string; readonly now: Site }>();

/** Shifts without the time people are away; units there but for the time they are closed: the same until that changes. */
function siteNow(given: LiveProblemOf): Site {
  const { site, away, closed } = given;
  if (away.length === 0 && closed.length === 0) return site;
  const key = JSON.stringify([away, closed]);
  const known = sites.get(site);
  if (known?.key === key) return known.now;
  const now = siteWithout(given);
  sites.set(site, { key, now });
  return now;
}

function siteWithout({ site, away, closed }: LiveProblemOf): Site {
  const crew =
    away.length === 0
      ? site.crew
      : site.crew.map((cook) => {
          const gone = away.filter((out) => out.id === cook.id);
          if (gone.length === 0) return cook;
          const shifts = gone.reduce(
            (list, out) =>
              list.flatMap((shift) =>
                without(shift, out).map((span) => ({
                  ...span,
                  breaks: shift.breaks
                    .map((b) => ({ from: Math.max(b.from, span.from), to: Math.min(b.to, span.to) }))
                    .filter((b) => b.from < b.to),
                })),
              ),
            [...cook.shifts],
          );
          return { ...cook, shifts };
        });
  if (closed.length === 0) return { ...site, crew };
  const all = site.units.all.map((unit) => {
    const shut = closed.filter((out) => out.id === unit.id);
    if (shut.length === 0) return unit;
    const { clock } = site;
    const open = unit.equipment.days?.map((d) => ({
      from: Math.max(0, clock.minuteOf(d.from)),
      to: clock.minuteOf(d.to),
    })) ?? [{ from: 0, to: lastMinute(site) }];
    const left = shut.reduce((list, out) => list.flatMap((span) => without(span, out)), open);
    // A unit that is never there at all is no unit: it keeps its first minute, which has passed.
    const there = left.length > 0 ? left : [{ from: 0, to: 1 }];
    const days = there.map((span) => ({ from: clock.textOf(span.from), to: clock.textOf(span.to) }));
    return { ...unit, equipment: { ...unit.equipment, days } };
  });
  return { ...site, crew, units: { ...site.units, all } };
}

/** A day after the service: later than anything in a plan. */
const lastMinute = (site: Site) => site.clock.spanOf("D+1").to;

function without<S extends { readonly from: number; readonly to: number }>(
  span: S,
  out: { readonly from: number; readonly to: number },
): { from: number; to: number }[] {
  return [
    { from: span.from, to: Math.min(span.to, out.from) },
    { from: Math.max(span.from, out.to), to: span.to },
  ].filter((part) => part.from < part.to);
}

/** A task with what it may use instead; a use for which nothing is left is taken out and said. */
function servable(given: LiveProblemOf, task: Task, noUnit: NoUnit[]): Task {
  const { stands, instead, closed, now } = given;
  const stand = stands.get(task.id)!;
  const gone = new Set(closed.filter((out) => out.to === Number.POSITIVE_INFINITY).map((out) => out.id));
  const other = instead.get(task.id);
  const place = given.places.get(task.id);
  let changed = false;
  const uses = task.uses.map((use, k): readonly RoomNeed[] => {
    const had = place?.units[k] ?? "";
    // What is over, or runs on a unit that is there, has its unit.
    const stays = stand.status === "done" || (stand.status === "started" && !gone.has(had));
    if (stays && !other?.units.includes(had)) return [use];
    const spread = other && use.setC !== undefined ? other : undefined;
    const units = (spread?.units ?? use.units).filter((id) => stays || !gone.has(id));
    if (!spread && units.length === use.units.length) return [use];
    changed = true;
    return units.length === 0 ? [] : inParts({ ...use, units }, spread?.parts ?? 1);
  });
  if (!changed) return task;
  task.uses.forEach((_, k) => {
    if (uses[k]!.length > 0) return;
    const end = stand.end === Number.POSITIVE_INFINITY ? now : stand.end;
    const minutes = Math.max(1, end - Math.max(now, Math.min(stand.start, end)));
    noUnit.push({ task: task.id, use: k, minutes });
  });
  return { ...task, uses: uses.flat() };
}

/** A need spread evenly over several units; what comes whole only is rounded up on each. */
function inParts(use: RoomNeed, parts: number): RoomNeed[] {
  if (parts === 1) return [use];
  const space = use.space.map(({ unit, value }) => ({
    unit,
    value: WHOLE_ROOM.has(unit) ? wholeRoom(ofLoad(value, parts)) : ofLoad(value, parts),
  }));
  return Array.from({ length: parts }, (_, n) => ({
    ...{ ...use, space },
    ...(use.same === undefined ? {} : { same: `${use.same}/${n + 1}` }),
  }));
}

/** The tasks with a rest for each that was broken off; what came after the task comes after its rest. */
function withRests(
  set: TaskSet,
  rests: ReadonlyMap<string, Interruption>,
  stands: ReadonlyMap<string, Stand>,
  now: number,
): TaskSet {
  const ended = (at: At): At =>
    at.at === "end" && rests.has(at.task) ? { ...at, task: restId(at.task) } : at;
  const kept = new Set([...rests.values()].flatMap((rest) => rest.uses.flatMap((use) => use.same ?? [])));
  const tasks = set.tasks.flatMap((task): Task[] => {
    const stand = stands.get(task.id)!;
    const rest = rests.get(task.id);
    const timed: Task = rest
      ? { ...task, at: stand.start, status: "done", uses: [] }
      : stand.status === "open"
        ? opened(task, stand, now)
        : {
            ...task,
            at: stand.start,
            status: stand.status,
            // The unit that was kept from the work through the waiting is left: the rest asks for one anew.
            uses: task.uses.some((use) => kept.has(use.same ?? ""))
              ? task.uses.filter((use) => !kept.has(use.same ?? ""))
              : task.uses,
          };
    if (!rest) return [timed];
    const { at: _at, status: _status, ...plain } = task;
    return [
      timed,
      {
        ...plain,
        id: restId(task.id),
        ways: [{ hands: rest.hands, minutes: rest.minutes }],
        uses: rest.uses,
        release: Math.max(now, rest.stopped),
        due: Math.max(now, rest.stopped) + rest.minutes,
        // Gone on already: as fixed as anything else that has begun.
        ...(rest.again === undefined || rest.again >= now
          ? {}
          : { at: rest.again, status: "started" as const }),
      },
    ];
  });
  return {
    ...set,
    tasks,
    links: [
      ...set.links.map((link) => ({ ...link, from: ended(link.from), to: ended(link.to) })),
      ...[...rests.keys()].map((id) => ({
        from: { task: id, at: "end" as const },
        to: { task: restId(id), at: "start" as const },
        rule: "ready" as const,
        least: 0,
      })),
    ],
    stays: set.stays.map((stay) => ({ ...stay, from: ended(stay.from), to: ended(stay.to) })),
  };
}

/** An open task may not begin in the past; a moment that has gone by is no pin any more. */
function opened(task: Task, stand: Stand, now: number): Task {
  const release = Math.max(task.release ?? 0, stand.release ?? 0);
  const { at, status: _, ...rest } = task;
  const stays = at === undefined || at >= Math.max(now, stand.release ?? 0);
  if (stays && task.status === undefined && release === (task.release ?? 0)) return task;
  return {
    ...rest,
    ...(release > 0 ? { release } : {}),
    ...(at !== undefined && stays ? { at } : {}),
  };
}

/** What a task had: where it stood, in which way, with what. */
interface Had {
  readonly place: Place | undefined;
  readonly mode: number;
  /** Need by need; undefined where it had not all of them. */
  readonly resources: readonly string[] | undefined;
}

function hadBy(piece: Piece, task: Task, places: ReadonlyMap<string, Place>): Had {
  const place = places.get(originalId(task.id));
  const mode = modeOf(piece, place);
  return { place, mode, resources: ownResources(piece, mode, task, place) };
}

function pinnedPiece(
  piece: Piece,
  task: Task,
  { place, mode, resources }: Had,
  stands: ReadonlyMap<string, Stand>,
  rests: ReadonlyMap<string, Interruption>,
): Piece {
  if (task.status === undefined || task.at === undefined) return piece;
  const of = originalId(task.id);
  const rest = rests.get(of);
  const stand = stands.get(of)!;
  const isRest = of !== task.id;
  const end = isRest ? rest!.again! + rest!.minutes : rest ? rest.stopped : stand.end;
  const heads = (piece.modes[mode]!.people ?? []).reduce((sum, need) => sum + need.count, 0);
  const pin: Pin = {
    start: task.at,
    end: Math.max(end, task.at),
    mode,
    ...(place && place.hands.length === heads ? { persons: place.hands } : {}),
    ...(resources ? { resources } : {}),
  };
  const { release: _, ...plain } = piece;
  return { ...plain, status: task.status, pin };
}

/** What a task held by itself, need by need: its units, then its bench; undefined where it had not all of them. */
function ownResources(
  piece: Piece,
  mode: number,
  task: Task,
  place: Place | undefined,
): readonly string[] | undefined {
  const needs = piece.modes[mode]!.resources ?? [];
  if (needs.length === 0) return NONE;
  const own = ownUnits(task, place);
  const bench = task.station === undefined ? undefined : benchOf(task.station);
  if (bench !== undefined && needs.at(-1)!.of[0] === bench) own.push(bench);
  return own.length === needs.length && own.every((id, k) => needs[k]!.of.includes(id)) ? own : undefined;
}

const NONE: readonly string[] = [];

/** Units of the uses that a task holds by itself: in order, without those kept through a step. */
function ownUnits(task: Task, place: Place | undefined): string[] {
  if (!place) return [];
  const used = new Set<number>();
  return task.uses.flatMap((use, n) => {
    if (use.same !== undefined) return [];
    const serves = (id: string | undefined, k: number) =>
      id !== undefined && !used.has(k) && use.units.includes(id);
    // Uses may have been taken out: then the first unit not yet taken that can serve.
    const k = serves(place.units[n], n) ? n : place.units.findIndex(serves);
    if (k < 0) return [];
    used.add(k);
    return [place.units[k]!];
  });
}

function modeOf(piece: Piece, place: Place | undefined): number {
  if (!place) return 0;
  const hands = (k: number) => (piece.modes[k]!.people ?? []).reduce((sum, need) => sum + need.count, 0);
  const found = piece.modes.findIndex((_, k) => hands(k) === place.hands.length);
  return Math.max(0, found);
}

/** By kept need the unit it has. */
function fixedUnits(set: TaskSet, places: ReadonlyMap<string, Place>): Map<string, string> {
  const fixed = new Map<string, string>();
  for (const task of set.tasks) {
    if (!task.uses.some((use) => use.same !== undefined)) continue;
    const units = places.get(originalId(task.id))?.units ?? [];
    const taken = new Set<number>();
    for (const use of task.uses) {
      const k = units.findIndex((id, n) => !taken.has(n) && use.units.includes(id));
      if (k < 0) continue;
      taken.add(k);
      if (use.same !== undefined) fixed.set(use.same, units[k]!);
    }
  }
  return fixed;
}

/** The plan as it was, in the problem's own words. */
function scheduleBefore(
  set: TaskSet,
  problem: Problem,
  had: readonly Had[],
  fixed: ReadonlyMap<string, string>,
  rests: ReadonlyMap<string, Interruption>,
): Schedule {
  const placements = set.tasks.flatMap((task, i): Placement[] => {
    const of = originalId(task.id);
    const { place, mode, resources: own } = had[i]!;
    const rest = rests.get(of);
    if (!place) return [];
    const piece = problem.tasks[i]!;
    const resources = own ?? (piece.modes[mode]!.resources ?? []).map((need) => need.of[0]!);
    // In the order of fields in which the engine writes a placement: it compares them as they are written.
    const at = (start: number, end: number): Placement => ({
      ...{ task: task.id, start, end, mode, persons: place.hands, resources },
    });
    if (of !== task.id) {
      if (rest?.again === undefined) return [];
      return [at(rest.again, rest.again + rest.minutes)];
    }
    // A fixed moment that had to move stands where the log has it.
    if (piece.status === undefined) return [at(place.start, place.end)];
    return [at(piece.pin?.start ?? place.start, piece.pin?.end ?? place.end)];
  });
  const spans = (problem.spans ?? []).map((span) => {
    const unit = fixed.get(span.id);
    return unit !== undefined && span.need.of.includes(unit) ? unit : span.need.of[0]!;
  });
  return { placements, spans };
}
