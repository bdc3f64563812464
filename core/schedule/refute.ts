import { Board } from "./board.ts";
import { minutesIn, shiftsOf, workOf } from "./calendar.ts";
import { ProjectProof } from "./clause/search.ts";
import { buildModel } from "./model.ts";
import type { Interval, Mode, PeopleNeed, Person, Problem, Resource, ResourceNeed, Task } from "./problem.ts";
import type { Project } from "./rcpsp/project.ts";

export interface RefuteOptions {
  /** Conflicts learnt from before it is given up. Default 200. */
  readonly conflicts?: number;
  readonly stop?: (() => boolean) | undefined;
}

/**
 * Whether it is proved that no plan keeps every rule: a problem that asks for less (`easierThan`) is refuted by a complete
 * search that learns from its conflicts. False says nothing. What has begun, is over or has its end decided is not reckoned with: false.
 */
export function refuted(problem: Problem, { conflicts = 200, stop }: RefuteOptions = {}): boolean {
  const decided = ({ status, pin }: Task) => (status ?? "open") !== "open" || pin?.end !== undefined;
  if (problem.tasks.some(decided)) return false;
  const proof = proofOf(problem);
  return proof === null || !proof.possible || proof.improve(conflicts, stop) === "impossible";
}

/** A proof about the easier problem, its first minute at 1; null when dates, lags and hours alone leave no plan. */
export function proofOf(problem: Problem): ProjectProof | null {
  const easier = easierThan(problem);
  if (easier === null) return null;
  const proof = new ProjectProof(easier, problem.horizon + FIRST);
  // The origin is moved, not only bounded, so that all that hangs on it is drawn from it.
  const origin = problem.tasks.length;
  const fixed = proof.bounds.settle(2 * origin, FIRST) && proof.bounds.settle(2 * origin + 1, -FIRST);
  return fixed && proof.bounds.propagate() ? proof : null;
}

/** Minute 0 of the problem. */
export const FIRST = 1;

/** What a task asks for at the least, whatever its way. */
interface Least {
  readonly modes: readonly Mode[];
  /** Working minutes. */
  readonly minutes: number;
  /** Minutes from start to end at the most. */
  readonly elapsed: number;
  /** Earliest and latest start. */
  readonly from: number;
  readonly to: number;
}

/**
 * A project of fixed minutes that every plan of the problem is a plan of. Each task takes its fewest minutes and hands; who
 * and which unit is left open: of every set of persons or units that serve somebody, no more is asked for than is there.
 * States, cleaning and stores are left out, and breaks where any work of the set may run over them.
 * Null when dates, lags and hours alone leave no plan.
 */
export function easierThan(problem: Problem): Project | null {
  const board = new Board(buildModel(problem, { mirrored: false }));
  if (!board.sound) return null;
  const { lo, hi } = board.windows;
  const tasks = problem.tasks.map((task, i): Least => {
    const modes = task.modes.filter((_, m) => (task.pin?.mode ?? m) === m);
    const minutes = Math.min(...modes.map((mode) => mode.duration));
    const elapsed = Math.max(...modes.map((mode) => mode.duration + pausesOf(problem, mode)));
    return { modes, minutes, elapsed, from: lo[2 * i]!, to: hi[2 * i]! };
  });
  const draft = new Draft(tasks.map(({ minutes }) => minutes));
  tasks.forEach(({ from, to }, i) => {
    draft.window(i, from, to);
  });
  const index = new Map(problem.tasks.map((task, i) => [task.id, i]));
  for (const { from, to, least, most } of problem.lags ?? []) {
    const [a, b] = [index.get(from.task)!, index.get(to.task)!];
    const early = (i: number, at: string) => (at === "end" ? tasks[i]!.minutes : 0);
    const late = (i: number, at: string) => (at === "end" ? tasks[i]!.elapsed : 0);
    if (least !== undefined) draft.arc(a, b, early(a, from.at) + least - late(b, to.at));
    if (most !== undefined) draft.arc(b, a, early(b, to.at) - most - late(a, from.at));
  }
  addHands(problem, tasks, draft);
  addUnits(problem, tasks, index, draft);
  return draft.project();
}

/** Breaks that may lie inside a task at the most: for each of its hands the most that one shift holds. */
function pausesOf({ persons = [], horizon }: Problem, mode: Mode): number {
  if ((mode.interrupt ?? "no") === "no") return 0;
  if (mode.interrupt === "shifts") return horizon;
  const rests = persons.flatMap((person) => {
    const work = workOf(person);
    return shiftsOf(person).map(({ from, to }) => to - from - minutesIn(work, from, to));
  });
  const heads = (mode.people ?? []).reduce((sum, { count }) => sum + count, 0);
  return heads * Math.max(0, ...rests);
}

/** Of each set of persons that can serve a need: no more hands at once than are there. */
function addHands(problem: Problem, tasks: readonly Least[], draft: Draft): void {
  const persons = problem.persons ?? [];
  const ableFor = remembered(persons);
  const needs = tasks
    .map(({ modes }, task) => ({
      task,
      modes: modes.map((mode) =>
        (mode.people ?? []).map((need) => ({ count: need.count, able: ableFor(need) })),
      ),
    }))
    .filter(({ modes }) => modes.every((mode) => mode.length > 0));
  const sets = new Set([...needs.flatMap(({ modes }) => modes.flat().map(({ able }) => able))]);
  for (const set of [...sets, new Set(persons.map(({ id }) => id))]) {
    const asked = leastOf(needs, ({ count, able }) => (isWithin(able, set) ? count : 0));
    if (asked.size === 0) continue;
    const over = new Set(
      [...asked.keys()].flatMap((i) => tasks[i]!.modes.map((mode) => mode.interrupt ?? "no")),
    );
    const there = persons
      .filter(({ id }) => set.has(id))
      .map((person) => {
        if (over.has("shifts")) return [{ from: 0, to: problem.horizon }];
        return over.has("breaks") ? shiftsOf(person) : workOf(person);
      });
    draft.pool(set.size, asked, absences(there, problem.horizon));
  }
}

/** Who can serve a need; one set for all needs that the same persons serve. */
function remembered(persons: readonly Person[]): (need: PeopleNeed) => ReadonlySet<string> {
  const sets = new Map<string, ReadonlySet<string>>();
  return ({ skill, among }) => {
    const able = persons
      .filter(({ skills }) => skill === undefined || skills.includes(skill))
      .filter(({ id }) => !among || among.includes(id))
      .map(({ id }) => id);
    const key = able.join(" ");
    const set = sets.get(key) ?? new Set(able);
    sets.set(key, set);
    return set;
  };
}

/** What a task asks of units, way by way. */
interface Needs {
  readonly task: number;
  readonly modes: readonly (readonly ResourceNeed[])[];
}

/** Of each set of units that can serve a need: no more of any dimension at once than is there. */
function addUnits(
  problem: Problem,
  tasks: readonly Least[],
  index: ReadonlyMap<string, number>,
  draft: Draft,
): void {
  const units = new Map((problem.resources ?? []).map((each) => [each.id, each]));
  const kept = keptBy(problem, index);
  const needs = tasks
    .map(
      ({ modes }, task): Needs => ({
        task,
        modes: modes.map((mode) => [...(mode.resources ?? []), ...(kept.get(task) ?? [])]),
      }),
    )
    .filter(({ modes }) => modes.every((mode) => mode.length > 0));
  const sets = new Map(
    needs.flatMap(({ modes }) => modes.flat()).map((need) => [need.of.join(" "), new Set(need.of)]),
  );
  for (const set of sets.values()) {
    const members = [...set].map((id) => units.get(id)!);
    const dimensions = Math.max(...members.map(({ capacity }) => capacity.length));
    for (let d = 0; d < dimensions; d++) {
      const capacity = members.reduce((sum, each) => sum + mostOf(each, d), 0);
      const asks = (need: ResourceNeed) => {
        if (!isWithin(need.of, set)) return 0;
        const alone = need.exclusive && need.same === undefined && members.length === 1;
        return alone ? capacity : (need.amount[d] ?? 0);
      };
      draft.pool(capacity, leastOf(needs, asks), []);
    }
    if (members.length === 1) addApart(members[0]!, needs, draft);
  }
}

/** Units kept from the start of one task to the end of one that comes after it: each of the two holds them. */
function keptBy(
  { spans = [], lags = [] }: Problem,
  index: ReadonlyMap<string, number>,
): Map<number, ResourceNeed[]> {
  const after = new Set(
    lags.flatMap(({ from, to, least = -1 }) =>
      from.at === "end" && to.at === "start" && least >= 0 ? [JSON.stringify([from.task, to.task])] : [],
    ),
  );
  const kept = new Map<number, ResourceNeed[]>();
  for (const { from, to, need } of spans) {
    if (from.at !== "start" || to.at !== "end") continue;
    if (from.task !== to.task && !after.has(JSON.stringify([from.task, to.task]))) continue;
    for (const id of new Set([from.task, to.task])) {
      const i = index.get(id)!;
      kept.set(i, [...(kept.get(i) ?? []), need]);
    }
  }
  return kept;
}

/** The most of a dimension that a unit ever has. */
const mostOf = ({ calendar, capacity }: Resource, d: number) =>
  calendar ? Math.max(0, ...calendar.map((span) => span.capacity[d] ?? 0)) : (capacity[d] ?? 0);

/** By task what it asks for in the way that asks for least. */
function leastOf<Need>(
  needs: readonly { readonly task: number; readonly modes: readonly (readonly Need[])[] }[],
  asks: (need: Need) => number,
): Map<number, number> {
  const least = new Map<number, number>();
  for (const { task, modes } of needs) {
    const amount = Math.min(...modes.map((mode) => mode.reduce((sum, need) => sum + asks(need), 0)));
    if (amount > 0) least.set(task, amount);
  }
  return least;
}

/** On one unit: two whose classes are cleaned between, or whose states cannot be shared, never at once. */
function addApart({ id, setups = [], state }: Resource, needs: readonly Needs[], draft: Draft): void {
  const own = needs.flatMap(({ task, modes }) => {
    const [first, ...rest] = modes.map((mode) => mode.find(({ of }) => of.length === 1 && of[0] === id));
    const alike = rest.every(
      (each) => each?.class === first?.class && each?.state?.set === first?.state?.set,
    );
    return first && alike ? [{ task, need: first }] : [];
  });
  const cleaned = new Set(
    setups.filter(({ minutes }) => minutes > 0).map(({ from, to }) => JSON.stringify([from, to])),
  );
  const bears = (need: ResourceNeed) => need.state?.tolerance ?? state?.tolerance ?? 0;
  own.forEach(({ task, need: a }, i) => {
    for (const { task: other, need: b } of own.slice(i + 1)) {
      const unclean =
        a.class !== b.class &&
        cleaned.has(JSON.stringify([a.class, b.class])) &&
        cleaned.has(JSON.stringify([b.class, a.class]));
      const apart = a.state && b.state && state ? Math.abs(a.state.set - b.state.set) : 0;
      if (unclean || apart > Math.min(bears(a), bears(b))) draft.apart(task, other);
    }
  });
}

const isWithin = (part: Iterable<string>, set: ReadonlySet<string>) => {
  for (const each of part) if (!set.has(each)) return false;
  return true;
};

/** How many of them are away, stretch by stretch. */
function absences(
  there: readonly (readonly Interval[])[],
  horizon: number,
): { from: number; to: number; away: number }[] {
  const change = new Map<number, number>([[0, there.length]]);
  const step = (minute: number, by: number) => change.set(minute, (change.get(minute) ?? 0) + by);
  for (const { from, to } of there.flat()) {
    step(Math.min(from, horizon), -1);
    step(Math.min(to, horizon), 1);
  }
  const moments = [...change.keys()].sort((a, b) => a - b);
  let away = 0;
  return moments.flatMap((from, k) => {
    away += change.get(from)!;
    const to = moments[k + 1] ?? horizon;
    return away > 0 && to > from ? [{ from, to, away }] : [];
  });
}

/** A project as it is put together. */
class Draft {
  private readonly duration: number[];
  private readonly arcs: (readonly [from: number, to: number, lag: number])[] = [];
  private readonly pools: { readonly capacity: number; readonly asked: Map<number, number> }[] = [];
  private readonly pairs: (readonly [number, number])[] = [];
  private readonly origin: number;

  constructor(duration: readonly number[]) {
    this.duration = [...duration, 0];
    this.origin = duration.length;
  }

  arc(from: number, to: number, lag: number): void {
    if (from !== to) this.arcs.push([from, to, lag]);
  }

  /** Start not before and not after. */
  window(i: number, from: number, to: number): void {
    this.arc(this.origin, i, from);
    this.arc(i, this.origin, -to);
  }

  /** So much of something, asked for by each task, and taken already for stretches of time. */
  pool(
    capacity: number,
    asked: ReadonlyMap<number, number>,
    taken: readonly { readonly from: number; readonly to: number; readonly away: number }[],
  ): void {
    const all = new Map([...asked].filter(([i]) => this.duration[i]! > 0));
    if ([...all.values()].reduce((a, b) => a + b, 0) <= capacity && taken.length === 0) return;
    for (const { from, to, away } of taken) {
      const i = this.duration.push(to - from) - 1;
      this.window(i, from, from);
      all.set(i, away);
    }
    this.pools.push({ capacity, asked: all });
  }

  apart(i: number, j: number): void {
    if (this.duration[i]! > 0 && this.duration[j]! > 0) this.pairs.push([i, j]);
  }

  project(): Project {
    const { duration, arcs, pools } = this;
    const demand = new Int32Array(duration.length * pools.length);
    pools.forEach(({ asked }, r) => {
      for (const [i, amount] of asked) demand[i * pools.length + r] = amount;
    });
    return {
      n: duration.length,
      resources: pools.length,
      duration: Int32Array.from(duration),
      demand,
      capacity: Int32Array.from(pools, ({ capacity }) => capacity),
      from: Int32Array.from(arcs, ([from]) => from),
      to: Int32Array.from(arcs, ([, to]) => to),
      lag: Int32Array.from(arcs, ([, , lag]) => lag),
      apart: this.pairs,
      base: 0,
    };
  }
}
