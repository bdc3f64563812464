import type { Board } from "./board.ts";
import { Crowd } from "./crowd.ts";
import { apart, type Demand, type Model } from "./model.ts";
import { dueOf, weightsOf } from "./objective.ts";

/**
 * The objective of what stands on a board, fast enough to be asked after every change. The same figures as
 * objective.ts (a test compares them), read from typed arrays; tasks not placed count nothing.
 */
export class Score {
  private readonly model: Model;
  private readonly due: Float64Array;
  private readonly late: Float64Array;
  private readonly early: Float64Array;
  private readonly open: Uint8Array;
  /** Moment at which each span begins. */
  private readonly spanFrom: Int32Array;
  private readonly lagFrom: Int32Array;
  private readonly lagTo: Int32Array;
  private readonly lagBest: Float64Array;
  private readonly lagCost: Float64Array;
  private readonly w: ReturnType<typeof weightsOf>;
  private readonly place: Int32Array;
  private readonly walk: Float64Array;
  private readonly places: number;
  private readonly moment: Int32Array;
  private readonly overtimeCost: number;
  private readonly crowd: Crowd | undefined;
  /**
   * Whether what a task costs after its wanted end may be less than what it saves there: food that waits less beyond its
   * best, calmer hours, or an hour of lateness for one change of state less.
   */
  readonly tempted: boolean;

  /** `overtimeCost`: what a minute outside the shifts costs; 0 where that cannot happen. */
  constructor(model: Model, overtimeCost = 0) {
    this.model = model;
    this.overtimeCost = overtimeCost;
    const { problem } = model;
    const w = weightsOf(problem);
    this.w = w;
    this.due = Float64Array.from(problem.tasks, (t) => dueOf(problem, t));
    this.late = Float64Array.from(problem.tasks, (t) => w.late * (t.late ?? 1));
    this.early = Float64Array.from(problem.tasks, (t) => w.early * (t.early ?? 0));
    this.open = Uint8Array.from(problem.tasks, (t) => (t.status === "done" ? 0 : 1));
    const index = new Map(problem.tasks.map((t, i) => [t.id, i]));
    const lags = (problem.lags ?? []).filter((l) => l.best !== undefined && w.hold > 0);
    const moment = (m: { task: string; at: string }) => 2 * index.get(m.task)! + (m.at === "end" ? 1 : 0);
    this.spanFrom = Int32Array.from(problem.spans ?? [], (s) => moment(s.from));
    this.lagFrom = Int32Array.from(lags, (l) => moment(l.from));
    this.lagTo = Int32Array.from(lags, (l) => moment(l.to));
    this.lagBest = Float64Array.from(lags, (l) => l.best!);
    this.lagCost = Float64Array.from(lags, (l) => w.hold * (l.cost ?? 1));
    const places = new Map<string, number>();
    this.place = Int32Array.from(problem.tasks, (t) => {
      if (t.place === undefined) return -1;
      if (!places.has(t.place)) places.set(t.place, places.size);
      return places.get(t.place)!;
    });
    this.places = places.size;
    this.walk = new Float64Array(this.places * this.places);
    const set = (from: string, to: string, minutes: number) => {
      const [a, b] = [places.get(from), places.get(to)];
      if (a !== undefined && b !== undefined) this.walk[a * this.places + b] = minutes;
    };
    for (const x of problem.walks ?? []) set(x.to, x.from, x.minutes);
    for (const x of problem.walks ?? []) set(x.from, x.to, x.minutes);
    this.moment = new Int32Array(2 * model.n);
    this.crowd = w.peak && w.peak.weight > 0 ? new Crowd(model, w.peak) : undefined;
    const saves = this.late.map(() => Math.max(w.peak?.weight ?? 0, w.changes / 60));
    this.lagFrom.forEach((from, k) => {
      saves[from >> 1]! += this.lagCost[k]!;
    });
    this.tempted = problem.tasks.some((t, i) => t.due !== undefined && saves[i]! > this.late[i]!);
  }

  /** Weighted sum of the terms over the placed tasks. */
  of(board: Board): number {
    const { model, w, moment } = this;
    const { mirrored, n, end } = model;
    let sum = 0;
    let last = 0;
    for (let i = 0; i < n; i++) {
      if (board.mode[i]! < 0) continue;
      const from = mirrored ? end - board.end[i]! : board.start[i]!;
      const to = mirrored ? end - board.start[i]! : board.end[i]!;
      moment[2 * i] = from;
      moment[2 * i + 1] = to;
      if (to > last) last = to;
      if (this.open[i] === 0) continue;
      const over = to - this.due[i]!;
      sum += over > 0 ? this.late[i]! * over : -this.early[i]! * over;
      sum += w.modes * model.ways[i]![board.mode[i]!]!.cost;
    }
    sum += w.makespan * last;
    if (this.overtimeCost > 0) sum += this.overtimeCost * this.overtime(board);
    for (let k = 0; k < this.lagFrom.length; k++) {
      const [a, b] = [this.lagFrom[k]!, this.lagTo[k]!];
      if (board.mode[a >> 1]! < 0 || board.mode[b >> 1]! < 0) continue;
      const over = moment[b]! - moment[a]! - this.lagBest[k]!;
      if (over > 0) sum += this.lagCost[k]! * over;
    }
    if (w.changes > 0) sum += w.changes * this.changes(board);
    if (this.crowd) sum += w.peak!.weight * this.crowd.over(board, moment);
    if (w.pauses > 0) sum += w.pauses * this.pauses(board);
    if (w.walk > 0) sum += w.walk * this.walked(board);
    return sum;
  }

  /** Minutes worked outside the shifts, about: each person's share of a task taken alone. */
  overtime(board: Board): number {
    let sum = 0;
    for (let i = 0; i < this.model.n; i++) {
      const m = board.mode[i]!;
      const persons = board.persons[i]!;
      if (m < 0 || persons.length === 0 || this.model.decided[i]?.status === "done") continue;
      const way = this.model.ways[i]![m]!;
      const from = board.start[i]!;
      const to = board.end[i]!;
      for (const p of persons) {
        const a = board.agendas[p]!;
        let worked = 0;
        for (let w = a.interval(from); w >= 0 && w < a.intervals && a.startOf(w) < to; w++)
          worked += Math.min(to, a.endOf(w)) - Math.max(from, a.startOf(w));
        sum += Math.max(0, way.duration - worked);
      }
    }
    return sum;
  }

  private changes(board: Board): number {
    const use: { from: number; demand: Demand }[][] = this.model.equipment.map(() => []);
    for (let i = 0; i < this.model.n; i++) {
      if (board.mode[i]! < 0 || this.open[i] === 0) continue;
      const { demands } = this.model.ways[i]![board.mode[i]!]!;
      for (let k = 0; k < demands.length; k++)
        if (!Number.isNaN(demands[k]!.set))
          use[board.resources[i]![k]!]!.push({ from: this.moment[2 * i]!, demand: demands[k]! });
    }
    this.model.holds.forEach(({ demand }, k) => {
      const from = this.spanFrom[k]!;
      const on = board.holdOn[k]!;
      if (on >= 0 && !Number.isNaN(demand.set) && this.open[from >> 1] === 1)
        use[on]!.push({ from: this.moment[from]!, demand });
    });
    let count = 0;
    use.forEach((list, r) => {
      if (list.length === 0) return;
      count++;
      list.sort((a, b) => a.from - b.from || a.demand.set - b.demand.set);
      for (let i = 1; i < list.length; i++)
        if (apart(this.model.equipment[r]!, list[i - 1]!.demand, list[i]!.demand) > 0) count++;
    });
    return count;
  }

  /** Whether a task has hands in a stretch that was too full, or is interrupted, when `of` was last asked. */
  crowded(board: Board, i: number): boolean {
    if (board.mode[i]! < 0 || board.persons[i]!.length === 0) return false;
    if (this.w.pauses > 0 && this.paused(board, i)) return true;
    return (
      this.crowd?.full(this.moment[2 * i]!) === true || this.crowd?.full(this.moment[2 * i + 1]! - 1) === true
    );
  }

  /** Whether any term asks for work to be spread. */
  get spreads(): boolean {
    return this.crowd !== undefined || this.w.pauses > 0;
  }

  private paused(board: Board, i: number): boolean {
    const way = this.model.ways[i]![board.mode[i]!]!;
    if (way.interrupt === 0 || way.heads === 0 || (this.model.decided[i]?.end ?? -1) >= 0) return false;
    return board.end[i]! - board.start[i]! > way.duration;
  }

  private pauses(board: Board): number {
    let count = 0;
    for (let i = 0; i < this.model.n; i++) if (board.mode[i]! >= 0 && this.paused(board, i)) count++;
    return count;
  }

  private walked(board: Board): number {
    const routes: { start: number; place: number }[][] = this.model.workers.map(() => []);
    for (let i = 0; i < this.model.n; i++) {
      if (board.mode[i]! < 0 || this.place[i]! < 0 || this.open[i] === 0) continue;
      for (const p of board.persons[i]!)
        routes[p]!.push({ start: this.moment[2 * i]!, place: this.place[i]! });
    }
    let sum = 0;
    for (const route of routes) {
      route.sort((a, b) => a.start - b.start);
      for (let k = 1; k < route.length; k++)
        sum += this.walk[route[k - 1]!.place * this.places + route[k]!.place]!;
    }
    return sum;
  }
}
