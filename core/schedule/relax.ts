import { Board, type Spot } from "./board.ts";
import { checkSchedule } from "./check.ts";
import type { Clusters } from "./clusters.ts";
import { Generator } from "./generate.ts";
import { madeOf } from "./made.ts";
import type { Model, View } from "./model.ts";
import { Pile } from "./pile.ts";
import { moved, scheduleOf } from "./plan.ts";
import type { Problem, Relaxation, Rule, Schedule, Violation } from "./problem.ts";
import { Random } from "./random.ts";
import type { Manner } from "./search.ts";

/** What a breach weighs beside its minutes: few are easier to put right than many. */
const EACH = 20;

export interface Attempt {
  readonly schedule: Schedule;
  readonly violations: readonly Violation[];
  /** What it breaks: minutes and breaches, each kind weighing four times the one given up before it. */
  readonly cost: number;
  readonly steps: number;
}

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
): Attempt {
  const kinds = [...order.filter((r) => r !== "capacity"), "capacity" as const];
  const given = new Set<Relaxation>();
  let best: Schedule | null = null;
  let broken: readonly Violation[] = [];
  let bestCost = Number.POSITIVE_INFINITY;
  let steps = 0;
  for (const kind of [null, ...kinds.slice(0, -1)]) {
    if (kind) given.add(kind);
    const schedule = tryWith(problem, model, spots, given, new Random(seed));
    steps++;
    const violations = checkSchedule(problem, schedule);
    const cost = breakage(violations, kinds);
    if (cost < bestCost) {
      best = schedule;
      broken = violations;
      bestCost = cost;
    }
    if (cost === 0) break;
  }
  return { schedule: best!, violations: broken, cost: bestCost, steps };
}

/** What breaches weigh together, given up in this order. */
export function breakage(violations: readonly Violation[], order: readonly Relaxation[]): number {
  return violations.reduce((sum, v) => sum + weightOf(v, order), 0);
}

function weightOf(v: Violation, kinds: readonly Relaxation[]): number {
  const rank = kinds.indexOf(GIVEN_UP[v.rule] ?? "capacity");
  return (EACH + v.by) * 4 ** (rank < 0 ? kinds.length : rank);
}

/** Which relaxation each rule belongs to; the rest belong to capacity. */
const GIVEN_UP: Partial<Record<Rule, Relaxation>> = {
  shift: "overtime",
  deadline: "late",
  horizon: "late",
  pin: "late",
  "longest-wait": "wait",
};

/** Places what is left by the rules that stay, and piles up what even so finds no place. */
function tryWith(
  problem: Problem,
  model: Model,
  spots: ReadonlyMap<number, Spot>,
  given: ReadonlySet<Relaxation>,
  random: Random,
): Schedule {
  const late = given.has("late");
  const made = madeOf(problem, late ? lateView(problem) : { mirrored: model.mirrored });
  const { model: relaxed, clusters } = made;
  const strict: Manner = { anytime: false, thrift: 1, random };
  const anytime = given.has("overtime");
  const board = new Board(relaxed, { anytime, patient: given.has("wait") });
  const g = new Generator(
    relaxed,
    clusters,
    anytime ? [strict, { ...strict, anytime: true }] : [strict],
    board,
  );
  g.settle();
  const move = late ? followers(board, clusters, spots) : new Set<number>();
  for (const [i, spot] of spots)
    if (!board.isPlaced(i) && !move.has(i)) board.force(i, moved(model, relaxed, spot));
  board.redraw();
  g.run(clusters.earliest);
  const pile = new Pile(board, clusters);
  for (const c of g.open())
    if (!pile.place(c))
      for (const i of clusters.tasks[c]!) if (!board.isPlaced(i)) board.force(i, g.anySpot(i));
  board.redraw();
  return scheduleOf(board);
}

/** Forward, with as much time after the horizon as all the work together takes. */
export function lateView(problem: Problem): View {
  const work = problem.tasks.reduce((sum, t) => sum + Math.max(...t.modes.map((m) => m.duration)), 0);
  return { mirrored: false, extra: problem.horizon + work, late: true };
}

/** Tasks that come after something without a place: they must be free to go later. */
function followers(board: Board, clusters: Clusters, spots: ReadonlyMap<number, Spot>): Set<number> {
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
