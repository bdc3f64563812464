import { longestPlan, type Project, tooMuch } from "../rcpsp/project.ts";
import { Activity } from "./activity.ts";
import { Bounds } from "./bounds.ts";
import { Cumulative } from "./cumulative.ts";
import { decideBusiest, decideEarliest } from "./descend.ts";
import { Pairs } from "./pairs.ts";

/** How a stretch of search ended. */
export type Outcome = "found" | "impossible" | "limit";

/**
 * Proves things about a project by learning from conflicts: that no plan ends by a minute, or a plan that
 * does. What is learnt under one question is kept for the next.
 */
export class ProjectProof {
  readonly bounds: Bounds;
  readonly project: Project;
  /** No plan ends sooner. */
  lower = 0;
  /** Starts of the best plan found, or null. */
  best: Int32Array | null = null;
  /** False once it is proved that there is no plan at all. */
  possible = true;
  private readonly activity: Activity;
  private readonly end: number;
  private restarts = 0;
  private clausesAllowed = 3000;
  private readonly buffer: number[] = [];

  /** `horizon`: only plans that end by then are looked for; default any. */
  constructor(project: Project, horizon = longestPlan(project)) {
    this.project = project;
    const { n, duration } = project;
    this.end = n;
    const least = new Int32Array(n + 1);
    const most = new Int32Array(n + 1);
    for (let i = 0; i < n; i++) most[i] = horizon - duration[i]!;
    most[n] = horizon;
    this.bounds = new Bounds(least, most);
    for (let k = 0; k < project.lag.length; k++)
      this.bounds.arc(project.from[k]!, project.to[k]!, project.lag[k]!);
    for (let i = 0; i < n; i++) this.bounds.arc(i, n, duration[i]!);
    const pairs = new Pairs(duration, partnersOf(project));
    this.bounds.listen(pairs, pairs.variables);
    for (let r = 0; r < project.resources; r++) {
      const demand = Int32Array.from({ length: n }, (_, i) => project.demand[i * project.resources + r]!);
      if (demand.reduce((a, b) => a + b, 0) <= project.capacity[r]!) continue;
      const c = new Cumulative(duration, demand, project.capacity[r]!, horizon);
      this.bounds.listen(c, c.variables);
    }
    this.activity = new Activity(horizon + 2);
    this.bounds.onSeen = (view, value) => this.activity.bump(view, value);
    if (tooMuch(project).length > 0 || !this.bounds.propagate()) this.possible = false;
    else this.lower = this.bounds.min(this.end);
  }

  /** Tells of a bound from elsewhere: no plan ends before `minute`. */
  atLeast(minute: number): void {
    if (minute <= this.lower) return;
    this.lower = minute;
    this.bounds.backTo(0);
    if (!this.bounds.settle(2 * this.end, minute) && !Number.isFinite(this.makespan)) this.possible = false;
  }

  /** Tells of a plan from elsewhere; starts are kept as they are. */
  suggest(start: Int32Array, makespan: number): void {
    if (this.best && this.makespan <= makespan) return;
    this.best = start.slice();
    this.makespan = makespan;
  }

  makespan = Number.POSITIVE_INFINITY;

  /** Searches for a plan shorter than the best, within so many conflicts. Each better one is kept at once. */
  improve(conflicts: number, stop?: () => boolean): Outcome {
    if (!this.possible) return "impossible";
    this.bounds.backTo(0);
    if (Number.isFinite(this.makespan) && !this.bounds.settle(2 * this.end + 1, 1 - this.makespan))
      return this.closed();
    return this.run(conflicts, this.makespan - 1, stop);
  }

  /**
   * Asks for a plan that ends by `makespan`. "impossible" raises `lower` above it; what was learnt on the way
   * holds for all plans.
   */
  ask(makespan: number, conflicts: number, stop?: () => boolean): Outcome {
    if (!this.possible) return "impossible";
    this.bounds.backTo(0);
    if (makespan < this.lower) return "impossible";
    return this.run(conflicts, makespan, stop);
  }

  private closed(): Outcome {
    this.lower = this.makespan;
    if (!Number.isFinite(this.makespan)) this.possible = false;
    return "impossible";
  }

  private run(conflicts: number, within: number, stop?: () => boolean): Outcome {
    const { bounds } = this;
    const limit = bounds.conflicts + conflicts;
    let restartAt = bounds.conflicts + this.restartLength();
    for (;;) {
      if (!bounds.propagate()) {
        if (!bounds.learn()) return this.root(within);
        this.activity.decay();
        if (bounds.level === 0 && bounds.min(this.end) > this.lower) this.lower = bounds.min(this.end);
        if (bounds.conflicts < limit) continue;
        bounds.backTo(0);
        return "limit";
      }
      if (bounds.level === 0) this.lower = Math.max(this.lower, bounds.min(this.end));
      if (this.lower > within) return "impossible";
      if (bounds.conflicts >= limit || stop?.()) {
        bounds.backTo(0);
        return "limit";
      }
      if (bounds.conflicts >= restartAt && bounds.level > 1) {
        this.restarts++;
        restartAt = bounds.conflicts + this.restartLength();
        bounds.backTo(0);
        if (bounds.clauseCount > this.clausesAllowed && bounds.propagate()) {
          bounds.tidy();
          this.clausesAllowed += 100;
        }
        continue;
      }
      // The question itself is the first decision, so that its refutation is a fact about all plans.
      if (bounds.level === 0 && within < bounds.max(this.end)) {
        bounds.decide(2 * this.end + 1, -within);
        continue;
      }
      if (this.decide()) continue;
      this.best = Int32Array.from({ length: this.project.n }, (_, i) => bounds.min(i));
      this.makespan = bounds.min(this.end);
      bounds.backTo(0);
      return "found";
    }
  }

  /** A clash at the root. */
  private root(within: number): Outcome {
    if (Number.isFinite(this.makespan)) this.lower = this.makespan;
    else {
      this.possible = false;
      this.lower = within + 1;
    }
    return "impossible";
  }

  private restartLength(): number {
    return 50 * luby(this.restarts + 1);
  }

  /** Makes a decision; false when everything is decided. */
  private decide(): boolean {
    const { bounds, activity, best } = this;
    // Every second stretch follows the conflicts, the others the clock: earliest first.
    if (this.restarts % 2 === 1 && decideBusiest(bounds, activity, best, this.buffer)) return true;
    return decideEarliest(bounds, this.end + 1);
  }
}

/** Activities that exceed a capacity together, and are not kept apart by a direct arc. */
export function partnersOf(p: Project): number[][] {
  const apart = new Set<number>();
  for (let k = 0; k < p.lag.length; k++)
    if (p.lag[k]! >= p.duration[p.from[k]!]!) apart.add(p.from[k]! * p.n + p.to[k]!);
  const partners: number[][] = Array.from({ length: p.n }, () => []);
  for (let i = 0; i < p.n; i++)
    for (let j = i + 1; j < p.n; j++) {
      if (p.duration[i] === 0 || p.duration[j] === 0 || apart.has(i * p.n + j) || apart.has(j * p.n + i))
        continue;
      let over = false;
      for (let r = 0; r < p.resources; r++)
        if (p.demand[i * p.resources + r]! + p.demand[j * p.resources + r]! > p.capacity[r]!) over = true;
      if (!over) continue;
      partners[i]!.push(j);
      partners[j]!.push(i);
    }
  for (const [i, j] of p.apart ?? []) {
    if (apart.has(i * p.n + j) || apart.has(j * p.n + i) || partners[i]!.includes(j)) continue;
    partners[i]!.push(j);
    partners[j]!.push(i);
  }
  return partners;
}

/** The sequence 1 1 2 1 1 2 4 ... (Luby, Sinclair and Zuckerman 1993). */
export function luby(i: number): number {
  let k = 1;
  while (2 ** k - 1 < i) k++;
  return 2 ** k - 1 === i ? 2 ** (k - 1) : luby(i - 2 ** (k - 1) + 1);
}
