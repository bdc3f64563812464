import type { Spot } from "./board.ts";
import type { Generator } from "./generate.ts";
import { Obstacles } from "./obstacles.ts";
import type { Random } from "./random.ts";

/** How many placed tasks may have to leave because the windows they leave together are still too narrow. */
const IN_THE_WAY = 8;

/**
 * Finds places for the clusters that have none: each puts out what stands in its way where that has failed least
 * so far, takes its place, and what was put out waits its turn (guided ejection after Nagata and Bräysy 2009).
 */
export class Ejector {
  /** Clusters without a place. */
  readonly missing: number[];
  private readonly g: Generator;
  private readonly random: Random;
  /** How often each cluster found no place. */
  private readonly failures: Float64Array;
  private readonly obstacles: Obstacles;
  private best: { readonly spots: ReadonlyMap<number, Spot>; readonly weight: number };

  constructor(g: Generator, random: Random) {
    this.g = g;
    this.random = random;
    this.missing = g.open();
    // The more critical a cluster, the less it is asked to leave.
    const { tasks } = g.board.model.problem;
    this.failures = Float64Array.from(g.clusters.tasks, (list) =>
      Math.max(0.01, ...list.map((i) => tasks[i]!.criticality ?? 1)),
    );
    this.obstacles = new Obstacles(g.board, g.clusters, this.failures, random);
    this.best = { spots: g.board.spots(), weight: this.weight() };
  }

  /** Tasks without a place, each by how critical it is. */
  private weight(): number {
    const { board } = this.g;
    let sum = 0;
    for (let i = 0; i < board.model.n; i++)
      if (!board.isPlaced(i)) sum += board.model.problem.tasks[i]!.criticality ?? 1;
    return sum;
  }

  /** One cluster takes a place; true when none is left without. */
  step(): boolean {
    const { g, missing, random } = this;
    if (missing.length === 0) return true;
    const at = random.next() < 0.5 ? missing.length - 1 : random.below(missing.length);
    const c = missing[at]!;
    missing.splice(at, 1);
    if (!g.placeCluster(c)) {
      this.failures[c]!++;
      const found = this.obstacles.find(c);
      if (!found) {
        missing.unshift(c);
        return false;
      }
      this.takeOff(found.clusters);
      this.makeWay(c, found.start);
      random.shuffle(missing);
      if (!g.placeCluster(c, found.start) && !g.placeCluster(c)) missing.push(c);
    }
    if (this.weight() < this.best.weight) this.best = { spots: g.board.spots(), weight: this.weight() };
    return missing.length === 0;
  }

  private takeOff(clusters: readonly number[]): void {
    this.g.takeOff(clusters);
    for (const c of clusters) this.missing.push(c);
  }

  /** Takes off what still keeps the windows of a cluster away from a start of its first task. */
  private makeWay(c: number, start: number): void {
    const { board, clusters } = this.g;
    const { windows } = board;
    const first = 2 * clusters.tasks[c]!.find((i) => !board.isPlaced(i))!;
    for (let k = 0; k < IN_THE_WAY; k++) {
      const early = start < windows.lo[first]!;
      if (!early && start <= windows.hi[first]!) return;
      const other = (early ? windows.holder(first) : windows.limiter(first)) >> 1;
      if (!board.isPlaced(other) || board.settled(other)) return;
      this.takeOff([clusters.of[other]!]);
    }
  }

  /** Puts the board back to where the fewest tasks were without a place. */
  restore(): void {
    if (this.weight() > this.best.weight) this.g.board.reset(this.best.spots);
    this.missing.splice(0, this.missing.length, ...this.g.open());
  }
}
