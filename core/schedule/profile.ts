import { type Equipment, NEVER } from "./model.ts";

/** Free capacity of one resource over time, as a step function by breakpoints. */
export class Profile {
  private readonly d: number;
  private size: number;
  /** time[k] <= t < time[k + 1] has free[k * d .. k * d + d - 1] left. */
  private time: Int32Array;
  private free: Int32Array;

  constructor(e: Equipment) {
    this.d = e.dimensions;
    this.size = e.time.length;
    this.time = new Int32Array(Math.max(32, 2 * this.size));
    this.free = new Int32Array(this.time.length * this.d);
    this.time.set(e.time);
    this.free.set(e.capacity);
  }

  /** Position of the step that holds at t. */
  private find(t: number): number {
    let a = 0;
    let b = this.size - 1;
    while (a < b) {
      const mid = (a + b + 1) >> 1;
      if (this.time[mid]! <= t) a = mid;
      else b = mid - 1;
    }
    return a;
  }

  /**
   * -1 when the amounts fit on [from, to). Otherwise the earliest start that leaves the last step behind which
   * has too little; NEVER when that step has no end.
   */
  blocks(amount: Int32Array, from: number, to: number): number {
    if (to <= from) return -1;
    const { time, free, d, size } = this;
    let last = -1;
    for (let k = this.find(from); k < size && time[k]! < to; k++)
      for (let x = 0; x < amount.length; x++) if (free[k * d + x]! < amount[x]!) last = k;
    if (last < 0) return -1;
    return last + 1 < size ? time[last + 1]! : NEVER;
  }

  /** What is left of one dimension at its tightest on [from, to). */
  least(x: number, from: number, to: number): number {
    let least = NEVER;
    for (let k = this.find(from); k < this.size && this.time[k]! < to; k++)
      least = Math.min(least, this.free[k * this.d + x]!);
    return least;
  }

  /** Takes (sign 1) or gives back (sign -1). */
  take(amount: Int32Array, from: number, to: number, sign: 1 | -1): void {
    if (to <= from) return;
    const a = this.cut(from);
    const b = this.cut(to);
    for (let k = a; k < b; k++)
      for (let x = 0; x < amount.length; x++) this.free[k * this.d + x]! -= sign * amount[x]!;
    this.mend(b);
    this.mend(a);
  }

  /** Makes t a breakpoint; returns its position. */
  private cut(t: number): number {
    const k = this.find(t);
    if (this.time[k] === t) return k;
    if (this.size + 1 > this.time.length) {
      const time = new Int32Array(this.time.length * 2);
      time.set(this.time);
      this.time = time;
      const free = new Int32Array(time.length * this.d);
      free.set(this.free);
      this.free = free;
    }
    const { time, free, d } = this;
    time.copyWithin(k + 2, k + 1, this.size);
    free.copyWithin((k + 2) * d, (k + 1) * d, this.size * d);
    time[k + 1] = t;
    for (let x = 0; x < d; x++) free[(k + 1) * d + x] = free[k * d + x]!;
    this.size++;
    return k + 1;
  }

  /** Drops breakpoint k when nothing changes there. */
  private mend(k: number): void {
    if (k <= 0 || k >= this.size) return;
    const { time, free, d } = this;
    for (let x = 0; x < d; x++) if (free[k * d + x] !== free[(k - 1) * d + x]) return;
    time.copyWithin(k, k + 1, this.size);
    free.copyWithin(k * d, (k + 1) * d, this.size * d);
    this.size--;
  }
}
