import { common, shiftsOf, workOf } from "./calendar.ts";
import { equipmentAlone, kindsOf } from "./equipment.ts";
import { type Hours, hoursOf } from "./hours.ts";
import { dueOf } from "./objective.ts";
import type {
  Interval,
  Mode,
  Moment,
  PeopleNeed,
  Person,
  Problem,
  Resource,
  ResourceNeed,
  Task,
} from "./problem.ts";
import { servesNeed } from "./validate.ts";
import {
  type Decided,
  type Demand,
  type Equipment,
  NEVER,
  type PeopleDemand,
  type Way,
  type Worker,
} from "./ways.ts";

export type { Decided, Demand, Equipment, PeopleDemand, Way, Worker };
export { NEVER };

const NONE: readonly Resource[] = [];

/** Whether two needs on equipment e ask for states that one of them could not bear; by how much, else 0. */
export function apart(e: Equipment, a: Demand, b: Demand): number {
  const difference = Math.abs(a.set - b.set);
  if (!(difference > 0)) return 0;
  const bears = (d: Demand) => (Number.isNaN(d.tolerance) ? e.tolerance : d.tolerance);
  return difference > Math.min(bears(a), bears(b)) ? difference : 0;
}

/** A resource held between two moments. */
export interface Hold {
  readonly from: number;
  readonly to: number;
  readonly demand: Demand;
}

/**
 * The problem in typed arrays, seen forward or, `mirrored`, with time running backward from `end`: a plan for
 * the mirror read backward is a plan for the problem, and "as late as possible" becomes "as soon as possible".
 * Moment 2i is the start of task i, 2i + 1 its end (in the direction of the model).
 */
export interface Model {
  readonly problem: Problem;
  readonly mirrored: boolean;
  /** Length of the axis. */
  readonly end: number;
  readonly n: number;
  readonly ways: readonly (readonly Way[])[];
  /** Dates alone, before any propagation. */
  readonly lo: Int32Array;
  readonly hi: Int32Array;
  /** Mirrored: the start before which the task would be late; it is passed only when nothing else fits. */
  readonly wish: Int32Array;
  readonly arcs: Arcs;
  /** By moment the minutes that shifts allow. */
  readonly hours: Hours;
  readonly holds: readonly Hold[];
  /** Holds that begin or end with the task. */
  readonly holdsOf: readonly (readonly number[])[];
  readonly equipment: readonly Equipment[];
  readonly workers: readonly Worker[];
  readonly kinds: number;
  readonly sames: number;
  readonly teams: number;
  readonly decided: readonly (Decided | null)[];
}

/** Arcs t[to] - t[from] >= length, by their first moment and by their second. */
export interface Arcs {
  readonly first: Int32Array;
  readonly to: Int32Array;
  readonly length: Int32Array;
  /** Lag the arc comes from; -1 for a duration. */
  readonly lag: Int32Array;
  /** 1 when it says a longest wait. */
  readonly longest: Uint8Array;
  /** The same arcs by their second moment: positions in the arrays above. */
  readonly firstIn: Int32Array;
  readonly into: Int32Array;
  readonly from: Int32Array;
}

/** What the engine may leave out or add while it makes a best attempt. */
export interface View {
  readonly mirrored: boolean;
  /** Extra minutes after the horizon. */
  readonly extra?: number;
  /** Leave out deadlines and pinned starts of open tasks. */
  readonly late?: boolean;
}

export function buildModel(problem: Problem, view: View): Model {
  const n = problem.tasks.length;
  const end = problem.horizon + (view.extra ?? 0);
  const mirrored = view.mirrored;
  const { names, ways } = readOf(problem);
  const moment = (m: Moment) => 2 * names.task.get(m.task)! + ((m.at === "end") !== mirrored ? 1 : 0);
  const decided = problem.tasks.map((task) => decidedOf(task, names, end, mirrored));
  const { lo, hi } = datesOf(problem, view, end);
  const holds = (problem.spans ?? []).map((s) => ({
    from: moment(mirrored ? s.to : s.from),
    to: moment(mirrored ? s.from : s.to),
    demand: demandOf(problem, s.need, names),
  }));
  const holdsOf: number[][] = Array.from({ length: n }, () => []);
  holds.forEach((h, k) => {
    holdsOf[h.from >> 1]!.push(k);
    if (h.to >> 1 !== h.from >> 1) holdsOf[h.to >> 1]!.push(k);
  });
  const kinds = names.kind.size;
  const workers = (problem.persons ?? []).map((p) => workerOf(p, end, mirrored));
  return {
    problem,
    mirrored,
    end,
    n,
    ways,
    lo,
    hi,
    wish: Int32Array.from(problem.tasks, (t) => (mirrored ? Math.max(0, end - dueOf(problem, t)) : 0)),
    arcs: arcsOf(problem, ways, decided, moment, mirrored, end),
    holds,
    holdsOf,
    equipment: equipmentOf(problem, ways, holds, end, mirrored),
    workers,
    hours: hoursOf(ways, workers, decided, { problem, mirrored, end }),
    kinds,
    sames: names.same.size,
    teams: names.team.size,
    decided,
  };
}

const workers = new WeakMap<Person, Map<string, Worker>>();

/** A person on the axis; the same for the same, since a plan is mended many times with the people it was made for. */
function workerOf(p: Person, end: number, mirrored: boolean): Worker {
  const known = workers.get(p) ?? new Map<string, Worker>();
  workers.set(p, known);
  const key = `${end} ${mirrored}`;
  const found = known.get(key) ?? workerOn(p, end, mirrored);
  known.set(key, found);
  return found;
}

function workerOn(p: Person, end: number, mirrored: boolean): Worker {
  const turn = (list: readonly Interval[]) => (mirrored ? mirror(list, end) : list);
  const work = common(turn(workOf(p)), [{ from: 0, to: end }]);
  const shifts = turn(shiftsOf(p));
  return {
    work: Int32Array.from(work.flatMap((i) => [i.from, i.to])),
    shiftEnd: Int32Array.from(
      work.map((i) => shifts.find((s) => s.from <= i.from && i.to <= s.to)?.to ?? i.to),
    ),
    skills: p.skills.length,
  };
}

function mirror(list: readonly Interval[], end: number): Interval[] {
  return list.map((i) => ({ from: end - i.to, to: end - i.from })).reverse();
}

/** Numbers for names. */
class Names {
  readonly task = new Map<string, number>();
  readonly resource = new Map<string, number>();
  readonly person = new Map<string, number>();
  readonly kind: ReadonlyMap<string, number>;
  readonly batch = new Map<string, number>();
  readonly same = new Map<string, number>();
  readonly team = new Map<string, number>();
  readonly able = new Map<string, readonly number[]>();

  constructor(problem: Problem) {
    problem.tasks.forEach((t, i) => {
      this.task.set(t.id, i);
    });
    this.kind = kindsOf(problem.resources ?? NONE);
    problem.resources?.forEach((r, i) => {
      this.resource.set(r.id, i);
    });
    problem.persons?.forEach((p, i) => {
      this.person.set(p.id, i);
    });
  }
}

/** What a problem is in every view: neither changes, and several ways of mending ask for the same. */
interface Read {
  readonly names: Names;
  readonly ways: readonly (readonly Way[])[];
}

const read = new WeakMap<Problem, Read>();

function readOf(problem: Problem): Read {
  const known = read.get(problem);
  if (known) return known;
  const names = new Names(problem);
  const ways = problem.tasks.map((task) => task.modes.map((mode) => wayOf(problem, mode, names)));
  const made = { names, ways };
  read.set(problem, made);
  return made;
}

function number(map: Map<string, number>, name: string): number {
  const known = map.get(name);
  if (known !== undefined) return known;
  map.set(name, map.size);
  return map.size - 1;
}

function wayOf(problem: Problem, mode: Mode, names: Names): Way {
  return {
    duration: mode.duration,
    interrupt: mode.interrupt === "shifts" ? 2 : mode.interrupt === "breaks" ? 1 : 0,
    people: (mode.people ?? []).map((need) => ({
      count: need.count,
      able: ableFor(problem, need, names),
      team: need.same === undefined ? -1 : number(names.team, need.same),
    })),
    demands: (mode.resources ?? []).map((need) => demandOf(problem, need, names)),
    heads: (mode.people ?? []).reduce((sum, need) => sum + need.count, 0),
    cost: mode.cost ?? 0,
  };
}

/** Who can serve a need, fewest skills first; one list for all needs that ask for the same. */
function ableFor(problem: Problem, need: PeopleNeed, names: Names): readonly number[] {
  const key = JSON.stringify([need.skill ?? null, need.among ?? null]);
  const known = names.able.get(key);
  if (known) return known;
  const persons = problem.persons ?? [];
  const able = persons
    .map((_, i) => i)
    .filter((i) => need.skill === undefined || persons[i]!.skills.includes(need.skill))
    .filter((i) => !need.among || need.among.includes(persons[i]!.id))
    .sort((a, b) => persons[a]!.skills.length - persons[b]!.skills.length || a - b);
  names.able.set(key, able);
  return able;
}

function demandOf(problem: Problem, need: ResourceNeed, names: Names): Demand {
  const of = need.of
    .map((id) => names.resource.get(id)!)
    .filter((r) => servesNeed(problem.resources![r]!, need));
  return {
    of,
    amount: Int32Array.from(need.amount),
    set: need.state?.set ?? Number.NaN,
    tolerance: need.state?.tolerance ?? Number.NaN,
    exclusive: need.exclusive ?? false,
    kind: need.class === undefined ? -1 : (names.kind.get(need.class) ?? -1),
    batch: need.batch === undefined ? -1 : number(names.batch, need.batch),
    same: need.same === undefined ? -1 : number(names.same, need.same),
  };
}

function decidedOf(task: Task, names: Names, end: number, mirrored: boolean): Decided | null {
  const pin = task.pin;
  if (!pin) return null;
  const from = pin.start ?? -1;
  const to = pin.end ?? -1;
  const turn = (t: number) => (t < 0 ? -1 : end - t);
  return {
    start: mirrored ? turn(to) : from,
    end: mirrored ? turn(from) : to,
    mode: pin.mode ?? -1,
    persons: pin.persons ? pin.persons.map((id) => names.person.get(id)!) : null,
    resources: pin.resources ? pin.resources.map((id) => names.resource.get(id)!) : null,
    status: task.status ?? "open",
  };
}

/** Windows of the moments from dates alone. */
function datesOf(problem: Problem, view: View, end: number): { lo: Int32Array; hi: Int32Array } {
  const n = problem.tasks.length;
  const lo = new Int32Array(2 * n);
  const hi = new Int32Array(2 * n).fill(end);
  problem.tasks.forEach((task, i) => {
    const open = (task.status ?? "open") === "open";
    if (open) {
      lo[2 * i] = Math.max(problem.now ?? 0, task.release ?? 0);
      if (!view.late) hi[2 * i + 1] = Math.min(task.deadline ?? end, problem.horizon);
    }
    const { start, end: stop } = task.pin ?? {};
    if (start !== undefined) {
      lo[2 * i] = open ? Math.max(lo[2 * i]!, start) : start;
      if (!open || !view.late) hi[2 * i] = start;
    }
    if (stop !== undefined && (!open || !view.late)) {
      lo[2 * i + 1] = stop;
      hi[2 * i + 1] = stop;
    }
  });
  if (!view.mirrored) return { lo, hi };
  const turned = { lo: new Int32Array(2 * n), hi: new Int32Array(2 * n) };
  for (let m = 0; m < 2 * n; m++) {
    turned.lo[m] = end - hi[m ^ 1]!;
    turned.hi[m] = end - lo[m ^ 1]!;
  }
  return turned;
}

function arcsOf(
  problem: Problem,
  ways: readonly (readonly Way[])[],
  decided: readonly (Decided | null)[],
  moment: (m: Moment) => number,
  mirrored: boolean,
  end: number,
): Arcs {
  const n = ways.length;
  const list: [number, number, number, number, number][] = [];
  for (let i = 0; i < n; i++) {
    const d = decided[i];
    if (d && d.start >= 0 && d.end >= 0) {
      list.push([2 * i, 2 * i + 1, d.end - d.start, -1, 0], [2 * i + 1, 2 * i, d.start - d.end, -1, 0]);
      continue;
    }
    const open = d && d.mode >= 0 ? [ways[i]![d.mode]!] : ways[i]!;
    list.push([2 * i, 2 * i + 1, Math.min(...open.map((w) => w.duration)), -1, 0]);
    if (open.every((w) => w.interrupt === 0 || w.heads === 0 || w.duration === 0))
      list.push([2 * i + 1, 2 * i, -Math.max(...open.map((w) => w.duration)), -1, 0]);
  }
  problem.lags?.forEach((lag, k) => {
    const [a, b] = mirrored ? [moment(lag.to), moment(lag.from)] : [moment(lag.from), moment(lag.to)];
    if (lag.least !== undefined) list.push([a, b, lag.least, k, 0]);
    if (lag.most !== undefined && lag.most < 2 * end) list.push([b, a, -lag.most, k, 1]);
  });
  return pack(list, 2 * n);
}

function pack(list: readonly [number, number, number, number, number][], moments: number): Arcs {
  const count = list.length;
  const first = new Int32Array(moments + 1);
  const firstIn = new Int32Array(moments + 1);
  for (const [a, b] of list) {
    first[a + 1]!++;
    firstIn[b + 1]!++;
  }
  for (let m = 0; m < moments; m++) {
    first[m + 1]! += first[m]!;
    firstIn[m + 1]! += firstIn[m]!;
  }
  const arcs = {
    first,
    to: new Int32Array(count),
    length: new Int32Array(count),
    lag: new Int32Array(count),
    longest: new Uint8Array(count),
    firstIn,
    into: new Int32Array(count),
    from: new Int32Array(count),
  };
  const next = first.slice();
  const nextIn = firstIn.slice();
  for (const [a, b, length, lag, longest] of list) {
    const k = next[a]!++;
    arcs.to[k] = b;
    arcs.from[k] = a;
    arcs.length[k] = length;
    arcs.lag[k] = lag;
    arcs.longest[k] = longest;
    arcs.into[nextIn[b]!++] = k;
  }
  return arcs;
}

function equipmentOf(
  problem: Problem,
  ways: readonly (readonly Way[])[],
  holds: readonly Hold[],
  end: number,
  mirrored: boolean,
): Equipment[] {
  const paired = new Set<number>();
  const look = (d: Demand) => {
    if (d.exclusive || d.batch >= 0 || !Number.isNaN(d.set)) for (const r of d.of) paired.add(r);
  };
  for (const list of ways) for (const way of list) way.demands.forEach(look);
  for (const h of holds) look(h.demand);
  return equipmentAlone(problem.resources ?? NONE, end, mirrored).map((e, index) =>
    paired.has(index) ? { ...e, pairs: true } : e,
  );
}
