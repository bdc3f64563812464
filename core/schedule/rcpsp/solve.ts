import { ProjectProof } from "../clause/search.ts";
import { Random } from "../random.ts";
import { energyBound } from "./bound.ts";
import { Genetic } from "./genetic.ts";
import { faultOf, isPlain, type Project, tooMuch } from "./project.ts";

export interface ProjectOptions {
  /** Default 1. */
  readonly seed?: number;
  /** Schedules allowed: decodes and dead ends of the proof together. Default 5000. */
  readonly schedules?: number;
  /** Asked often; true ends the search. The only way in for a clock. */
  readonly stop?: () => boolean;
  readonly onProgress?: (makespan: number, lowerBound: number, schedules: number) => void;
}

export interface ProjectResult {
  readonly status: "optimal" | "feasible" | "infeasible" | "unknown";
  /** Null without a plan. */
  readonly makespan: number | null;
  readonly lowerBound: number;
  readonly starts: number[] | null;
  readonly schedules: number;
}

/** Times that genetic search and proof take turns, and the first share of the schedules for proof. */
const TURNS = 6;
const FIRST_PROOF = 0.1;

/** Fewer schedules than this part of the cube of the activities find more in the genetic search alone (measured on PSPLIB). */
const WORTH_PROOF = 1 / 300;

/** Share that lifts the lower bound when the rest has not closed the gap. */
const BOUND = 0.02;

/** Dead ends in one stretch of proof from above, for projects with lags both ways. */
const LAGGED = 5000;

/** Schedules of one genetic search at most. */
const ROUND = 50_000;

/**
 * Least makespan of a project. Plain projects: genetic search and, in turns, proof by learning from conflicts,
 * each starting from the other's best. Projects with lags both ways: proof alone, which finds plans on the way.
 */
export function solveProject(p: Project, options: ProjectOptions = {}): ProjectResult {
  return new ProjectRun(p, options).run();
}

class ProjectRun {
  private readonly p: Project;
  private readonly options: ProjectOptions;
  private readonly limit: number;
  private readonly random: Random;
  private best: Int32Array | null = null;
  private makespan = Number.POSITIVE_INFINITY;
  private decodes = 0;
  private energy = 0;
  private proof: ProjectProof | null = null;

  constructor(p: Project, options: ProjectOptions) {
    this.p = p;
    this.options = options;
    this.limit = options.schedules ?? 5000;
    this.random = new Random(options.seed ?? 1);
  }

  private get schedules(): number {
    return this.decodes + (this.proof?.bounds.conflicts ?? 0);
  }

  private get lower(): number {
    return Math.max(this.energy, this.proof?.lower ?? 0);
  }

  run(): ProjectResult {
    if (tooMuch(this.p).length > 0) return this.answer(true);
    if (!isPlain(this.p)) return this.lagged();
    this.energy = energyBound(this.p);
    return this.plain();
  }

  private take(start: Int32Array, makespan: number): void {
    if (makespan >= this.makespan) return;
    this.makespan = makespan;
    this.best = start.slice();
    this.options.onProgress?.(makespan, this.lower, this.schedules);
  }

  private get over(): boolean {
    return this.schedules >= this.limit || (this.options.stop?.() ?? false);
  }

  private plain(): ProjectResult {
    const [firstProof, lift] = this.limit >= WORTH_PROOF * this.p.n ** 3 ? [FIRST_PROOF, BOUND] : [0, 0];
    let genetic = new Genetic(
      this.p,
      this.random,
      Math.min(ROUND, this.limit * (1 - 1.5 * firstProof - lift)),
    );
    // The first plan settles how long an axis the proof needs.
    this.breed(genetic, 1);
    const proof = new ProjectProof(this.p, this.makespan);
    proof.atLeast(this.energy);
    this.proof = proof;
    // The proof gets less each time it neither ends nor finds a better plan.
    let share = firstProof;
    const most = Math.min(ROUND, this.limit);
    for (let turn = 1; turn <= TURNS && !this.over && this.makespan > this.lower; turn++) {
      this.breed(genetic, Math.floor((most * (1 - firstProof - lift)) / TURNS));
      const before = this.makespan;
      this.prove(proof, Math.floor(most * share));
      if (this.makespan === before) share /= 3;
    }
    this.raise(proof, Math.floor(most * lift));
    // With time left, longer searches from scratch, and proof in between.
    for (let round = ROUND; !this.over && this.makespan > this.lower; round *= 2) {
      this.breed(genetic, genetic.left * round);
      genetic = new Genetic(this.p, this.random, round);
      this.breed(genetic, round);
      this.prove(proof, round / 4);
      this.raise(proof, round / 8);
    }
    return this.answer(false);
  }

  private breed(genetic: Genetic, schedules: number): void {
    const from = genetic.decoder.count;
    while (genetic.decoder.count < from + schedules && !this.over && this.makespan > this.lower) {
      genetic.step();
      this.decodes++;
      this.take(genetic.best, genetic.makespan);
    }
  }

  private prove(proof: ProjectProof, conflicts: number): void {
    const until = proof.bounds.conflicts + Math.min(conflicts, this.limit - this.schedules);
    while (proof.bounds.conflicts < until && this.makespan > this.lower && !this.over) {
      proof.suggest(this.best!, this.makespan);
      if (proof.improve(until - proof.bounds.conflicts, this.options.stop) === "found")
        this.take(proof.best!, proof.makespan);
    }
  }

  /** Lifts the lower bound by refuting one makespan after another from below. */
  private raise(proof: ProjectProof, conflicts: number): void {
    const until = proof.bounds.conflicts + Math.min(conflicts, this.limit - this.schedules);
    while (proof.bounds.conflicts < until && this.lower < this.makespan && !this.over) {
      const outcome = proof.ask(this.lower, until - proof.bounds.conflicts, this.options.stop);
      if (outcome === "found") this.take(proof.best!, proof.makespan);
      if (outcome === "limit") break;
    }
  }

  private lagged(): ProjectResult {
    const proof = new ProjectProof(this.p);
    this.proof = proof;
    while (!this.over && proof.possible && this.makespan > proof.lower) {
      // Most of it from above; once there is a plan, a fifth from below.
      const stretch = Math.min(LAGGED, this.limit - this.schedules);
      const outcome = proof.improve(stretch, this.options.stop);
      if (outcome === "found") this.take(proof.best!, proof.makespan);
      if (outcome === "limit" && this.best) this.raise(proof, Math.ceil(stretch / 5));
    }
    return this.answer(!proof.possible);
  }

  private answer(impossible: boolean): ProjectResult {
    const { best, makespan } = this;
    if (best) {
      const fault = faultOf(this.p, best);
      if (fault !== null) throw new Error(`the plan found breaks a rule: ${fault}`);
    }
    const lowerBound = best ? Math.min(makespan, this.lower) : Number.isFinite(this.lower) ? this.lower : 0;
    return {
      status: impossible
        ? "infeasible"
        : best
          ? makespan <= this.lower
            ? "optimal"
            : "feasible"
          : "unknown",
      makespan: best ? makespan : null,
      lowerBound: impossible ? 0 : lowerBound,
      starts: best ? [...best] : null,
      schedules: this.schedules,
    };
  }
}
