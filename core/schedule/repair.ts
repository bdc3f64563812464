import type { Spot } from "./board.ts";
import { checkSchedule } from "./check.ts";
import { clustersOf } from "./clusters.ts";
import { withEnds } from "./facts.ts";
import { Generator } from "./generate.ts";
import { buildModel, type Model } from "./model.ts";
import { objectiveOf, totalOf } from "./objective.ts";
import { Obstacles } from "./obstacles.ts";
import { scheduleOf, spotsOf } from "./plan.ts";
import type { Placement, Problem, Relaxation, Schedule, Violation } from "./problem.ts";
import { Random } from "./random.ts";
import { attempt } from "./relax.ts";

export interface RepairOptions {
  /** Default 1. */
  readonly seed?: number;
  /** Ways tried at most; two that succeed are compared and suffice. Default 4. */
  readonly tries?: number;
  /** True ends the search with what there is. */
  readonly stop?: () => boolean;
  /** Look from late to early first: for what has to move before something, not after it. */
  readonly late?: boolean;
  /** What gives way when it does not fit. Default overtime, late, wait, capacity. */
  readonly relax?: readonly Relaxation[];
}

/** A task that is placed otherwise than before. */
export interface Change {
  readonly task: string;
  /** Null for a task the old plan did not have. */
  readonly before: Placement | null;
  readonly after: Placement;
}

export interface Repair {
  readonly schedule: Schedule;
  readonly violations: readonly Violation[];
  readonly changes: readonly Change[];
  readonly value: number;
}

/**
 * Mends a plan after the problem has changed (something started, late or done, somebody away, a resource
 * closed), with few changes: what still fits stays; the rest is placed near where it was, and takes off only
 * what stands in its way where that is least. Several ways of doing so are tried; fewest broken rules, then
 * fewest changes, then the objective decide. Tasks are matched by id; started tasks keep their place.
 */
export function repair(problem: Problem, old: Schedule, options: RepairOptions = {}): Repair {
  const facts = withEnds(problem);
  const seed = options.seed ?? 1;
  let best: Repair | null = null;
  let closest: Mender | null = null;
  let successes = 0;
  for (let k = 0; k < (options.tries ?? 4) && successes < 2 && !(k > 0 && options.stop?.()); k++) {
    // Where neither from the front nor from the back it goes, another order of the same will not do.
    if (k === PLAIN && successes === 0) break;
    const mender = new Mender(facts, old, k % 2 === 1, new Random(seed + k), k < PLAIN);
    if (!mender.mend()) {
      if (!closest || mender.missing < closest.missing) closest = mender;
      continue;
    }
    successes++;
    const found = judged(problem, old, mender.schedule);
    if (!best || better(found, best)) best = found;
    if (best.violations.length === 0 && best.changes.length <= mender.least) break;
  }
  if (best || !closest) return best!;
  // It does not fit: a best attempt around what can stay.
  const order = options.relax ?? ["overtime", "late", "wait", "capacity"];
  return judged(problem, old, attempt(facts, closest.model, closest.spots(), order, seed).schedule);
}

/** Ways without chance, forward and mirrored in time. */
const PLAIN = 2;

function better(a: Repair, b: Repair): boolean {
  const harm = (r: Repair) => r.violations.reduce((sum, v) => sum + v.by, 0);
  if (harm(a) !== harm(b)) return harm(a) < harm(b);
  if (a.changes.length !== b.changes.length) return a.changes.length < b.changes.length;
  return a.value < b.value;
}

function judged(problem: Problem, old: Schedule, schedule: Schedule): Repair {
  const before = new Map(old.placements.map((p) => [p.task, p]));
  const changes = schedule.placements.flatMap((after): Change[] => {
    const was = before.get(after.task) ?? null;
    return was && JSON.stringify(was) === JSON.stringify({ ...after })
      ? []
      : [{ task: after.task, before: was, after }];
  });
  const violations = checkSchedule(problem, schedule);
  return { schedule, violations, changes, value: totalOf(objectiveOf(problem, schedule)) };
}

/** One way of mending. */
class Mender {
  /** Tasks that cannot stay where they were, whatever is done: no repair changes fewer. */
  least = 0;
  readonly model: Model;
  private readonly g: Generator;
  private readonly was: ReadonlyMap<number, Spot>;
  private readonly random: Random;

  constructor(problem: Problem, old: Schedule, mirrored: boolean, random: Random, plain: boolean) {
    this.random = random;
    this.model = buildModel(problem, { mirrored });
    const manner = { anytime: false, thrift: 1, random: plain ? null : random };
    this.g = new Generator(this.model, clustersOf(this.model), [manner]);
    this.was = known(this.model, old);
    this.g.settle();
    const { board } = this.g;
    for (let i = 0; i < this.model.n; i++) {
      const spot = this.was.get(i);
      const here = board.isPlaced(i) ? board.spotOf(i) : null;
      if (here && spot && (here.start !== spot.start || here.end !== spot.end)) this.least++;
    }
    this.keep(plain);
  }

  get schedule(): Schedule {
    return scheduleOf(this.g.board);
  }

  /** Tasks without a place. */
  get missing(): number {
    return this.model.n - this.g.board.placedCount;
  }

  spots(): Map<number, Spot> {
    return this.g.board.spots();
  }

  /** Puts back what still fits where it was; in another order each time. */
  private keep(plain: boolean): void {
    const { model, random } = this;
    const order = [...this.was.keys()].filter((i) => !this.g.board.isPlaced(i));
    const weight = new Map(order.map((i) => [i, model.problem.tasks[i]!.criticality ?? 1]));
    const noise = new Map(order.map((i) => [i, plain ? 0 : 60 * random.next()]));
    const start = (i: number) => this.was.get(i)!.start + noise.get(i)!;
    order.sort((a, b) => weight.get(b)! - weight.get(a)! || start(a) - start(b));
    for (const i of order) this.return(i);
  }

  /** Puts a task back exactly where it was, if that keeps every rule. */
  private return(i: number): boolean {
    const spot = this.was.get(i);
    if (!spot) return false;
    const found = this.g.exactly(i, spot);
    return found !== null && this.g.board.take(i, found);
  }

  /** Places what is left; false when some of it finds no place. */
  mend(): boolean {
    const { g } = this;
    const { board, clusters } = g;
    // What leaves for another counts by its tasks, and by how often it has had to.
    const weights = Float64Array.from(clusters.tasks, (list) => list.length);
    const obstacles = new Obstacles(board, clusters, weights, this.random);
    const queue = g.open();
    // Given up when the queue has not become shorter than ever before for so many turns.
    const patience = 20 + queue.length;
    let shortest = queue.length;
    for (let idle = 0; queue.length > 0 && idle < patience; idle++) {
      if (queue.length < shortest) {
        shortest = queue.length;
        idle = 0;
      }
      const c = queue.shift()!;
      if (this.near(c)) continue;
      weights[c]! += clusters.tasks[c]!.length;
      const found = obstacles.find(c);
      // Nothing that stands in the way could go: its neighbours in time move along.
      const leave = found ? found.clusters : [...clusters.before[c]!, ...clusters.after[c]!];
      g.takeOff([c, ...leave]);
      if (!(found && g.placeCluster(c, found.start)) && !this.near(c)) queue.push(c);
      for (const d of leave) {
        for (const i of clusters.tasks[d]!) if (!board.isPlaced(i)) this.return(i);
        if (clusters.tasks[d]!.some((i) => !board.isPlaced(i)) && !queue.includes(d)) queue.push(d);
      }
    }
    return board.placedCount === this.model.n;
  }

  /** Places the open tasks of a cluster, from where the first of them was if that goes, else anywhere. */
  private near(c: number): boolean {
    const first = this.g.clusters.tasks[c]!.find((i) => !this.g.board.isPlaced(i));
    const from = first === undefined ? 0 : (this.was.get(first)?.start ?? 0);
    return this.g.placeCluster(c, from) || this.g.placeCluster(c);
  }
}

/** Where the tasks were, for those whose mode, people and resources still exist. */
function known(model: Model, old: Schedule): Map<number, Spot> {
  const { problem } = model;
  const ids = new Set(problem.tasks.map((t) => t.id));
  const persons = new Set((problem.persons ?? []).map((p) => p.id));
  const resources = new Set((problem.resources ?? []).map((r) => r.id));
  const modes = new Map(problem.tasks.map((t) => [t.id, t.modes]));
  const usable = old.placements.filter((p) => {
    const mode = modes.get(p.task)?.[p.mode];
    if (!ids.has(p.task) || !mode) return false;
    const heads = (mode.people ?? []).reduce((sum, need) => sum + need.count, 0);
    return (
      p.persons.length === heads &&
      p.resources.length === (mode.resources ?? []).length &&
      p.persons.every((id) => persons.has(id)) &&
      p.resources.every((id) => resources.has(id))
    );
  });
  const spans = (problem.spans ?? []).map((s, k) => old.spans[k] ?? s.need.of[0]!);
  return spotsOf(model, { placements: usable, spans });
}
