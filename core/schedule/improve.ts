import { blockersOf } from "./blockers.ts";
import type { Spot } from "./board.ts";
import type { Generator } from "./generate.ts";
import type { Random } from "./random.ts";
import type { Score } from "./score.ts";

/**
 * Large-neighbourhood search on a board: takes some clusters off (a stretch of time, a person's hours, what
 * one resource holds, a chain), places them anew in a shaken order, and keeps the outcome when fewer are left
 * without a place, or as few at no greater cost than the threshold allows. Simulated-annealing acceptance.
 */
export class Improver {
  readonly missing: Set<number>;
  value: number;
  private readonly g: Generator;
  private readonly score: Score;
  private readonly random: Random;
  private readonly failures: Float64Array;
  private best: { spots: Map<number, Spot>; missing: number[]; value: number; weight: number };
  private readonly marks: Int32Array;
  private round = 0;

  constructor(g: Generator, missing: readonly number[], score: Score, random: Random) {
    this.g = g;
    this.score = score;
    this.random = random;
    this.missing = new Set(missing);
    this.failures = new Float64Array(g.clusters.tasks.length).fill(1);
    this.marks = new Int32Array(g.clusters.tasks.length).fill(-1);
    this.value = score.of(g.board);
    this.best = this.snapshot();
  }

  private weightMissing(): number {
    let sum = 0;
    for (const c of this.missing) sum += this.g.clusters.tasks[c]!.length;
    return sum;
  }

  private snapshot() {
    const spots = new Map<number, Spot>();
    for (let i = 0; i < this.g.board.model.n; i++)
      if (this.g.board.isPlaced(i)) spots.set(i, this.g.board.spotOf(i));
    return { spots, missing: [...this.missing], value: this.value, weight: this.weightMissing() };
  }

  get bestValue(): number {
    return this.best.value;
  }

  get bestMissing(): readonly number[] {
    return this.best.missing;
  }

  /** Puts the best board found back. */
  restore(): void {
    const { board } = this.g;
    const off: number[] = [];
    for (let i = 0; i < board.model.n; i++) if (board.isPlaced(i) && !this.settled(i)) off.push(i);
    board.remove(off);
    for (const [i, spot] of this.best.spots) if (!board.isPlaced(i)) board.force(i, spot);
    board.redraw();
    this.missing.clear();
    for (const c of this.best.missing) this.missing.add(c);
    this.value = this.best.value;
  }

  private settled(i: number): boolean {
    const d = this.g.board.model.decided[i];
    return d != null && d.status !== "open";
  }

  /** One try; true when a new best was found. `heat` is the worsening that is still taken, in value. */
  step(heat: number): boolean {
    const { g, random } = this;
    const { board, clusters } = g;
    this.round++;
    const out = this.pick();
    if (out.length === 0) return false;
    const spots = new Map<number, Spot>();
    for (const c of out)
      for (const i of clusters.tasks[c]!)
        if (board.isPlaced(i) && !this.settled(i)) spots.set(i, board.spotOf(i));
    const before = [...this.missing];
    const beforeWeight = this.weightMissing();
    board.remove(spots.keys());
    for (const c of this.missing) if (!out.includes(c)) out.push(c);
    const key = this.order(out);
    out.sort((a, b) => key.get(a)! - key.get(b)!);
    this.missing.clear();
    let weight = 0;
    for (const c of out) {
      if (g.placeCluster(c)) continue;
      this.missing.add(c);
      this.failures[c]! += 0.2;
      weight += clusters.tasks[c]!.length;
      if (weight > beforeWeight + 4) break;
    }
    const after = this.score.of(board);
    const accept =
      weight < beforeWeight ||
      (weight === beforeWeight &&
        (beforeWeight > 0 || after <= this.value + heat * -Math.log(random.next() + 1e-12)));
    if (!accept) {
      const off: number[] = [];
      for (const c of out)
        for (const i of clusters.tasks[c]!) if (board.isPlaced(i) && !this.settled(i)) off.push(i);
      for (const i of off) board.lift(i);
      for (const [i, spot] of spots) board.force(i, spot);
      board.redraw();
      this.missing.clear();
      for (const c of before) this.missing.add(c);
      return false;
    }
    this.value = after;
    if (weight < this.best.weight || (weight === this.best.weight && after < this.best.value - 1e-9)) {
      this.best = this.snapshot();
      return true;
    }
    return false;
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
      if (clusters.tasks[c]!.some((i) => board.isPlaced(i) && !this.settled(i))) out.push(c);
    };
    const missing = [...this.missing];
    let seed = random.below(model.n);
    if (missing.length > 0 && random.next() < 0.9) {
      const c = missing[random.below(missing.length)]!;
      if (random.next() < 0.7) {
        const weight = (i: number) =>
          board.model.decided[i] !== null ? 1e9 : this.failures[clusters.of[i]!]! * (0.3 + random.next());
        const found = blockersOf(board, clusters.tasks[c]!, weight, random);
        if (found) {
          for (const i of found.tasks) add(clusters.of[i]!);
          if (random.next() < 0.3) return out;
          const list = [...found.tasks];
          if (list.length > 0) seed = list[random.below(list.length)]!;
        }
      } else {
        for (const d of clusters.before[c]!) add(d);
        for (const d of clusters.after[c]!) add(d);
      }
    }
    const kind = random.below(4);
    if (!board.isPlaced(seed)) seed = random.below(model.n);
    const t = board.start[seed]!;
    add(clusters.of[seed]!);
    if (kind === 0) {
      // What happens around the same time.
      const near = this.near(t, () => true);
      for (const c of near) add(c);
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
      if (board.isPlaced(i) && test(i))
        found.push({ c: clusters.of[i]!, away: Math.abs(board.start[i]! - t) });
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
        const first = tasks[0]!;
        let key = lo[2 * first]! + noise * random.next();
        if (kind === 1) {
          let room = Number.POSITIVE_INFINITY;
          for (const i of tasks) room = Math.min(room, hi[2 * i]! - lo[2 * i]!);
          key = room * (0.5 + random.next());
        } else if (kind === 2) key = random.next();
        key -= 300 * (this.failures[c]! - 1) * random.next();
        return [c, key];
      }),
    );
  }
}
