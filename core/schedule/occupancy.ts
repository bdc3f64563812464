import { apart, type Demand, type Equipment } from "./model.ts";

/**
 * What one resource holds, for the rules that compare needs in pairs: exclusive use, loads that go in
 * together, states within tolerance, and the empty minutes a change of state or class asks for.
 */
export class Occupancy {
  private readonly e: Equipment;
  private readonly kinds: number;
  private readonly mirrored: boolean;
  private size = 0;
  private from = new Int32Array(16);
  private to = new Int32Array(16);
  private readonly demand: Demand[] = [];
  /** Positions sorted by `to`; the arrays above are sorted by `from`. */
  private byEnd = new Int32Array(16);
  private readonly before: number[] = [];
  private readonly beforeEmpty: number[] = [];
  private readonly after: number[] = [];
  private readonly afterEmpty: number[] = [];

  constructor(e: Equipment, kinds: number, mirrored: boolean) {
    this.e = e;
    this.kinds = kinds;
    this.mirrored = mirrored;
  }

  /** Empty minutes wanted between a and a b that follows; 0 when they may share. */
  gap(a: Demand, b: Demand): number {
    const { e } = this;
    let wanted = 0;
    const difference = apart(e, a, b);
    if (difference > 0) wanted = Math.max(e.leastMinutes, Math.ceil(e.minutesPerUnit * difference - 1e-9));
    if (e.setups.length > 0 && a.kind >= 0 && b.kind >= 0)
      wanted = Math.max(wanted, e.setups[a.kind * this.kinds + b.kind]!);
    return wanted;
  }

  /** Whether two needs can stand where they are, as far as these two alone are concerned. */
  beside(a: Demand, aFrom: number, aTo: number, b: Demand, bFrom: number, bTo: number): boolean {
    if (aFrom < bTo && bFrom < aTo) return this.mayOverlap(a, aFrom, aTo, b, bFrom, bTo);
    return aTo <= bFrom ? bFrom - aTo >= this.gap(a, b) : aFrom - bTo >= this.gap(b, a);
  }

  private mayOverlap(a: Demand, aFrom: number, aTo: number, b: Demand, bFrom: number, bTo: number): boolean {
    const kept = a.same >= 0 && a.same === b.same;
    if (!kept) {
      if (a.exclusive || b.exclusive) return false;
      // A load goes in together in real time; in the mirror that is the end.
      if (
        (a.batch >= 0 || b.batch >= 0) &&
        (a.batch !== b.batch || (this.mirrored ? aTo !== bTo : aFrom !== bFrom))
      )
        return false;
    }
    if (apart(this.e, a, b) > 0) return false;
    return this.e.setups.length === 0 || (this.gap(a, b) === 0 && this.gap(b, a) === 0);
  }

  /** -1 when the need fits on [from, to); otherwise a start before which it can't. */
  blocks(x: Demand, from: number, to: number): number {
    if (to <= from || this.size === 0) return -1;
    let next = -1;
    for (let k = 0; k < this.size && this.from[k]! < to; k++)
      if (this.to[k]! > from && !this.mayOverlap(this.demand[k]!, this.from[k]!, this.to[k]!, x, from, to)) {
        // A load may only be joined at its own start (mirrored: its own end), or come after it.
        const other = this.demand[k]!;
        const joined = this.mirrored ? this.to[k]! - (to - from) : this.from[k]!;
        const after = other.batch >= 0 && other.batch === x.batch && joined > from ? joined : this.to[k]!;
        next = Math.max(next, after);
      }
    if (next >= 0 || this.e.longestGap === 0) return next;
    this.look(from, to);
    for (let i = 0; i < this.before.length; i++) {
      const missing = this.gap(this.demand[this.before[i]!]!, x) - this.beforeEmpty[i]!;
      if (missing > 0 && this.to[this.before[i]!]! <= from) next = Math.max(next, from + missing);
    }
    for (let j = 0; j < this.after.length; j++) {
      const k = this.after[j]!;
      const d = this.demand[k]!;
      if (this.from[k]! >= to && this.gap(x, d) > this.afterEmpty[j]!)
        next = Math.max(next, this.to[k]! + this.gap(d, x));
    }
    if (next >= 0) return next;
    for (let i = 0; i < this.before.length; i++)
      for (let j = 0; j < this.after.length; j++) {
        const [a, b] = [this.before[i]!, this.after[j]!];
        if (this.to[a]! > this.from[b]!) continue;
        const missing =
          this.gap(this.demand[a]!, this.demand[b]!) - this.beforeEmpty[i]! - this.afterEmpty[j]!;
        if (missing > 0) next = Math.max(next, from + missing + this.afterEmpty[j]!);
      }
    return next;
  }

  /** Neighbours of [from, to) that a change could still concern, with the empty minutes between. */
  private look(from: number, to: number): void {
    const { before, beforeEmpty, after, afterEmpty, e } = this;
    before.length = beforeEmpty.length = after.length = afterEmpty.length = 0;
    let edge = from;
    let empty = 0;
    for (let p = this.size - 1; p >= 0; p--) {
      const k = this.byEnd[p]!;
      const gap = empty + Math.max(0, edge - this.to[k]!);
      if (gap >= e.longestGap) break;
      if (this.to[k]! <= to) {
        before.push(k);
        beforeEmpty.push(this.to[k]! <= from ? gap : 0);
      }
      if (this.from[k]! < edge) {
        empty = gap;
        edge = this.from[k]!;
      }
    }
    edge = to;
    empty = 0;
    for (let k = 0; k < this.size; k++) {
      const gap = empty + Math.max(0, this.from[k]! - edge);
      if (gap >= e.longestGap) break;
      if (this.from[k]! >= from) {
        after.push(k);
        afterEmpty.push(this.from[k]! >= to ? gap : 0);
      }
      if (this.to[k]! > edge) {
        empty = gap;
        edge = this.to[k]!;
      }
    }
  }

  /** How well x sits beside its neighbours: changes of state it would add (0, 1 or 2). */
  changesAround(x: Demand, from: number): number {
    let before = -1;
    let after = -1;
    for (let k = 0; k < this.size; k++) {
      if (Number.isNaN(this.demand[k]!.set)) continue;
      if (this.from[k]! <= from) before = k;
      else if (after < 0) after = k;
    }
    const differs = (k: number) => (apart(this.e, this.demand[k]!, x) > 0 ? 1 : 0);
    return (before < 0 ? 1 : differs(before)) + (after < 0 ? 0 : differs(after));
  }

  add(x: Demand, from: number, to: number): void {
    if (to <= from) return;
    if (this.size === this.from.length) {
      this.from = doubled(this.from);
      this.to = doubled(this.to);
      this.byEnd = doubled(this.byEnd);
    }
    let k = this.size;
    while (k > 0 && this.from[k - 1]! > from) {
      this.from[k] = this.from[k - 1]!;
      this.to[k] = this.to[k - 1]!;
      this.demand[k] = this.demand[k - 1]!;
      k--;
    }
    this.from[k] = from;
    this.to[k] = to;
    this.demand[k] = x;
    this.size++;
    this.sortByEnd();
  }

  remove(x: Demand, from: number, to: number): void {
    if (to <= from) return;
    let k = 0;
    while (k < this.size && (this.demand[k] !== x || this.from[k] !== from || this.to[k] !== to)) k++;
    if (k === this.size) throw new RangeError(`nothing held from ${from} to ${to}`);
    this.from.copyWithin(k, k + 1, this.size);
    this.to.copyWithin(k, k + 1, this.size);
    this.demand.splice(k, 1);
    this.size--;
    this.sortByEnd();
  }

  /** Nearly sorted already when the positions follow `from`: insertion sort. */
  private sortByEnd(): void {
    const { byEnd, to } = this;
    for (let p = 0; p < this.size; p++) {
      let q = p;
      while (q > 0 && to[byEnd[q - 1]!]! > to[p]!) {
        byEnd[q] = byEnd[q - 1]!;
        q--;
      }
      byEnd[q] = p;
    }
  }
}

function doubled(list: Int32Array): Int32Array<ArrayBuffer> {
  const out = new Int32Array(list.length * 2);
  out.set(list);
  return out;
}
