import { Board, type Spot } from "./board.ts";
import type { Clusters } from "./clusters.ts";
import { type Model, NEVER } from "./model.ts";
import { type Manner, Search } from "./search.ts";

/** Tries of one cluster at later and later starts before it is given up. */
const TRIES = 60;

/**
 * Serial generation in the direction of the model: cluster after cluster at its earliest place. Inside a
 * cluster, a task that finds no place within its window makes the one that limits it start later, and the
 * cluster is tried again (the unscheduling of Franck, Neumann and Schwindt, kept inside the cluster).
 */
export class Generator {
  readonly board: Board;
  readonly clusters: Clusters;
  private search: Search;
  private readonly searches: readonly Search[];
  private readonly push = new Map<number, number>();

  /** `manners`: the first is tried for a whole cluster, then the next. */
  constructor(
    model: Model,
    clusters: Clusters,
    manners: readonly Manner[],
    board = new Board(model, { anytime: manners.some((m) => m.anytime) }),
  ) {
    this.board = board;
    this.clusters = clusters;
    this.searches = manners.map((m) => new Search(this.board, m));
    this.search = this.searches[0]!;
  }

  /** The place again, if nothing stands against it now; else null. Its holds are chosen anew where not `held`. */
  exactly(i: number, spot: Spot, held = false): Spot | null {
    return this.search.exactly(i, spot, held);
  }

  /** A place at the first minute of the window, whoever and whatever is free. */
  anySpot(i: number): Spot {
    return this.search.anywhere(i);
  }

  /** Places what has happened or is under way, whatever it collides with. */
  settle(): void {
    const { board } = this;
    for (let i = 0; i < board.model.n; i++) {
      if (board.settled(i) && !board.isPlaced(i)) board.force(i, this.search.asDecided(i));
    }
  }

  /** Clusters not wholly placed. */
  open(): number[] {
    const { board, clusters } = this;
    const list: number[] = [];
    for (let c = 0; c < clusters.tasks.length; c++)
      if (clusters.tasks[c]!.some((i) => !board.isPlaced(i))) list.push(c);
    return list;
  }

  /** Takes clusters off the board, but for what has happened. */
  takeOff(clusters: readonly number[]): void {
    const { board } = this;
    board.remove(clusters.flatMap((c) => this.clusters.tasks[c]!.filter((i) => !board.settled(i))));
  }

  /** Places all clusters by priority, lowest first, each after those before it; returns those without a place. */
  run(priority: Float64Array): number[] {
    const { clusters } = this;
    const count = clusters.tasks.length;
    const waits = Int32Array.from(clusters.before, (b) => b.length);
    const ready: number[] = [];
    const failed: number[] = [];
    const done = new Uint8Array(count);
    for (let c = 0; c < count; c++) if (waits[c] === 0) ready.push(c);
    for (let left = count; left > 0; left--) {
      let at = 0;
      if (ready.length === 0) ready.push(done.indexOf(0));
      for (let k = 1; k < ready.length; k++) if (priority[ready[k]!]! < priority[ready[at]!]!) at = k;
      const c = ready[at]!;
      ready[at] = ready[ready.length - 1]!;
      ready.pop();
      done[c] = 1;
      if (!this.placeCluster(c)) failed.push(c);
      for (const next of clusters.after[c]!) if (--waits[next]! === 0 && done[next] === 0) ready.push(next);
    }
    return failed;
  }

  /**
   * Places a cluster whole, its first task at `from` or later, or leaves the board as it was. Wanted ends are kept where
   * they can be, unless not `wishing`.
   */
  placeCluster(c: number, from = 0, wishing = true): boolean {
    for (const search of this.searches) {
      this.search = search;
      // Not late where that can be; a start that was asked for is taken as it is.
      if ((wishing && from === 0 && this.tryCluster(c, 0, true)) || this.tryCluster(c, from, false))
        return true;
    }
    return false;
  }

  private tryCluster(c: number, from: number, wishing: boolean): boolean {
    const { board, search, push } = this;
    const tasks = this.clusters.tasks[c]!;
    const mark = board.placedCount;
    push.clear();
    if (from > 0) push.set(tasks.find((i) => !board.isPlaced(i)) ?? -1, from);
    for (let attempt = 0; attempt < TRIES; attempt++) {
      let stuck = -1;
      for (const i of tasks) {
        if (board.isPlaced(i)) continue;
        if (!this.placeTask(i, push.get(i) ?? 0, wishing)) {
          stuck = i;
          break;
        }
      }
      if (stuck < 0) return true;
      const culprit = search.culprit;
      const late = search.late;
      const movable =
        culprit >= 0 && late < NEVER && this.clusters.of[culprit] === c && board.isPlaced(culprit);
      const from = movable ? board.start[culprit]! + late : 0;
      const open = movable && !board.settled(culprit);
      board.backTo(mark);
      if (!open) return false;
      push.set(culprit, Math.max(from, push.get(culprit) ?? 0));
    }
    return false;
  }

  private placeTask(i: number, from: number, wishing: boolean): boolean {
    const { board, search } = this;
    const wish = wishing ? board.model.wish[i]! : 0;
    let at = from;
    for (let guard = 0; guard < 30; guard++) {
      const spot = search.find(i, Math.max(at, wish)) ?? (at < wish ? search.find(i, at) : null);
      if (!spot) return false;
      if (board.take(i, spot)) return true;
      at = spot.start + 1;
    }
    search.late = NEVER;
    return false;
  }
}
