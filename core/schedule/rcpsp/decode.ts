import { longestPlan, type Project } from "./project.ts";

/**
 * Schedule generation for plain projects, forward and backward, fast: the free capacities of all
 * resources in one minute are fields of a few 32-bit words with a guard bit each, so that one subtraction a
 * word tells whether a demand fits.
 */
export class Decoder {
  readonly n: number;
  readonly duration: Int32Array;
  /** Predecessors and successors by activity, packed. */
  readonly predFirst: Int32Array;
  readonly preds: Int32Array;
  readonly succFirst: Int32Array;
  readonly succs: Int32Array;
  readonly horizon: number;
  private readonly words: number;
  private readonly demand: Int32Array;
  private readonly full: Int32Array;
  private readonly guard: Int32Array;
  private readonly free: Int32Array;
  private used = 0;
  private readonly bucket: Int32Array;
  /** Where each activity stands in the list. */
  private readonly position: Int32Array;
  /** The earliest start each may have; if stale, before it is looked at where that fits. */
  private readonly at: Int32Array;
  private readonly stale: Uint8Array;
  private readonly waits: Int32Array;
  private readonly open: Int32Array;
  /** Schedules generated. */
  count = 0;

  constructor(p: Project) {
    this.n = p.n;
    this.duration = p.duration;
    this.horizon = longestPlan(p) + 1;
    const widest = Math.max(1, ...p.capacity);
    const bits = 32 - Math.clz32(widest) + 1;
    const perWord = Math.max(1, Math.floor(32 / bits));
    this.words = Math.max(1, Math.ceil(p.resources / perWord));
    this.full = new Int32Array(this.words);
    this.guard = new Int32Array(this.words);
    this.demand = new Int32Array(p.n * this.words);
    for (let r = 0; r < p.resources; r++) {
      const word = Math.floor(r / perWord);
      const shift = bits * (r % perWord);
      this.full[word]! |= p.capacity[r]! << shift;
      this.guard[word]! |= 1 << (shift + bits - 1);
      for (let i = 0; i < p.n; i++)
        this.demand[i * this.words + word]! |= p.demand[i * p.resources + r]! << shift;
    }
    this.free = new Int32Array(this.horizon * this.words);
    this.used = this.horizon;
    this.position = new Int32Array(p.n);
    this.at = new Int32Array(p.n);
    this.stale = new Uint8Array(p.n);
    this.waits = new Int32Array(p.n);
    this.open = new Int32Array(p.n);
    this.bucket = new Int32Array(this.horizon + 1);
    [this.predFirst, this.preds] = neighbours(p.n, p.to, p.from);
    [this.succFirst, this.succs] = neighbours(p.n, p.from, p.to);
  }

  /**
   * Places activities by a list, which names every one after its predecessors (backward: after its successors): each
   * time the first of those whose predecessors stand that can start within `delay` minutes of the soonest of them.
   * No delay at all is parallel generation, any delay is serial generation in the order of the list (parameterised
   * active schedules, after Gonçalves, Mendes and Resende 2005). Returns the makespan. Backward starts count from the
   * end: turn() reads them.
   */
  place(list: Int32Array, start: Int32Array, backward: boolean, delay: number): number {
    const { n, duration, position, at, stale, waits, open } = this;
    this.count++;
    this.clear();
    const [before, after, afters] = backward
      ? [this.succFirst, this.predFirst, this.preds]
      : [this.predFirst, this.succFirst, this.succs];
    let makespan = 0;
    let size = 0;
    for (let x = 0; x < n; x++) {
      const i = list[x]!;
      position[i] = x;
      at[i] = 0;
      stale[i] = 1;
      waits[i] = before[i + 1]! - before[i]!;
      if (waits[i] === 0) open[size++] = i;
    }
    while (size > 0) {
      const y = this.choose(size, delay);
      const i = open[y]!;
      const t = at[i]!;
      const end = t + duration[i]!;
      start[i] = t;
      if (end > makespan) makespan = end;
      this.occupy(i, t, end);
      size--;
      for (let z = y; z < size; z++) open[z] = open[z + 1]!;
      for (let z = 0; z < size; z++) {
        const j = open[z]!;
        if (at[j]! < end && at[j]! + duration[j]! > t) stale[j] = 1;
      }
      for (let k = after[i]!, stop = after[i + 1]!; k < stop; k++) {
        const j = afters[k]!;
        if (end > at[j]!) at[j] = end;
        waits[j]!--;
        if (waits[j] !== 0) continue;
        const where = position[j]!;
        let z = size++;
        for (; z > 0 && position[open[z - 1]!]! > where; z--) open[z] = open[z - 1]!;
        open[z] = j;
      }
    }
    this.used = makespan;
    return makespan;
  }

  /** Where among the open activities, which stand in the list's order, the next to be placed is. */
  private choose(size: number, delay: number): number {
    const { at, stale, open } = this;
    let soon = this.horizon;
    if (delay < soon)
      for (let y = 0; y < size; y++) {
        const i = open[y]!;
        if (at[i]! >= soon) continue;
        if (stale[i] === 1) this.settle(i);
        if (at[i]! < soon) soon = at[i]!;
      }
    for (let y = 0; ; y++) {
      const i = open[y]!;
      if (at[i]! > soon + delay) continue;
      if (stale[i] === 1) this.settle(i);
      if (at[i]! <= soon + delay) return y;
    }
  }

  /** Moves the earliest start of an activity to where it fits. */
  private settle(i: number): void {
    const { words, demand, free, guard, at, stale, duration } = this;
    stale[i] = 0;
    let t = at[i]!;
    let until = t + duration[i]!;
    if (words === 1) {
      const need = demand[i]!;
      const g = guard[0]!;
      for (let u = t; u < until; u++)
        if ((((free[u]! | g) - need) & g) !== g) {
          t = u + 1;
          until = t + duration[i]!;
        }
    } else
      for (let u = t; u < until; u++)
        for (let w = 0; w < words; w++)
          if ((((free[u * words + w]! | guard[w]!) - demand[i * words + w]!) & guard[w]!) !== guard[w]!) {
            t = u + 1;
            until = t + duration[i]!;
            break;
          }
    at[i] = t;
  }

  private occupy(i: number, from: number, to: number): void {
    const { words, demand, free } = this;
    if (words === 1) for (let u = from, need = demand[i]!; u < to; u++) free[u]! -= need;
    else
      for (let u = from; u < to; u++)
        for (let w = 0; w < words; w++) free[u * words + w]! -= demand[i * words + w]!;
  }

  private clear(): void {
    const { words, free, full } = this;
    const stop = Math.min(this.horizon, this.used + 1) * words;
    if (words === 1) free.fill(full[0]!, 0, stop);
    else for (let k = 0; k < stop; k++) free[k] = full[k % words]!;
  }

  /** Turns starts counted from the end into starts counted from the beginning, or back. */
  turn(start: Int32Array, makespan: number): void {
    for (let i = 0; i < this.n; i++) start[i] = makespan - start[i]! - this.duration[i]!;
  }

  /** Fills the list with the activities by increasing start; ties keep the order of `ties`. */
  byStart(start: Int32Array, ties: Int32Array, list: Int32Array): void {
    this.sort(start, ties, list, false);
  }

  /** By decreasing end. */
  byEnd(start: Int32Array, ties: Int32Array, list: Int32Array): void {
    this.sort(start, ties, list, true);
  }

  /** Counting sort; stable. */
  private sort(start: Int32Array, ties: Int32Array, list: Int32Array, byEnd: boolean): void {
    const { n, bucket, duration } = this;
    let most = 0;
    for (let i = 0; i < n; i++) most = Math.max(most, start[i]! + duration[i]!);
    bucket.fill(0, 0, most + 2);
    for (let i = 0; i < n; i++) bucket[(byEnd ? most - start[i]! - duration[i]! : start[i]!) + 1]!++;
    for (let t = 1; t <= most + 1; t++) bucket[t]! += bucket[t - 1]!;
    for (let x = 0; x < n; x++) {
      const i = ties[x]!;
      list[bucket[byEnd ? most - start[i]! - duration[i]! : start[i]!]!++] = i;
    }
  }
}

function neighbours(n: number, of: Int32Array, other: Int32Array): [Int32Array, Int32Array] {
  const first = new Int32Array(n + 1);
  for (const i of of) first[i + 1]!++;
  for (let i = 0; i < n; i++) first[i + 1]! += first[i]!;
  const next = first.slice();
  const list = new Int32Array(of.length);
  for (let k = 0; k < of.length; k++) list[next[of[k]!]!++] = other[k]!;
  return [first, list];
}
