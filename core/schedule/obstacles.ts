import type { Board, Held } from "./board.ts";
import type { Clusters } from "./clusters.ts";
import type { Demand, Way } from "./model.ts";
import type { Random } from "./random.ts";

/** Starts tried for the first task of a cluster that found no place. */
const SAMPLES = 24;

/** Moments moved along with a place that is weighed: the chain it belongs to, not the whole service. */
const NEAR = 100;

/** What would have to leave for a cluster to be placed at a start of its first task. */
export interface Blockers {
  readonly clusters: readonly number[];
  readonly weight: number;
  readonly start: number;
}

/**
 * What stands in the way of a cluster: for a start of its first task, the clusters that must leave, because they
 * hold the hands or the room it needs or stand where the lags to it would not let them. Started tasks never leave.
 */
export class Obstacles {
  private readonly board: Board;
  private readonly clusters: Clusters;
  /** What it costs that a cluster leaves. */
  private readonly weights: Float64Array;
  private readonly random: Random;
  /** Clusters out of the way in the current try bear its number. */
  private readonly out: Int32Array;
  /** Tasks placed in the current try bear its number too. */
  private readonly tried: Int32Array;
  private round = 0;
  private readonly leave: number[] = [];
  private sum = 0;
  private readonly team: number[] = [];
  private readonly busy: number[] = [];
  private s = 0;
  private e = 0;
  /** Who could serve a need, by what it would cost and when they would; -1 once they are chosen. */
  private readonly who: Int32Array;
  private readonly costs: Float64Array;
  private readonly froms: Int32Array;
  private readonly tos: Int32Array;

  constructor(board: Board, clusters: Clusters, weights: Float64Array, random: Random) {
    this.board = board;
    this.clusters = clusters;
    this.weights = weights;
    this.random = random;
    this.out = new Int32Array(clusters.tasks.length);
    this.tried = new Int32Array(board.model.n);
    const people = board.agendas.length;
    this.who = new Int32Array(people);
    this.costs = new Float64Array(people);
    this.froms = new Int32Array(people);
    this.tos = new Int32Array(people);
  }

  /** The try that costs least among a sample of starts; null when no start would do with everything else away. */
  find(c: number): Blockers | null {
    const { board, random } = this;
    const first = this.clusters.tasks[c]!.find((i) => !board.isPlaced(i));
    if (first === undefined) return null;
    const { windows, open } = board;
    const [widestLo, widestHi] = [open.lo[2 * first]!, open.hi[2 * first]!];
    const lo = Math.max(widestLo, Math.min(windows.lo[2 * first]!, widestHi));
    const hi = Math.max(lo, Math.min(windows.hi[2 * first]!, widestHi));
    let best: Blockers | null = null;
    for (let k = 0; k < SAMPLES; k++) {
      let start = k === 0 ? lo : k === 1 ? hi : random.between(lo, hi);
      if (k >= SAMPLES / 2) {
        // What stands before and after may have to move too.
        const far = 30 << random.below(8);
        start = random.between(Math.max(widestLo, lo - far), Math.min(widestHi, hi + far));
      }
      const mark = open.mark();
      // Whatever else the cluster is made of has to find hours too.
      if (!open.raise(2 * first, start, NEAR)) {
        open.undo(mark);
        continue;
      }
      start = open.lo[2 * first]!;
      const weight = this.weigh(c, best?.weight ?? Number.POSITIVE_INFINITY);
      if (weight < (best?.weight ?? Number.POSITIVE_INFINITY))
        best = { clusters: this.leave.slice(), weight, start };
      open.undo(mark);
    }
    return best;
  }

  /** What must leave for the cluster to stand as early as the open windows let it, in `leave`; its weight, or infinity when it can't be or costs `limit`. */
  private weigh(c: number, limit: number): number {
    const { board } = this;
    const { open } = board;
    this.round++;
    this.leave.length = 0;
    this.sum = 0;
    const mark = open.mark();
    let sound = true;
    for (const i of this.clusters.tasks[c]!) {
      if (board.isPlaced(i)) continue;
      board.tried += 0.25;
      sound = this.place(i, open.lo[2 * i]!) && this.sum < limit;
      if (!sound) break;
    }
    open.undo(mark);
    return sound ? this.sum : Number.POSITIVE_INFINITY;
  }

  /** Tries task i at t or soon after in the open windows; false when it can't be. */
  private place(i: number, t: number): boolean {
    const { board } = this;
    const { model, open } = board;
    const decided = model.decided[i] ?? null;
    const ways = model.ways[i]!;
    let best = -1;
    let bestCost = Number.POSITIVE_INFINITY;
    for (let m = 0; m < ways.length; m++) {
      if (decided && decided.mode >= 0 && decided.mode !== m) continue;
      const cost = this.staff(i, ways[m]!, t, decided?.persons ?? null);
      if (cost < bestCost) {
        best = m;
        bestCost = cost;
      }
    }
    if (best < 0) return false;
    const way = ways[best]!;
    this.staff(i, way, t, decided?.persons ?? null);
    const { s, e } = this;
    for (const p of this.team) {
      this.busy.length = 0;
      board.agendas[p]!.busy(s, e, this.busy);
      for (const x of this.busy) if (!this.clear(x)) return false;
    }
    const mark = open.mark();
    if (!open.place(i, s, e, NEAR)) return false;
    let fits = true;
    open.changed(mark, (moment) => {
      const y = moment >> 1;
      if (!board.isPlaced(y)) return;
      const at = board.at(moment);
      if (at < open.lo[moment]! || at > open.hi[moment]!) fits = this.clear(y) && fits;
    });
    if (!fits) return false;
    this.tried[i] = this.round;
    for (let k = 0; k < way.demands.length; k++)
      if (!this.room(way.demands[k]!, s, e, decided?.resources?.[k] ?? -1)) return false;
    for (const k of model.holdsOf[i]!) {
      const h = model.holds[k]!;
      const [from, to] = [this.at(h.from), this.at(h.to)];
      if (from >= 0 && to > from && !this.room(h.demand, from, to, -1)) return false;
    }
    return true;
  }

  /** Minute of a moment that is tried here or stays where it is placed; -1 when it is neither. */
  private at(moment: number): number {
    const i = moment >> 1;
    if (this.tried[i] === this.round) return this.board.open.lo[moment]!;
    return this.board.isPlaced(i) && !this.gone(i) ? this.board.at(moment) : -1;
  }

  /** Chooses who would do the work at t or soon after, into `team`, `s` and `e`; what it would cost. */
  private staff(i: number, way: Way, t: number, fixed: readonly number[] | null): number {
    const { board, team } = this;
    const { open } = board;
    team.length = 0;
    this.s = t;
    this.e = t + way.duration;
    let total = 0;
    for (let n = 0; n < way.people.length; n++) {
      const need = way.people[n]!;
      const able = fixed ?? need.able;
      const { who, costs, froms, tos } = this;
      let count = 0;
      for (let x = 0; x < able.length; x++) {
        const p = able[x]!;
        if (team.includes(p)) continue;
        const agenda = board.agendas[p]!;
        const from = way.duration === 0 ? t : agenda.alone(t, way.duration, way.interrupt);
        const to = way.duration === 0 ? t : agenda.ended;
        if (from < 0 || from > open.hi[2 * i]! || to > open.hi[2 * i + 1]!) continue;
        who[count] = p;
        costs[count] = 0.02 * (from - t) + 0.01 * this.random.next() + this.freeing(p, from, to);
        froms[count] = from;
        tos[count] = to;
        count++;
      }
      if (count < need.count) return Number.POSITIVE_INFINITY;
      for (let k = 0; k < need.count; k++) {
        let least = -1;
        for (let x = 0; x < count; x++)
          if (who[x]! >= 0 && (least < 0 || costs[x]! < costs[least]!)) least = x;
        team.push(who[least]!);
        who[least] = -1;
        total += costs[least]!;
        this.s = Math.max(this.s, froms[least]!);
        this.e = Math.max(this.e, tos[least]!);
      }
    }
    // Work that can't end so early starts later.
    const early = open.lo[2 * i + 1]! - this.e;
    if (early > 0) {
      this.s += early;
      this.e += early;
    }
    return this.e > open.hi[2 * i + 1]! || this.s > open.hi[2 * i]!
      ? Number.POSITIVE_INFINITY
      : total + 1e-4 * way.heads * way.duration;
  }

  /** What it costs that a person leaves all else in [from, to). */
  private freeing(p: number, from: number, to: number): number {
    const { busy } = this;
    busy.length = 0;
    this.board.agendas[p]!.busy(from, to, busy);
    let cost = 0;
    for (let k = 0; k < busy.length; k++) if (!this.gone(busy[k]!)) cost += this.weightOf(busy[k]!);
    return cost;
  }

  private weightOf(task: number): number {
    return this.fixed(task) ? Number.POSITIVE_INFINITY : this.weights[this.clusters.of[task]!]!;
  }

  /** What has happened or is under way stays. */
  private fixed(task: number): boolean {
    const d = this.board.model.decided[task];
    return d != null && d.status !== "open";
  }

  private gone(task: number): boolean {
    return this.out[this.clusters.of[task]!] === this.round && !this.fixed(task);
  }

  /** Has a task leave, with its cluster; false when it can't. */
  private clear(task: number): boolean {
    if (this.gone(task)) return true;
    if (this.fixed(task)) return false;
    const c = this.clusters.of[task]!;
    this.out[c] = this.round;
    this.leave.push(c);
    this.sum += this.weights[c]!;
    return true;
  }

  /** Makes room for a need on the resource that costs least to clear; false when none can be. */
  private room(d: Demand, from: number, to: number, fixed: number): boolean {
    const { board } = this;
    const bound = fixed >= 0 ? fixed : d.same >= 0 ? board.sameOn[d.same]! : -1;
    let best: number[] | null = null;
    let bestCost = Number.POSITIVE_INFINITY;
    for (const r of bound >= 0 ? [bound] : d.of) {
      if (board.blocks(d, r, from, to) < 0) return true;
      const who = this.leaving(r, d, from, to);
      if (!who) continue;
      let cost = 0.01 * this.random.next();
      for (const x of who) cost += this.weightOf(x);
      if (cost < bestCost) {
        best = who;
        bestCost = cost;
      }
    }
    if (!best) return false;
    for (const x of best) if (!this.clear(x)) return false;
    return true;
  }

  /** Who leaves resource r so that d fits on [from, to); null: it never fits. */
  private leaving(r: number, d: Demand, from: number, to: number): number[] | null {
    const { board } = this;
    const e = board.model.equipment[r]!;
    const occupancy = board.occupancies[r];
    const gap = e.longestGap;
    const out: number[] = [];
    let stay: Held[] = [];
    for (const h of board.held[r]!) {
      if (h.from >= to + gap || h.to <= from - gap || this.gone(h.task)) continue;
      if (occupancy && !occupancy.beside(h.demand, h.from, h.to, d, from, to)) {
        if (!out.includes(h.task)) out.push(h.task);
      } else if (h.from < to && h.to > from) stay.push(h);
    }
    if (out.length > 0) stay = stay.filter((h) => !out.includes(h.task));
    for (let x = 0; x < d.amount.length; x++) {
      // The use rises only where something begins.
      stay.sort((a, b) => a.from - b.from);
      let step = 0;
      let next = 0;
      let here: Held[] = [];
      let used = d.amount[x]!;
      for (let t = from; ; ) {
        while (step + 1 < e.time.length && e.time[step + 1]! <= t) step++;
        if (here.some((h) => h.to <= t)) {
          here = here.filter((h) => h.to > t);
          used = here.reduce((sum, h) => sum + h.demand.amount[x]!, d.amount[x]!);
        }
        for (; next < stay.length && stay[next]!.from <= t; next++) {
          const h = stay[next]!;
          if (h.to <= t || !((h.demand.amount[x] ?? 0) > 0) || out.includes(h.task)) continue;
          here.push(h);
          used += h.demand.amount[x]!;
        }
        const most = e.capacity[step * e.dimensions + x]!;
        if (d.amount[x]! > most) return null;
        if (used > most) {
          here.sort(
            (a, b) =>
              this.weightOf(a.task) - this.weightOf(b.task) || b.demand.amount[x]! - a.demand.amount[x]!,
          );
          let k = 0;
          for (; used > most; k++) {
            out.push(here[k]!.task);
            used -= here[k]!.demand.amount[x]!;
          }
          here.splice(0, k);
        }
        t = Math.min(stay[next]?.from ?? to, e.time[step + 1] ?? to);
        if (t >= to) break;
      }
      stay = stay.filter((h) => !out.includes(h.task));
    }
    return out;
  }
}
