import { longestPlan, type Project } from "./project.ts";

/**
 * Serial schedule generation for plain projects, forward and backward, fast: the free capacities of all
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
    this.bucket = new Int32Array(this.horizon + 1);
    [this.predFirst, this.preds] = neighbours(p.n, p.to, p.from);
    [this.succFirst, this.succs] = neighbours(p.n, p.from, p.to);
  }

  /**
   * Earliest starts in the order of the list, which names every activity after its predecessors (backward:
   * after its successors). Returns the makespan. Backward starts count from the end: turn() reads them.
   */
  serial(list: Int32Array, start: Int32Array, backward: boolean): number {
    const { n, duration, words, demand, free, guard } = this;
    this.count++;
    this.clear();
    const first = backward ? this.succFirst : this.predFirst;
    const before = backward ? this.succs : this.preds;
    let makespan = 0;
    const one = words === 1;
    const g0 = guard[0]!;
    for (let x = 0; x < n; x++) {
      const i = list[x]!;
      const d = duration[i]!;
      let t = 0;
      for (let k = first[i]!, stop = first[i + 1]!; k < stop; k++) {
        const j = before[k]!;
        const end = start[j]! + duration[j]!;
        if (end > t) t = end;
      }
      if (d > 0) {
        if (one) {
          const need = demand[i]!;
          let until = t + d;
          for (let u = t; u < until; u++)
            if (((((free[u]! | g0) - need) | 0) & g0) !== g0) {
              t = u + 1;
              until = t + d;
            }
          for (let u = t; u < until; u++) free[u]! -= need;
        } else t = this.wide(i, t, d);
      }
      start[i] = t;
      if (t + d > makespan) makespan = t + d;
    }
    this.used = makespan;
    return makespan;
  }

  private wide(i: number, from: number, d: number): number {
    const { words, demand, free, guard } = this;
    let t = from;
    for (let u = t; u < t + d; u++)
      for (let w = 0; w < words; w++)
        if ((((free[u * words + w]! | guard[w]!) - demand[i * words + w]!) & guard[w]!) !== guard[w]!) {
          t = u + 1;
          break;
        }
    for (let u = t; u < t + d; u++)
      for (let w = 0; w < words; w++) free[u * words + w]! -= demand[i * words + w]!;
    return t;
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
