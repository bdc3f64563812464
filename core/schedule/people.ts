import { NEVER, type Worker } from "./model.ts";

/** What one person does when: working time, and the tasks already given. Busy times do not overlap. */
export class Agenda {
  private readonly work: Int32Array;
  private readonly shiftEnd: Int32Array;
  private size = 0;
  private from = new Int32Array(64);
  private to = new Int32Array(64);
  /** The task each busy time belongs to. */
  private who = new Int32Array(64);

  constructor(worker: Worker) {
    this.work = worker.work;
    this.shiftEnd = worker.shiftEnd;
  }

  /** Position of the first busy time that ends after t. */
  private after(t: number): number {
    let a = 0;
    let b = this.size;
    while (a < b) {
      const mid = (a + b) >> 1;
      if (this.to[mid]! > t) b = mid;
      else a = mid + 1;
    }
    return a;
  }

  /** Position (even) of the first working interval that ends after t. */
  private workAfter(t: number): number {
    let a = 0;
    let b = this.work.length >> 1;
    while (a < b) {
      const mid = (a + b) >> 1;
      if (this.work[2 * mid + 1]! > t) b = mid;
      else a = mid + 1;
    }
    return a;
  }

  /** End of the busy time that meets [from, to), or -1. */
  meets(from: number, to: number): number {
    const k = this.after(from);
    return k < this.size && this.from[k]! < to ? this.to[k]! : -1;
  }

  /** Last minute given away before t; 0 if none. */
  lastBusy(t: number): number {
    const k = this.after(t - 1);
    return k > 0 ? this.to[k - 1]! : 0;
  }

  /** First busy minute from t on; NEVER if none. */
  nextBusy(t: number): number {
    const k = this.after(t);
    return k < this.size ? this.from[k]! : NEVER;
  }

  /** Earliest start >= t of `minutes` unbroken and free; `anytime` leaves the shifts out of account. */
  solid(t: number, minutes: number, anytime: boolean): number {
    let s = t;
    let w = anytime ? 0 : this.workAfter(s);
    let k = this.after(s);
    for (;;) {
      if (!anytime) {
        while (2 * w < this.work.length && Math.max(s, this.work[2 * w]!) + minutes > this.work[2 * w + 1]!)
          w++;
        if (2 * w >= this.work.length) return NEVER;
        if (this.work[2 * w]! > s) s = this.work[2 * w]!;
      }
      while (k < this.size && this.to[k]! <= s) k++;
      if (k >= this.size || this.from[k]! >= s + minutes) return s;
      s = this.to[k]!;
    }
  }

  /** Position of the working interval (not its array index) that holds or follows t; -1 when none is left. */
  interval(t: number): number {
    const w = this.workAfter(t);
    return 2 * w < this.work.length ? w : -1;
  }

  /** End of the work that `alone` or `whenFree` found last. */
  ended = 0;

  /**
   * Start of work that begins at or after t with nothing else to do, its end in `ended`; -1 when there is no such
   * working time. interrupt 0: unbroken; 1: over breaks; 2: over breaks and shifts.
   */
  alone(t: number, minutes: number, interrupt: 0 | 1 | 2): number {
    let w = this.interval(t);
    while (w >= 0 && w < this.intervals) {
      const start = Math.max(t, this.startOf(w));
      this.ended = start + minutes;
      if (this.ended <= this.endOf(w)) return start;
      if (interrupt > 0) {
        let left = minutes - (this.endOf(w) - start);
        let v = w + 1;
        while (v < this.intervals && (interrupt === 2 || this.shiftOf(v) === this.shiftOf(w))) {
          const here = this.endOf(v) - this.startOf(v);
          if (here >= left) {
            this.ended = this.startOf(v) + left;
            return start;
          }
          left -= here;
          v++;
        }
      }
      w++;
    }
    return -1;
  }

  /** Earliest start at or after t of free time for work that may pause; NEVER when it would end after `most`. */
  whenFree(t: number, minutes: number, interrupt: 0 | 1 | 2, most: number): number {
    for (let s = t; ; ) {
      const from = this.alone(s, minutes, interrupt);
      if (from < 0 || this.ended > most) return NEVER;
      const taken = this.meets(from, this.ended);
      if (taken < 0) return from;
      s = taken;
    }
  }

  startOf(w: number): number {
    return this.work[2 * w]!;
  }

  endOf(w: number): number {
    return this.work[2 * w + 1]!;
  }

  /** End of the shift of working interval w. */
  shiftOf(w: number): number {
    return this.shiftEnd[w]!;
  }

  get intervals(): number {
    return this.work.length >> 1;
  }

  /** Minutes of working time in [from, to). */
  worked(from: number, to: number): number {
    let sum = 0;
    for (let w = this.interval(from); w >= 0 && w < this.intervals && this.startOf(w) < to; w++)
      sum += Math.min(to, this.endOf(w)) - Math.max(from, this.startOf(w));
    return sum;
  }

  /** Gives away what is still free of [from, to); can't be taken back. */
  force(from: number, to: number, who: number): void {
    let at = from;
    for (let k = this.after(from); at < to; k = this.after(at)) {
      const stop = k < this.size ? Math.max(at, Math.min(to, this.from[k]!)) : to;
      const next = k < this.size ? this.to[k]! : to;
      if (stop > at) this.give(at, stop, who);
      at = Math.max(stop, next);
    }
  }

  /** Gives [from, to) away; it is free. */
  give(from: number, to: number, who: number): void {
    if (to <= from) return;
    if (this.size + 1 > this.from.length) {
      this.from = doubled(this.from);
      this.to = doubled(this.to);
      this.who = doubled(this.who);
    }
    const k = this.after(from);
    this.from.copyWithin(k + 1, k, this.size);
    this.to.copyWithin(k + 1, k, this.size);
    this.who.copyWithin(k + 1, k, this.size);
    this.from[k] = from;
    this.to[k] = to;
    this.who[k] = who;
    this.size++;
  }

  /** Whether exactly [from, to) was given to this one. */
  has(from: number, to: number, who: number): boolean {
    if (to <= from) return true;
    const k = this.after(from);
    return k < this.size && this.from[k] === from && this.to[k] === to && this.who[k] === who;
  }

  takeBack(from: number, to: number): void {
    if (to <= from) return;
    let k = this.after(from);
    while (k < this.size && (this.from[k] !== from || this.to[k] !== to)) k++;
    if (k >= this.size) {
      k = 0;
      while (k < this.size && (this.from[k] !== from || this.to[k] !== to)) k++;
    }
    if (k >= this.size) throw new RangeError(`nothing given from ${from} to ${to}`);
    this.from.copyWithin(k, k + 1, this.size);
    this.to.copyWithin(k, k + 1, this.size);
    this.who.copyWithin(k, k + 1, this.size);
    this.size--;
  }

  /** Adds the tasks that are busy in [from, to) to `out`. */
  busy(from: number, to: number, out: number[]): void {
    for (let k = this.after(from); k < this.size && this.from[k]! < to; k++) out.push(this.who[k]!);
  }
}

function doubled(list: Int32Array): Int32Array<ArrayBuffer> {
  const out = new Int32Array(list.length * 2);
  out.set(list);
  return out;
}
