import type { Bounds, Propagator } from "./bounds.ts";

/**
 * Pairs that never run at once, because together they ask for more than some capacity: once one of the two
 * orders has no room, the other is imposed.
 */
export class Pairs implements Propagator {
  due = true;
  private readonly duration: Int32Array;
  private readonly partners: readonly (readonly number[])[];
  private readonly queue: number[] = [];
  private readonly queued: Uint8Array;

  constructor(duration: Int32Array, partners: readonly (readonly number[])[]) {
    this.duration = duration;
    this.partners = partners;
    this.queued = new Uint8Array(partners.length);
    partners.forEach((list, i) => {
      if (list.length > 0) this.touch(2 * i);
    });
  }

  get variables(): number[] {
    return this.partners.flatMap((list, i) => (list.length > 0 ? [i] : []));
  }

  touch(view: number): void {
    const i = view >> 1;
    this.due = true;
    if (this.queued[i] === 1) return;
    this.queued[i] = 1;
    this.queue.push(i);
  }

  reset(): void {
    for (const i of this.queue) this.queued[i] = 0;
    this.queue.length = 0;
    this.due = false;
  }

  propagate(b: Bounds): boolean {
    while (this.queue.length > 0) {
      const i = this.queue.pop()!;
      this.queued[i] = 0;
      for (const j of this.partners[i]!) if (!this.order(b, i, j) || !this.order(b, j, i)) return false;
    }
    return true;
  }

  /** If i can't come before j, it comes after. */
  private order(b: Bounds, i: number, j: number): boolean {
    const { low } = b;
    const { duration } = this;
    const a = low[2 * i]!;
    if (a + duration[i]! <= -low[2 * j + 1]!) return true;
    const because = [2 * i, a, 2 * j + 1, 1 - a - duration[i]!];
    const after = low[2 * j]! + duration[j]!;
    if (after > low[2 * i]! && !b.raise(2 * i, after, [2 * j, low[2 * j]!, ...because])) return false;
    const before = low[2 * i + 1]! + duration[j]!;
    return before <= low[2 * j + 1]! || b.raise(2 * j + 1, before, [2 * i + 1, low[2 * i + 1]!, ...because]);
  }
}
