import { boundsOf } from "./bound.ts";
import { checkSchedule } from "./check.ts";
import { clashOfDates } from "./clash.ts";
import { clustersOf } from "./clusters.ts";
import { withEnds } from "./facts.ts";
import { Generator } from "./generate.ts";
import { Improver } from "./improve.ts";
import { buildModel } from "./model.ts";
import { objectiveOf, totalOf, weightsOf } from "./objective.ts";
import { scheduleOf } from "./plan.ts";
import type { Problem, Relaxation, Result, Schedule, Term, Valued } from "./problem.ts";
import { Random } from "./random.ts";
import { attempt } from "./relax.ts";
import { Score } from "./score.ts";
import { slackOf } from "./slack.ts";
import { validateProblem } from "./validate.ts";

export interface SolveOptions {
  /** Default 1. The same seed and count of schedules give the same answer. */
  readonly seed?: number;
  /** Schedules to generate, the first plan's included; each rebuilt part counts as one. Default 400. */
  readonly schedules?: number;
  /** Asked now and then; true ends the search with the best so far. The only way in for a clock. */
  readonly stop?: () => boolean;
  /** Told about each better plan, the first included. */
  readonly onProgress?: (progress: Progress) => void;
  /** What a best attempt gives up, in this order. Default overtime, late, wait, capacity. */
  readonly relax?: readonly Relaxation[];
}

export interface Progress {
  readonly schedules: number;
  /** Tasks that have no place yet; their value is not in `value`. */
  readonly missing: number;
  readonly value: number;
  readonly bound: number;
}

const ORDER: readonly Relaxation[] = ["overtime", "late", "wait", "capacity"];

/** Serial generations, each with what failed in the one before placed earlier, before search takes over. */
const PASSES = 3;

/**
 * Plans a problem: a first plan by serial generation, then large-neighbourhood search; backward from the
 * wanted ends unless only the makespan counts. When not everything fits within the schedules allowed, the
 * best attempt comes back with status "broken" and what it breaks.
 */
export function solve(problem: Problem, options: SolveOptions = {}): Result {
  const seed = options.seed ?? 1;
  const refusals = validateProblem(problem);
  if (refusals.length > 0) return refused(refusals, seed);
  const facts = withEnds(problem);
  const bounds = boundsOf(facts);
  const bound = [...bounds.values()].reduce((a, b) => a + b, 0);
  const search = new Run(facts, options, bound);
  const { schedule, reason } = search.run();
  return answer(problem, schedule, { seed, schedules: search.schedules, reason, bounds });
}

class Run {
  schedules = 0;
  private readonly problem: Problem;
  private readonly options: SolveOptions;
  private readonly bound: number;
  private readonly random: Random;

  constructor(problem: Problem, options: SolveOptions, bound: number) {
    this.problem = problem;
    this.options = options;
    this.bound = bound;
    this.random = new Random(options.seed ?? 1);
  }

  private get over(): boolean {
    return this.schedules >= (this.options.schedules ?? 400) || (this.options.stop?.() ?? false);
  }

  run(): { schedule: Schedule; reason: Result["reason"] } {
    const { problem, random } = this;
    const model = buildModel(problem, { mirrored: backward(problem) });
    const score = new Score(model);
    const clusters = clustersOf(model);
    const priority = Float64Array.from(clusters.earliest);
    let best: { g: Generator; failed: number[]; value: number } | null = null;
    for (let pass = 0; pass < PASSES && (pass === 0 || !this.over); pass++) {
      const g = new Generator(model, clusters, [
        { anytime: false, thrift: 1, random: pass === 0 ? null : random },
      ]);
      g.settle();
      const failed = g.run(priority);
      this.schedules++;
      if (!best || failed.length < best.failed.length) best = { g, failed, value: score.of(g.board) };
      if (failed.length === 0) break;
      for (const c of failed) advance(priority, clusters.before, c, priority[c]! - 60);
    }
    const search = new Improver(best!.g, best!.failed, score, random);
    this.tell(search);
    let reason: Result["reason"] = "schedules";
    const total = this.options.schedules ?? 400;
    while (!this.over) {
      if (search.bestMissing.length === 0 && search.bestValue <= this.bound + 1e-9) {
        reason = "proved";
        break;
      }
      const left = Math.max(0, 1 - this.schedules / total);
      this.schedules++;
      if (search.step(search.bestValue * 2e-4 * left)) this.tell(search);
    }
    if (reason !== "proved" && this.schedules < total) reason = "stopped";
    search.restore();
    const { board } = best!.g;
    if (board.placedCount === model.n) return { schedule: scheduleOf(board), reason };
    const spots = new Map(
      Array.from({ length: model.n }, (_, i) => i)
        .filter((i) => board.isPlaced(i))
        .map((i) => [i, board.spotOf(i)]),
    );
    const order = this.options.relax ?? ORDER;
    const broken = attempt(problem, model, spots, order, this.options.seed ?? 1);
    this.schedules += broken.steps;
    return { schedule: broken.schedule, reason };
  }

  private tell(search: Improver): void {
    this.options.onProgress?.({
      schedules: this.schedules,
      missing: search.bestMissing.length,
      value: search.bestValue,
      bound: this.bound,
    });
  }
}

/** Placing earlier asks the same of what comes before. */
function advance(
  priority: Float64Array,
  before: readonly (readonly number[])[],
  c: number,
  to: number,
): void {
  if (priority[c]! <= to) return;
  priority[c] = to;
  for (const b of before[c]!) advance(priority, before, b, to);
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
  }: { seed: number; schedules: number; reason: Result["reason"]; bounds: Map<Term, number> },
): Result {
  const violations = checkSchedule(problem, schedule);
  const objective = objectiveOf(problem, schedule).map((t): Valued => {
    const bound = bounds.get(t.term);
    return bound === undefined ? t : { ...t, bound };
  });
  const value = totalOf(objective);
  const bound = [...bounds.values()].reduce((a, b) => a + b, 0);
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
    ...slackOf(problem, schedule),
    conflicts: clash ? [clash] : [],
  };
}

function refused(refusals: Result["refusals"], seed: number): Result {
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
