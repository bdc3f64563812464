import type { Bounds, Propagator } from "./bounds.ts";

/**
 * One resource of constant capacity, by the timetable of compulsory parts, with pointwise explanations
 * (Schutt, Feydy, Stuckey and Wallace 2011). Minutes are kept one by one: meant for short axes.
 */
export class Cumulative implements Propagator {
  due = true;
  private readonly tasks: Int32Array;
  private readonly duration: Int32Array;
  private readonly demand: Int32Array;
  private readonly capacity: number;
  private readonly use: Int32Array;
  private usedFrom = 0;
  private usedTo = 0;
  private readonly atoms: number[] = [];

  /** `demand[i]` of each variable i; those that ask for nothing or last no time are left out. */
  constructor(duration: Int32Array, demand: Int32Array, capacity: number, horizon: number) {
    this.tasks = Int32Array.from(duration.keys())
      .filter((i) => duration[i]! > 0 && demand[i]! > 0)
      .sort((a, b) => demand[b]! - demand[a]! || a - b);
    this.duration = duration;
    this.demand = demand;
    this.capacity = capacity;
    this.use = new Int32Array(horizon + 1);
  }

  get variables(): Int32Array {
    return this.tasks;
  }

  touch(): void {
    this.due = true;
  }

  reset(): void {
    this.due = false;
  }

  propagate(b: Bounds): boolean {
    const { tasks, duration, demand, capacity, use } = this;
    const { low } = b;
    // Only the stretch written last time needs clearing.
    use.fill(0, this.usedFrom, this.usedTo);
    let top = 0;
    let first = use.length;
    let last = 0;
    for (let k = 0; k < tasks.length; k++) {
      const i = tasks[k]!;
      const from = -low[2 * i + 1]!;
      const to = low[2 * i]! + duration[i]!;
      if (from >= to) continue;
      if (from < first) first = from;
      if (to > last) last = to;
      for (let t = from; t < to; t++) {
        use[t]! += demand[i]!;
        if (use[t]! > top) top = use[t]!;
      }
    }
    this.usedFrom = first;
    this.usedTo = Math.max(first, last);
    if (top > capacity) {
      let t = 0;
      while (use[t]! <= capacity) t++;
      this.atoms.length = 0;
      this.blame(b, t, -1, capacity);
      return b.fail(this.atoms);
    }
    for (let k = 0; k < tasks.length; k++) {
      const i = tasks[k]!;
      const d = demand[i]!;
      if (top + d <= capacity) break;
      if (low[2 * i]! === -low[2 * i + 1]!) continue;
      if (-low[2 * i + 1]! + duration[i]! <= first || low[2 * i]! >= last) continue;
      if (!this.later(b, i, d) || !this.sooner(b, i, d)) return false;
    }
    return true;
  }

  private later(b: Bounds, i: number, d: number): boolean {
    const { duration, capacity, use } = this;
    const { low } = b;
    const p = duration[i]!;
    for (let again = true; again; ) {
      again = false;
      const from = low[2 * i]!;
      const own = -low[2 * i + 1]!;
      for (let t = from + p - 1; t >= from; t--) {
        // Inside its own compulsory part its demand is counted already.
        if (use[t]! + (t >= own ? 0 : d) <= capacity) continue;
        this.atoms.length = 0;
        this.atoms.push(2 * i, t + 1 - p);
        this.blame(b, t, i, capacity - d);
        if (!b.raise(2 * i, t + 1, this.atoms)) return false;
        again = true;
        break;
      }
    }
    return true;
  }

  private sooner(b: Bounds, i: number, d: number): boolean {
    const { duration, capacity, use } = this;
    const { low } = b;
    const p = duration[i]!;
    for (let again = true; again; ) {
      again = false;
      const from = -low[2 * i + 1]!;
      const own = low[2 * i]! + p;
      for (let t = from; t < from + p; t++) {
        if (use[t]! + (t < own ? 0 : d) <= capacity) continue;
        this.atoms.length = 0;
        this.atoms.push(2 * i + 1, -t);
        this.blame(b, t, i, capacity - d);
        if (!b.raise(2 * i + 1, p - t, this.atoms)) return false;
        again = true;
        break;
      }
    }
    return true;
  }

  /** Appends atoms of tasks other than `but` that must run at t until their demands exceed `room`. */
  private blame(b: Bounds, t: number, but: number, room: number): void {
    const { tasks, duration, demand, atoms } = this;
    const { low } = b;
    let sum = 0;
    for (let k = 0; k < tasks.length && sum <= room; k++) {
      const j = tasks[k]!;
      if (j === but || low[2 * j]! + duration[j]! <= t || -low[2 * j + 1]! > t) continue;
      sum += demand[j]!;
      atoms.push(2 * j, t + 1 - duration[j]!, 2 * j + 1, -t);
    }
  }
}
