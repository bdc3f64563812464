import { Board, type Spot } from "./board.ts";
import { boundsOf } from "./bound.ts";
import { checkSchedule } from "./check.ts";
import { clashOfDates } from "./clash.ts";
import { withEnds } from "./facts.ts";
import { FirstPlan } from "./first.ts";
import { type Found, speaksOf } from "./found.ts";
import { Improver } from "./improve.ts";
import { type Like, placesLike } from "./like.ts";
import { buildModel, type Model } from "./model.ts";
import { objectiveOf, totalOf, weightsOf } from "./objective.ts";
import { scheduleOf } from "./plan.ts";
import type { Problem, Relaxation, Result, Schedule, Term, Valued } from "./problem.ts";
import { Random } from "./random.ts";
import { refuted } from "./refute.ts";
import { type Attempt, attempt } from "./relax.ts";
import { Score } from "./score.ts";
import { slackOf } from "./slack.ts";
import { validateProblem } from "./validate.ts";

export interface SolveOptions {
  /** Default 1. The same seed and count of schedules give the same answer; more schedules give none that is worse. */
  readonly seed?: number;
  /**
   * Schedules to generate; as many places looked for as there are tasks count as one, and so does their like in
   * windows moved (see Board.effort). A first plan may take up to twenty whatever is asked for. Default 400.
   */
  readonly schedules?: number;
  /** Asked now and then; true ends the search with the best so far. The only way in for a clock. */
  readonly stop?: () => boolean;
  /** Told about each better plan, the first included. */
  readonly onProgress?: (progress: Progress) => void;
  /** Known to fit nowhere: the first places found are the attempt, none is fought for. Default false. */
  readonly hopeless?: boolean;
  /** Found before for this same question; taken when it speaks of this problem, and judged and valued anew. */
  readonly known?: Found | undefined;
  /** What a best attempt gives up, in this order. Default overtime, late, wait, capacity. */
  readonly relax?: readonly Relaxation[];
  /** Where no plan is found at once it is asked whether there is one at all: what is refuted is not fought for. */
  readonly prove?: boolean;
  /** An attempt at a problem much like this one: where no plan is left to be found, the best attempt begins there. */
  readonly like?: Like | undefined;
  /**
   * The first plan in which everything has a place will do: none better is looked for, however many schedules are left, and
   * neither bounds nor how far each task could move are worked out.
   */
  readonly any?: boolean;
}

export interface Progress {
  readonly schedules: number;
  /** Tasks that have no place yet; their value is not in `value`. */
  readonly missing: number;
  readonly value: number;
  /** 0 with the first plan: bounds are computed after it. */
  readonly bound: number;
}

/** Schedules in which the worsening still taken halves. */
const HALF = 100;

const ORDER: readonly Relaxation[] = ["overtime", "late", "wait", "capacity"];

/**
 * Plans a problem: a first plan by serial generation, then large-neighbourhood search; backward from the
 * wanted ends unless only the makespan counts. When not everything fits within the schedules allowed, the
 * best attempt comes back with status "broken" and what it breaks.
 */
export function solve(problem: Problem, options: SolveOptions = {}): Result {
  const seed = options.seed ?? 1;
  const refusals = validateProblem(problem);
  if (refusals.length > 0) return refused(refusals, seed);
  const { known } = options;
  if (known && speaksOf(problem, known))
    return answer(problem, known.schedule, { ...known, seed, bounds: new Map(known.bounds) });
  const facts = withEnds(problem);
  const search = new Run(facts, options);
  const { schedule, reason } = search.run();
  const found = { seed, schedules: search.schedules, reason, bounds: search.bounds };
  return answer(problem, schedule, found, !options.any);
}

class Run {
  private readonly problem: Problem;
  private readonly options: SolveOptions;
  private readonly random: Random;
  private readonly total: number;
  /** Schedules that best attempts took. */
  private attempts = 0;
  private readonly model: Model;
  private readonly board: Board;
  bounds: ReadonlyMap<Term, number> = new Map();

  constructor(problem: Problem, options: SolveOptions) {
    this.problem = problem;
    this.options = options;
    this.model = buildModel(problem, { mirrored: backward(problem) });
    this.board = new Board(this.model);
    this.random = new Random(options.seed ?? 1);
    this.total = options.schedules ?? 400;
  }

  /** Work for as many places as there are tasks counts as a schedule. */
  get schedules(): number {
    return Math.ceil(this.board.effort / Math.max(1, this.model.n)) + this.attempts;
  }

  private get stopped(): boolean {
    return this.options.stop?.() ?? false;
  }

  run(): { schedule: Schedule; reason: Result["reason"] } {
    const { model, board, random } = this;
    const score = new Score(model);
    const first = new FirstPlan(board, random);
    // What dates and waits alone rule out is not fought for.
    const hopeless = this.options.hopeless || !board.sound;
    let stopped = false;
    let best: Attempt | null = null;
    // Attempts are due at fixed counts, whatever was asked for: what more schedules find is added to what fewer found.
    let due = 0;
    const none = !first.complete && this.proved();
    if (none) best = this.attemptLike();
    // The first plan is worth its schedules even where fewer were asked for.
    while (!first.complete && !none && !hopeless && !stopped) {
      if (first.spent) {
        if (this.schedules >= due && (!best || due <= this.total)) {
          first.restore();
          best = this.attempt(best);
          due = 2 * this.schedules;
        }
        if (this.schedules >= this.total) break;
      }
      first.step();
      stopped = this.stopped;
    }
    if (!first.complete) {
      if (!best || stopped) {
        first.restore();
        best = this.attempt(best);
      }
      this.tell(score.of(board), model.n - board.placedCount);
      if (!this.options.any) this.bounds = boundsOf(model);
      return { schedule: best.schedule, reason: stopped ? "stopped" : "schedules" };
    }
    const search = new Improver(first.g, score, random);
    this.tell(search.bestValue, 0);
    if (!this.options.any) this.bounds = boundsOf(model);
    const bound = totalBound(this.bounds);
    let reason: Result["reason"] = "schedules";
    while (!this.options.any && this.schedules < this.total) {
      stopped = this.stopped;
      if (stopped || search.bestValue <= bound + 1e-9) {
        reason = stopped ? "stopped" : "proved";
        break;
      }
      // By the schedules made, not by those left: a longer search goes the way of a shorter one, and on.
      const heat = 2e-4 * 0.5 ** (this.schedules / HALF);
      if (search.step(search.bestValue * heat)) this.tell(search.bestValue, 0);
    }
    search.restore();
    return { schedule: scheduleOf(board), reason };
  }

  /** A best attempt from what stands on the board, or elsewhere; the one before stays when it breaks no more. */
  private attempt(before: Attempt | null, from: ReadonlyMap<number, Spot> = this.board.spots()): Attempt {
    const order = this.options.relax ?? ORDER;
    const found = attempt(this.problem, this.model, from, order, this.options.seed ?? 1);
    this.attempts += found.steps;
    return before && before.cost <= found.cost ? before : found;
  }

  /** Whether it was asked, and it is proved that there is no plan. */
  private proved(): boolean {
    const { prove, hopeless, stop } = this.options;
    return prove === true && !hopeless && this.board.sound && refuted(this.problem, { stop });
  }

  /** The best attempt from where the one at a problem much like this one stands. */
  private attemptLike(): Attempt | null {
    const { like } = this.options;
    const places = like && placesLike(this.problem, this.model, like);
    return places ? this.attempt(null, places) : null;
  }

  private tell(value: number, missing: number): void {
    this.options.onProgress?.({ schedules: this.schedules, missing, value, bound: totalBound(this.bounds) });
  }
}

function totalBound(bounds: ReadonlyMap<Term, number>): number {
  return [...bounds.values()].reduce((a, b) => a + b, 0);
}

/** Whether plans are made backward from the wanted ends: unless nothing but an early finish counts. */
function backward(problem: Problem): boolean {
  return weightsOf(problem).makespan === 0 || problem.tasks.some((t) => (t.early ?? 0) > 0);
}

function answer(
  problem: Problem,
  schedule: Schedule,
  {
    seed,
    schedules,
    reason,
    bounds,
  }: { seed: number; schedules: number; reason: Result["reason"]; bounds: ReadonlyMap<Term, number> },
  play = true,
): Result {
  const violations = checkSchedule(problem, schedule);
  const objective = objectiveOf(problem, schedule).map((t): Valued => {
    const bound = bounds.get(t.term);
    return bound === undefined ? t : { ...t, bound };
  });
  const value = totalOf(objective);
  const bound = totalBound(bounds);
  const clash = violations.length > 0 ? clashOfDates(withEnds(problem)) : null;
  const status = clash
    ? "infeasible"
    : violations.length > 0
      ? "broken"
      : value <= bound + 1e-9
        ? "optimal"
        : "feasible";
  return {
    refusals: [],
    status,
    schedule,
    violations,
    objective,
    value,
    bound,
    reason: status === "optimal" ? "proved" : reason,
    schedules,
    seed,
    ...(play ? slackOf(problem, schedule) : { earliest: [], latest: [] }),
    conflicts: clash ? [clash] : [],
  };
}

/** The answer to a problem that is not planned, with the reasons. */
export function refused(refusals: Result["refusals"], seed: number): Result {
  return {
    refusals,
    status: "unknown",
    schedule: null,
    violations: [],
    objective: [],
    value: 0,
    bound: 0,
    reason: "refused",
    schedules: 0,
    seed,
    earliest: [],
    latest: [],
    conflicts: [],
  };
}
