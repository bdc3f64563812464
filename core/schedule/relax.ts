import { blockersOf } from "./blockers.ts";
import type { Spot } from "./board.ts";
import { checkSchedule } from "./check.ts";
import { clustersOf } from "./clusters.ts";
import { Generator } from "./generate.ts";
import { Improver } from "./improve.ts";
import { buildModel, type Model, type View } from "./model.ts";
import { moved, scheduleOf } from "./plan.ts";
import type { Problem, Relaxation, Rule, Schedule, Violation } from "./problem.ts";
import { Random } from "./random.ts";
import { Score } from "./score.ts";
import type { Manner } from "./search.ts";

/** Steps of search spent on one attempt. */
const STEPS = 60;

/**
 * Best attempts when some clusters find no place. Each gives up one more kind of rule, in the order asked
 * for, and only for what is left over; the one that breaks least is returned, where a minute of each kind
 * weighs four times a minute of the kind before it.
 *
 * overtime: outside the shifts. wait: longer than the longest wait. late: after deadlines and pinned starts,
 * whatever follows moving along. capacity: on top of each other; it always finds a place.
 */
export function attempt(
  problem: Problem,
  model: Model,
  spots: ReadonlyMap<number, Spot>,
  order: readonly Relaxation[],
  seed: number,
): { readonly schedule: Schedule; readonly steps: number } {
  const kinds = [...order.filter((r) => r !== "capacity"), "capacity" as const];
  const given = new Set<Relaxation>();
  let best: Schedule | null = null;
  let bestCost = Number.POSITIVE_INFINITY;
  let steps = 0;
  for (const kind of kinds) {
    given.add(kind);
    const try_ = new Attempt(problem, model, spots, given, new Random(seed));
    steps += try_.steps;
    // What is still left goes on top of the rest, so that each attempt can be weighed against the others.
    const schedule = try_.finish();
    const cost = checkSchedule(problem, schedule).reduce((sum, v) => sum + weightOf(v, kinds), 0);
    if (cost < bestCost) {
      best = schedule;
      bestCost = cost;
    }
    if (try_.complete) break;
  }
  return { schedule: best!, steps };
}

function weightOf(v: Violation, kinds: readonly Relaxation[]): number {
  const rank = kinds.indexOf(GIVEN_UP[v.rule] ?? "capacity");
  return v.by * 4 ** (rank < 0 ? kinds.length : rank);
}

/** Which relaxation each rule belongs to; the rest belong to capacity. */
const GIVEN_UP: Partial<Record<Rule, Relaxation>> = {
  shift: "overtime",
  deadline: "late",
  horizon: "late",
  pin: "late",
  "longest-wait": "wait",
};

class Attempt {
  steps = 0;
  complete = false;
  private readonly g: Generator;
  private readonly random: Random;

  constructor(
    problem: Problem,
    model: Model,
    spots: ReadonlyMap<number, Spot>,
    given: ReadonlySet<Relaxation>,
    random: Random,
  ) {
    this.random = random;
    const late = given.has("late");
    const relaxed = buildModel(problem, late ? lateView(problem) : { mirrored: model.mirrored });
    const strict: Manner = { anytime: false, thrift: 1, random };
    const manners = given.has("overtime") ? [strict, { ...strict, anytime: true }] : [strict];
    const g = new Generator(relaxed, clustersOf(relaxed), manners, given.has("wait"));
    this.g = g;
    g.settle();
    const move = late ? followers(g, spots) : new Set<number>();
    for (const [i, spot] of spots)
      if (!g.board.isPlaced(i) && !move.has(i)) g.board.force(i, moved(model, relaxed, spot));
    g.board.redraw();
    const failed = g.run(Float64Array.from(g.clusters.earliest));
    this.steps++;
    if (!late) {
      const search = new Improver(g, failed, new Score(relaxed, 100), random);
      for (let k = 0; k < STEPS; k++) search.step(0);
      search.restore();
      this.steps += STEPS;
    }
    this.complete = g.board.placedCount === relaxed.n;
  }

  finish(): Schedule {
    pile(this.g, this.random);
    return scheduleOf(this.g.board);
  }
}

/** Forward, with as much time after the horizon as all the work together takes. */
function lateView(problem: Problem): View {
  const work = problem.tasks.reduce((sum, t) => sum + Math.max(...t.modes.map((m) => m.duration)), 0);
  return { mirrored: false, extra: problem.horizon + work, late: true };
}

/** Tasks that come after something without a place: they must be free to go later. */
function followers(g: Generator, spots: ReadonlyMap<number, Spot>): Set<number> {
  const { clusters, board } = g;
  const queue: number[] = [];
  for (let i = 0; i < board.model.n; i++)
    if (!spots.has(i) && !board.isPlaced(i)) queue.push(clusters.of[i]!);
  const seen = new Set(queue);
  while (queue.length > 0)
    for (const d of clusters.after[queue.pop()!]!) {
      if (seen.has(d)) continue;
      seen.add(d);
      queue.push(d);
    }
  return new Set([...seen].flatMap((c) => clusters.tasks[c]!));
}

/** Puts what is still left where it stands in the way of the fewest minutes of others. */
function pile(g: Generator, random: Random): void {
  const { board } = g;
  for (const tasks of g.clusters.tasks) {
    if (tasks.every((i) => board.isPlaced(i))) continue;
    const found = blockersOf(board, tasks, (i) => 1 + board.end[i]! - board.start[i]!, random);
    for (const i of tasks) {
      if (board.isPlaced(i)) continue;
      board.force(i, found?.spots.get(i) ?? g.anySpot(i));
      board.redraw();
    }
  }
}
