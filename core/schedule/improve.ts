import type { Spot } from "./board.ts";
import type { Generator } from "./generate.ts";
import type { Random } from "./random.ts";
import type { Score } from "./score.ts";

/** Share of the tries in which the first cluster is put away from where it stood, if work has to be spread. */
const SPREAD = 0.3;
/** How far away it is tried, minutes. */
const FARTHEST = 180;
/** Share of the tries in which wanted ends do not count while places are looked for, where lateness may pay. */
const LATE = 0.2;

/**
 * Large-neighbourhood search on a board on which everything has a place: takes some clusters off (a stretch of
 * time, a person's hours, what one resource holds, a chain), places them anew in a shaken order, and keeps the
 * outcome when all of them find a place at no greater cost than the threshold allows. Simulated-annealing acceptance.
 */
export class Improver {
  private readonly g: Generator;
  private readonly score: Score;
  private readonly random: Random;
  private value: number;
  private best: { readonly spots: ReadonlyMap<number, Spot>; readonly value: number };
  /** Clusters taken off in the current try bear its number. */
  private readonly marks: Int32Array;
  private round = 0;

  constructor(g: Generator, score: Score, random: Random) {
    this.g = g;
    this.score = score;
    this.random = random;
    this.marks = new Int32Array(g.clusters.tasks.length);
    this.value = score.of(g.board);
    this.best = { spots: g.board.spots(), value: this.value };
  }

  get bestValue(): number {
    return this.best.value;
  }

  /** Puts the best board found back. */
  restore(): void {
    if (this.value <= this.best.value) return;
    this.g.board.reset(this.best.spots);
    this.value = this.best.value;
  }

  /** One try; true when a new best was found. `heat` is the worsening that is still taken, in value. */
  step(heat: number): boolean {
    const { g, random } = this;
    const { board, clusters } = g;
    this.round++;
    const out = this.pick();
    const spots = new Map<number, Spot>();
    for (const c of out)
      for (const i of clusters.tasks[c]!) if (!board.settled(i)) spots.set(i, board.spotOf(i));
    board.remove([...spots.keys()]);
    const key = this.order(out);
    out.sort((a, b) => key.get(a)! - key.get(b)!);
    const away =
      out.length > 0 && this.score.spreads && random.next() < SPREAD ? this.away(out[0]!, spots) : 0;
    const wishing = !this.score.tempted || random.next() >= LATE;
    if (out.every((c, k) => g.placeCluster(c, k === 0 ? away : 0, wishing))) {
      const after = this.score.of(board);
      if (after <= this.value + heat * -Math.log(random.next() + 1e-12)) {
        this.value = after;
        if (after >= this.best.value - 1e-9) return false;
        this.best = { spots: board.spots(), value: after };
        return true;
      }
    }
    board.putBack(spots);
    return false;
  }

  /** Where to begin looking for a place: a while after the one it has, so that work is not all as late as it can be. */
  private away(c: number, spots: ReadonlyMap<number, Spot>): number {
    const first = this.g.clusters.tasks[c]!.find((i) => spots.has(i))!;
    return spots.get(first)!.start + 1 + this.random.below(FARTHEST);
  }

  /** A task to begin with: where work has to be spread, one of a time that is too full, if one is met. */
  private seed(): number {
    const { score, random } = this;
    const { board } = this.g;
    let i = random.below(board.model.n);
    if (score.spreads)
      for (let k = 0; k < 4 && !score.crowded(board, i); k++) i = random.below(board.model.n);
    return i;
  }

  /** Clusters to take off. */
  private pick(): number[] {
    const { g, random, round } = this;
    const { board, clusters } = g;
    const { model } = board;
    const size = 4 + random.below(Math.min(22, 4 + Math.floor(clusters.tasks.length / 4)));
    const out: number[] = [];
    const add = (c: number) => {
      if (this.marks[c] === round || out.length >= size) return;
      this.marks[c] = round;
      if (clusters.tasks[c]!.some((i) => !board.settled(i))) out.push(c);
    };
    const seed = this.seed();
    const t = board.start[seed]!;
    add(clusters.of[seed]!);
    const kind = random.below(4);
    if (kind === 0) {
      // What happens around the same time.
      for (const c of this.near(t, () => true)) add(c);
    } else if (kind === 1) {
      const persons = board.persons[seed]!;
      const p =
        persons.length > 0
          ? persons[random.below(persons.length)]!
          : random.below(Math.max(1, model.workers.length));
      for (const c of this.near(t, (i) => board.persons[i]!.includes(p))) add(c);
    } else if (kind === 2) {
      const on = board.resources[seed]!;
      if (on.length > 0) {
        const r = on[random.below(on.length)]!;
        for (const c of this.near(t, (i) => board.resources[i]!.includes(r))) add(c);
      } else for (const c of this.near(t, () => random.next() < 0.5)) add(c);
    } else {
      // A chain and its neighbours.
      let at = clusters.of[seed]!;
      for (let hop = 0; hop < 6; hop++) {
        const next = random.next() < 0.5 ? clusters.before[at]! : clusters.after[at]!;
        if (next.length === 0) continue;
        at = next[random.below(next.length)]!;
        add(at);
      }
      for (const c of this.near(t, () => random.next() < 0.3)) add(c);
    }
    return out;
  }

  /** Clusters of tasks that pass the test, nearest to t first. */
  private near(t: number, test: (i: number) => boolean): number[] {
    const { board, clusters } = this.g;
    const found: { c: number; away: number }[] = [];
    for (let i = 0; i < board.model.n; i++)
      if (test(i)) found.push({ c: clusters.of[i]!, away: Math.abs(board.start[i]! - t) });
    found.sort((a, b) => a.away - b.away);
    return found.slice(0, 60).map((x) => x.c);
  }

  /** Keys by which the clusters taken off are placed again. */
  private order(out: readonly number[]): Map<number, number> {
    const { random } = this;
    const { board, clusters } = this.g;
    const { lo, hi } = board.windows;
    const kind = random.below(3);
    const noise = [30, 120, 600][random.below(3)]!;
    return new Map(
      out.map((c) => {
        const tasks = clusters.tasks[c]!;
        let key = lo[2 * tasks[0]!]! + noise * random.next();
        if (kind === 1) {
          let room = Number.POSITIVE_INFINITY;
          for (const i of tasks) room = Math.min(room, hi[2 * i]! - lo[2 * i]!);
          key = room * (0.5 + random.next());
        } else if (kind === 2) key = random.next();
        return [c, key];
      }),
    );
  }
}
