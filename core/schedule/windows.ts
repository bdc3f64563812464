import { type Hours, snapDown, snapUp } from "./hours.ts";
import { type Arcs, NEVER } from "./model.ts";

/** Figures noted for each change. */
const STRIDE = 5;

/**
 * Earliest and latest minute of every moment, kept closed under the arcs (Bellman-Ford over what changed) and
 * moved on to minutes that the shifts allow. Every change is written down, so that a try can be taken back.
 */
export class Windows {
  readonly lo: Int32Array;
  readonly hi: Int32Array;
  /** 1 while the moment is placed: its minute no longer moves. */
  readonly placed: Uint8Array;
  /** The arc by which hi got its value, -1 for a date or a placement. */
  readonly why: Int32Array;
  /** The arc by which lo got its value, -1 for a date or a placement. */
  readonly because: Int32Array;
  /** The moment at which the last refusal showed, -1 if none. */
  clash = -1;
  /** How often a window was moved. */
  moves = 0;
  private readonly arcs: Arcs;
  private readonly ignoreLongest: boolean;
  private readonly hours: Hours | null;
  private readonly queue: Int32Array;
  private readonly queued: Uint8Array;
  private trail = new Int32Array(1024);
  private trailLength = 0;

  /** `hours`: null leaves the shifts out of account. */
  constructor(arcs: Arcs, lo: Int32Array, hi: Int32Array, hours: Hours | null = null, ignoreLongest = false) {
    this.arcs = arcs;
    this.hours = hours;
    this.ignoreLongest = ignoreLongest;
    this.lo = lo.slice();
    this.hi = hi.slice();
    this.placed = new Uint8Array(lo.length);
    this.why = new Int32Array(lo.length).fill(-1);
    this.because = new Int32Array(lo.length).fill(-1);
    this.queue = new Int32Array(lo.length + 1);
    this.queued = new Uint8Array(lo.length);
  }

  /** The moment whose date or placement sets the latest minute of m. */
  limiter(m: number): number {
    let at = m;
    for (let guard = 0; guard < this.lo.length && this.why[at]! >= 0; guard++)
      at = this.arcs.to[this.why[at]!]!;
    return at;
  }

  /** The moment whose date or placement sets the earliest minute of m. */
  holder(m: number): number {
    let at = m;
    for (let guard = 0; guard < this.lo.length && this.because[at]! >= 0; guard++)
      at = this.arcs.from[this.because[at]!]!;
    return at;
  }

  /** Closes the windows from the dates; false when they cannot all be kept (see `clash`). */
  close(): boolean {
    const { lo, hi } = this;
    let size = 0;
    for (let m = 0; m < lo.length; m++) {
      lo[m] = this.up(m, lo[m]!);
      hi[m] = this.down(m, hi[m]!);
      if (lo[m]! > hi[m]!) {
        this.clash = m;
        return false;
      }
      this.push(m, size++);
    }
    return this.run(size);
  }

  private up(m: number, t: number): number {
    const minutes = this.hours?.[m];
    return minutes ? snapUp(minutes, t, NEVER) : t;
  }

  private down(m: number, t: number): number {
    const minutes = this.hours?.[m];
    return minutes ? snapDown(minutes, t) : t;
  }

  mark(): number {
    return this.trailLength;
  }

  /** Takes back everything since the mark, placements included. */
  undo(mark: number): void {
    while (this.trailLength > mark) {
      this.trailLength -= STRIDE;
      const m = this.trail[this.trailLength]!;
      if (m < 0) this.placed[-m - 1] = 0;
      else {
        this.lo[m] = this.trail[this.trailLength + 1]!;
        this.hi[m] = this.trail[this.trailLength + 2]!;
        this.why[m] = this.trail[this.trailLength + 3]!;
        this.because[m] = this.trail[this.trailLength + 4]!;
      }
    }
  }

  /** Moments whose windows changed since the mark, some of them more than once. */
  changed(mark: number, act: (moment: number) => void): void {
    for (let t = mark; t < this.trailLength; t += STRIDE) if (this.trail[t]! >= 0) act(this.trail[t]!);
  }

  /** Forgets how it came here: no undo beyond this point. */
  commit(): void {
    this.trailLength = 0;
  }

  /**
   * Raises the earliest minute of m; false when that can't be. After `most` changes the rest of the consequences,
   * those farthest away, are not drawn.
   */
  raise(m: number, wanted: number, most = Number.POSITIVE_INFINITY): boolean {
    const to = this.up(m, wanted);
    if (to <= this.lo[m]!) return true;
    if (to > this.hi[m]! || this.placed[m] === 1) {
      this.clash = m;
      return false;
    }
    this.note(m);
    this.lo[m] = to;
    this.because[m] = -1;
    this.push(m, 0);
    return this.run(1, false, this.trailLength + most * STRIDE);
  }

  /**
   * Places task i from start to end and draws the consequences, `most` of them at most; false (and to be undone)
   * when impossible.
   */
  place(i: number, start: number, end: number, most = Number.POSITIVE_INFINITY): boolean {
    const s = 2 * i;
    const e = s + 1;
    if (start < this.lo[s]! || start > this.hi[s]! || end < this.lo[e]! || end > this.hi[e]!) {
      this.clash = s;
      return false;
    }
    this.fix(s, start);
    this.fix(e, end);
    let size = 0;
    this.push(s, size++);
    this.push(e, size++);
    return this.run(size, false, this.trailLength + most * STRIDE);
  }

  /** Places without asking: for what has happened, and for a best attempt that breaks rules. */
  force(i: number, start: number, end: number): void {
    this.fix(2 * i, start);
    this.fix(2 * i + 1, end);
  }

  /** Back to what the dates alone leave to some moments. */
  clear(moments: readonly number[], lo: Int32Array, hi: Int32Array): void {
    for (const m of moments) {
      this.lo[m] = lo[m]!;
      this.hi[m] = hi[m]!;
      this.placed[m] = 0;
      this.why[m] = -1;
      this.because[m] = -1;
    }
  }

  /** Puts a moment down, whatever its window says. */
  fix(m: number, at: number): void {
    this.note(m);
    this.lo[m] = at;
    this.hi[m] = at;
    this.why[m] = -1;
    this.because[m] = -1;
    this.grow();
    this.trail[this.trailLength] = -m - 1;
    this.trailLength += STRIDE;
    this.placed[m] = 1;
  }

  /** Draws the consequences of those of the moments that are placed, leaving clashes between placed ones alone. */
  spread(moments: readonly number[]): void {
    let size = 0;
    for (const m of moments) if (this.queued[m] === 0 && this.placed[m] === 1) this.push(m, size++);
    this.run(size, true);
  }

  private grow(): void {
    if (this.trailLength + STRIDE > this.trail.length) {
      const bigger = new Int32Array(this.trail.length * 2);
      bigger.set(this.trail);
      this.trail = bigger;
    }
  }

  private note(m: number): void {
    this.grow();
    this.moves++;
    const t = this.trailLength;
    this.trail[t] = m;
    this.trail[t + 1] = this.lo[m]!;
    this.trail[t + 2] = this.hi[m]!;
    this.trail[t + 3] = this.why[m]!;
    this.trail[t + 4] = this.because[m]!;
    this.trailLength = t + STRIDE;
  }

  private push(m: number, at: number): void {
    this.queue[at] = m;
    this.queued[m] = 1;
  }

  private run(size: number, lenient = false, trailMost = Number.POSITIVE_INFINITY): boolean {
    const { arcs, lo, hi, queue, queued, placed } = this;
    const cap = queue.length;
    let head = 0;
    let tail = size % cap;
    let ok = true;
    while (head !== tail && this.trailLength < trailMost) {
      const m = queue[head]!;
      head = head + 1 === cap ? 0 : head + 1;
      queued[m] = 0;
      const least = lo[m]!;
      for (let k = arcs.first[m]!, stop = arcs.first[m + 1]!; k < stop; k++) {
        if (this.ignoreLongest && arcs.longest[k] === 1) continue;
        const to = arcs.to[k]!;
        let value = least + arcs.length[k]!;
        if (value <= lo[to]!) continue;
        if (placed[to] === 0) value = this.up(to, value);
        if (placed[to] === 1 || value > hi[to]!) {
          if (lenient) continue;
          this.clash = to;
          ok = false;
          break;
        }
        this.note(to);
        lo[to] = value;
        this.because[to] = k;
        if (queued[to] === 0) {
          queue[tail] = to;
          queued[to] = 1;
          tail = tail + 1 === cap ? 0 : tail + 1;
        }
      }
      if (!ok) break;
      const most = hi[m]!;
      for (let p = arcs.firstIn[m]!, stop = arcs.firstIn[m + 1]!; p < stop; p++) {
        const k = arcs.into[p]!;
        if (this.ignoreLongest && arcs.longest[k] === 1) continue;
        const from = arcs.from[k]!;
        let value = most - arcs.length[k]!;
        if (value >= hi[from]!) continue;
        if (placed[from] === 0) value = this.down(from, value);
        if (placed[from] === 1 || value < lo[from]!) {
          if (lenient) continue;
          this.clash = from;
          ok = false;
          break;
        }
        this.note(from);
        hi[from] = value;
        this.why[from] = k;
        if (queued[from] === 0) {
          queue[tail] = from;
          queued[from] = 1;
          tail = tail + 1 === cap ? 0 : tail + 1;
        }
      }
      if (!ok) break;
    }
    while (head !== tail) {
      queued[queue[head]!] = 0;
      head = head + 1 === cap ? 0 : head + 1;
    }
    return ok;
  }
}
