import type { Spot } from "./board.ts";
import { checkSchedule } from "./check.ts";
import { withEnds } from "./facts.ts";
import { Generator } from "./generate.ts";
import { madeOf } from "./made.ts";
import type { Model } from "./model.ts";
import { objectiveOf, totalOf } from "./objective.ts";
import { Obstacles } from "./obstacles.ts";
import { scheduleOf, spotsOf } from "./plan.ts";
import type { Placement, Problem, Relaxation, Schedule, Task, Valued, Violation } from "./problem.ts";
import { pushed } from "./push.ts";
import { Random } from "./random.ts";
import { attempt, breakage } from "./relax.ts";
import { happenedAt, remainsOf } from "./remains.ts";
import { seated } from "./seat.ts";

export interface RepairOptions {
  /** Default 1. */
  readonly seed?: number;
  /** Ways tried at most. Default 4; of very many tasks 2. */
  readonly tries?: number;
  /** So many that succeed are compared and suffice. Default 2. */
  readonly enough?: number;
  /** True ends the search with what there is. */
  readonly stop?: () => boolean;
  /** Look from late to early first: for what has to move before something, not after it. */
  readonly late?: boolean;
  /** What gives way when it does not fit. Default overtime, late, wait, capacity. */
  readonly relax?: readonly Relaxation[];
  /** Whether the old plan stands as it is though it breaks this much; without it only one that breaks nothing does. */
  readonly content?: (broken: readonly Violation[]) => boolean;
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
  /** The objective, term by term. */
  readonly objective: readonly Valued[];
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
  const stays = standing(facts, old);
  const still = stays && judged(problem, old, stays);
  const valued = (one: Judged): Repair => {
    const objective = objectiveOf(problem, one.schedule);
    return { ...one, objective, value: totalOf(objective) };
  };
  if (still && (given(facts, still) || options.content?.(still.violations))) return valued(still);
  const remains = remainsOf(facts, old);
  const { schedule } = mended(remains.problem, remains.old, options);
  return valued(reseated(problem, old, judged(problem, old, remains.whole(schedule))));
}

/** What is held from one task to another stays where it was, where nothing speaks against it: that is no news to tell. */
function reseated(problem: Problem, old: Schedule, found: Judged): Judged {
  const { placements, spans } = found.schedule;
  const own = seated(problem, placements, old.spans, spans);
  if (own.every((on, k) => on === spans[k])) return found;
  const back = judged(problem, old, { placements, spans: own });
  return harmOf(back) <= harmOf(found) ? back : found;
}

/** Mends what is still to be settled. */
function mended(facts: Problem, old: Schedule, options: RepairOptions): Judged {
  const seed = options.seed ?? 1;
  const judge = (schedule: Schedule) => judged(facts, old, schedule);
  let best: Judged | null = null;
  let closest: Mender | null = null;
  let successes = 0;
  let effort = MOST;
  let least: number | undefined;
  // No other plan can be much less to learn.
  const enough = () => given(facts, best!) && upheaval(best!) <= least! + NEGLIGIBLE * facts.tasks.length;
  const tries = options.tries ?? (facts.tasks.length > MANY ? PLAIN : 4);
  for (let k = 0; k < tries && successes < (options.enough ?? 2) && !(k > 0 && options.stop?.()); k++) {
    // Where neither from the front nor from the back it goes, another order of the same will not do.
    if (successes === 0 && (k === PLAIN || (closest && !closest.sound))) break;
    const mirrored = (k % 2 === 1) !== (options.late ?? false);
    const mender = new Mender(facts, old, mirrored, new Random(seed + k), k < PLAIN);
    least ??= mender.least();
    // With what is held where it was less has to change; chosen anew it may leave more room.
    mender.keep(k % 2 === 0);
    // Where dates, waits and shifts alone cannot be kept, no order of the rest will do.
    if (!mender.sound || !mender.mend(best ? SECOND : PATIENCE, effort)) {
      if (!closest || mender.missing < closest.missing) closest = mender;
      continue;
    }
    successes++;
    effort = Math.min(effort, AGAIN + 2 * mender.effort);
    mender.goBack();
    const found = judge(mender.schedule);
    if (!best || better(facts, found, best)) best = found;
    if (enough()) break;
    if (k > 0) continue;
    // Everything a little later may be less to learn than a few things far away.
    const along = pushed(facts, old, upheaval(best));
    const later = along && judge(along);
    if (!later || !given(facts, later)) continue;
    successes++;
    if (better(facts, later, best)) best = later;
    if (enough()) break;
  }
  if (best || !closest) return best!;
  // It does not fit: a best attempt around what can stay.
  const order = options.relax ?? ["overtime", "late", "wait", "capacity"];
  const { schedule, violations } = attempt(facts, closest.model, closest.spots(), order, seed);
  const tried = [judged(facts, old, schedule, violations), judge(pushed(facts, old)!)];
  const cost = (r: Judged) => breakage(r.violations, order) + LEARNING * upheaval(r);
  let first = tried.reduce((a, b) => (cost(b) < cost(a) ? b : a));
  // What it moved because it was in the way of something may stand where it was after all.
  const back = new Mender(facts, old, false, new Random(seed), true, first.schedule);
  if (back.goBack()) {
    const second = judge(back.schedule);
    if (cost(second) < cost(first)) first = second;
  }
  return first;
}

/** The old plan as it stands now, with what has happened where it happened; undefined where a task has no place in it. */
function standing(problem: Problem, old: Schedule): Schedule | undefined {
  const before = new Map(old.placements.map((p) => [p.task, p]));
  const placements: Placement[] = [];
  for (const task of problem.tasks) {
    const place = happenedAt(problem, task, before.get(task.id));
    if (!place) return undefined;
    placements.push(place);
  }
  return { placements, spans: seated(problem, placements, old.spans) };
}

/**
 * Whether what a plan breaks is broken by what has happened alone: no plan mends that. Of room it is not known: only
 * who is there at its worst minute is told.
 */
function given({ tasks }: Problem, { violations }: Judged): boolean {
  if (violations.length === 0) return true;
  const settled = new Set(tasks.flatMap(({ id, status }) => (isOpen(status) ? [] : [id])));
  return violations.every((v) => v.rule !== "capacity" && v.tasks.every((id) => settled.has(id)));
}

const isOpen = (status: Task["status"]) => status === undefined || status === "open";

/** What upheaval weighs where a plan breaks rules: some thirty tasks changed are as much as a breach of one minute. */
const LEARNING = 1;

/** Ways without chance, forward and mirrored in time. */
const PLAIN = 2;

const harmOf = ({ violations }: Judged) => violations.reduce((sum, v) => sum + v.by, 0);

function better(problem: Problem, a: Judged, b: Judged): boolean {
  if (harmOf(a) !== harmOf(b)) return harmOf(a) < harmOf(b);
  if (upheaval(a) !== upheaval(b)) return upheaval(a) < upheaval(b);
  return worthOf(problem, a) < worthOf(problem, b);
}

/** Upheaval for each task there is that another way is not looked for to save: of two hundred, one that changes. */
const NEGLIGIBLE = 1 / 200;

/** Of more tasks than these no more is tried than the two ways without chance: each takes its time. */
const MANY = 200;

/** What a brigade has to learn anew: each task that changes counts one, and as much again for each half hour it moves. */
function upheaval({ changes }: Judged): number {
  return changes.reduce(
    (sum, c) => sum + 1 + (c.before ? Math.abs(c.after.start - c.before.start) / 30 : 0),
    0,
  );
}

type Judged = Omit<Repair, "objective" | "value">;

function judged(
  problem: Problem,
  old: Schedule,
  schedule: Schedule,
  violations: readonly Violation[] = checkSchedule(problem, schedule),
): Judged {
  const before = new Map(old.placements.map((p) => [p.task, p]));
  const changes = schedule.placements.flatMap((after): Change[] => {
    const was = before.get(after.task) ?? null;
    return was && samePlace(was, after) ? [] : [{ task: after.task, before: was, after }];
  });
  return { schedule, violations, changes };
}

const worthOf = (problem: Problem, { schedule }: Judged) => totalOf(objectiveOf(problem, schedule));

function samePlace(a: Placement, b: Placement): boolean {
  return (
    a.start === b.start &&
    a.end === b.end &&
    a.mode === b.mode &&
    sameList(a.persons, b.persons) &&
    sameList(a.resources, b.resources)
  );
}

const sameList = (a: readonly string[], b: readonly string[]) =>
  a.length === b.length && a.every((id, k) => id === b[k]);

/** One way of mending. */
class Mender {
  readonly model: Model;
  private readonly g: Generator;
  private readonly was: ReadonlyMap<number, Spot>;
  private readonly random: Random;
  private readonly plain: boolean;

  /** `plain`: nothing is left to chance. `from`: a whole plan to begin with, whatever it breaks; else what has happened. */
  constructor(
    problem: Problem,
    old: Schedule,
    mirrored: boolean,
    random: Random,
    plain: boolean,
    from?: Schedule,
  ) {
    this.random = random;
    this.plain = plain;
    const { model, clusters } = madeOf(problem, { mirrored });
    this.model = model;
    this.g = new Generator(model, clusters, [{ anytime: false, thrift: 1, random: plain ? null : random }]);
    this.was = known(this.model, old);
    this.g.settle();
    if (!from) return;
    const { board } = this.g;
    for (const [i, spot] of spotsOf(model, from)) if (!board.isPlaced(i)) board.force(i, spot);
    board.redraw();
  }

  /**
   * What no repair can do without, told before anything is put back: tasks that have happened elsewhere, and those that
   * could not stand where they stood beside what has happened alone. As `upheaval` counts.
   */
  least(): number {
    const { board } = this.g;
    let weight = 0;
    const { mirrored } = this.model;
    for (let i = 0; i < this.model.n; i++) {
      const spot = this.was.get(i);
      const there = (s: Spot) =>
        board.isPlaced(i) ? s.start === board.start[i] && s.end === board.end[i] : this.g.exactly(i, s);
      if (spot && there(spot)) continue;
      const begins = mirrored ? 2 * i + 1 : 2 * i;
      const [lo, hi] = [board.windows.lo[begins]!, board.windows.hi[begins]!];
      const start = spot && (mirrored ? spot.end : spot.start);
      weight += 1 + (start === undefined ? 0 : Math.max(0, lo - start, start - hi) / 30);
    }
    return weight;
  }

  /** Whether dates, waits and shifts alone can be kept. */
  get sound(): boolean {
    return this.g.board.sound;
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

  /** Puts back what still fits where it was; in another order each time. `held`: what it holds, too, where that can be. */
  keep(held: boolean): void {
    const { model, random, plain } = this;
    const order = [...this.was.keys()].filter((i) => !this.g.board.isPlaced(i));
    const weight = new Map(order.map((i) => [i, model.problem.tasks[i]!.criticality ?? 1]));
    const noise = new Map(order.map((i) => [i, plain ? 0 : 60 * random.next()]));
    const start = (i: number) => this.was.get(i)!.start + noise.get(i)!;
    order.sort((a, b) => weight.get(b)! - weight.get(a)! || start(a) - start(b));
    for (const i of order) this.return(i, held);
  }

  /** Puts a task back exactly where it was, if that keeps every rule. */
  private return(i: number, held = false): boolean {
    const spot = this.was.get(i);
    if (!spot) return false;
    const found = this.g.exactly(i, spot, held);
    return found !== null && this.g.board.take(i, found);
  }

  /** Places looked for so far. */
  get effort(): number {
    return this.g.board.tried;
  }

  /**
   * Places what is left; false when some of it finds no place in so many turns and one for each that is left, or once
   * more places have been looked for than `most`.
   */
  mend(turns: number, most: number): boolean {
    const { g } = this;
    const { board, clusters } = g;
    // What leaves for another counts by its tasks, and by how often it has had to.
    const weights = Float64Array.from(clusters.tasks, (list) => list.length);
    const obstacles = new Obstacles(board, clusters, weights, this.random);
    const queue = g.open();
    // Given up when the queue has not become shorter than ever before for so many turns.
    const patience = turns + queue.length;
    let shortest = queue.length;
    for (let idle = 0; queue.length > 0 && idle < patience && this.effort <= most; idle++) {
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

  /** Places the open tasks of a cluster as near as may be to where the first of them was, else anywhere. */
  private near(c: number): boolean {
    const { g, was } = this;
    const { board } = g;
    const first = g.clusters.tasks[c]!.find((i) => !board.isPlaced(i));
    const wanted = first === undefined ? undefined : was.get(first)?.start;
    if (first === undefined || wanted === undefined) return g.placeCluster(c);
    const mark = board.placedCount;
    const away = () => Math.abs(board.start[first]! - wanted);
    let least = Number.POSITIVE_INFINITY;
    if (g.placeCluster(c, wanted)) least = away();
    // Where it has no place from the first minute on, it has none.
    else if (!g.placeCluster(c)) return false;
    // The other way too, farther and farther, as long as that may be nearer.
    for (let step = STEP; step < least && step < 2 * wanted; step *= 2) {
      board.backTo(mark);
      if (!g.placeCluster(c, Math.max(0, wanted - step))) continue;
      if (away() < least) return true;
    }
    if (board.placedCount > mark) board.backTo(mark);
    return g.placeCluster(c, least === Number.POSITIVE_INFINITY ? 0 : wanted);
  }

  /**
   * What has moved goes back to where it was, or nearer to it, now that all else stands; the farthest first.
   * @returns whether anything did
   */
  goBack(): boolean {
    const { clusters, board } = this.g;
    const moved = clusters.tasks
      .map((_, c) => ({ c, by: this.awayOf(c) }))
      .filter(({ by }) => by > 0)
      .sort((a, b) => b.by - a.by || a.c - b.c)
      .slice(0, MOST_BACK);
    let any = false;
    const before = this.effort;
    for (const { c, by } of moved) {
      if (this.effort > before + BACK) break;
      const tasks = clusters.tasks[c]!.filter((i) => !board.settled(i));
      if (!tasks.every((i) => board.liftable(i))) continue;
      const spots = new Map(tasks.map((i) => [i, board.spotOf(i)]));
      this.g.takeOff([c]);
      for (const i of tasks) this.return(i, true);
      const whole = tasks.every((i) => board.isPlaced(i)) || this.near(c);
      if (whole && this.awayOf(c) < by) any = true;
      else {
        this.g.takeOff([c]);
        board.putBack(spots);
      }
    }
    return any;
  }

  /** How far a cluster is from where it was, as `upheaval` counts, 0 where nothing changed. */
  private awayOf(c: number): number {
    const { board, clusters } = this.g;
    let sum = 0;
    for (const i of clusters.tasks[c]!) {
      const spot = this.was.get(i);
      if (!spot || board.settled(i) || !board.isPlaced(i)) continue;
      const by = Math.abs(board.start[i]! - spot.start) / 30;
      const others = board.mode[i] !== spot.mode || differ(board.persons[i]!, spot.persons);
      if (by > 0 || others || differ(board.resources[i]!, spot.resources)) sum += 1 + by;
    }
    return sum;
  }
}

/** Turns without getting anywhere until it is given up; of a second plan, where there is one, fewer. */
const PATIENCE = 20;
const SECOND = 5;

/** Places one way may look for: more of them have seldom found what these had not, and a cook waits. */
const MOST = 2000;

/** Places looked for while what has moved goes back. */
const BACK = 600;

/** Places a second way may look for, beyond twice those of the first. */
const AGAIN = 20;

/** First step away from where a task was, min. */
const STEP = 5;

/** Clusters that are tried back: a plan turned over is not turned over again. */
const MOST_BACK = 24;

const differ = (a: readonly number[], b: readonly number[]) =>
  a.length !== b.length || a.some((x, k) => x !== b[k]);

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
