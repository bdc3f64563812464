/**
 * A solver on bounds of whole-number variables that learns from conflicts: lazy clause generation (Ohrimenko,
 * Stuckey and Codish 2009), kept without Boolean variables. Every variable x has two views: 2x stands for x,
 * 2x + 1 for -x; all that is known is a lower limit for each view. An atom (view, value) says "view >= value";
 * its negation is (view ^ 1, 1 - value). Clauses are lists of atoms of which one must hold.
 */
export class Bounds {
  /** Lower limit of each view: low[2x] <= x <= -low[2x + 1]. */
  readonly low: Int32Array;
  readonly views: number;
  /** Atoms whose holding together is a conflict, after propagation has failed: view, value, view, value ... */
  readonly clash: number[] = [];
  conflicts = 0;
  private readonly root: Int32Array;
  // The trail: what was raised, to what, from what, the entry before of the same view, level, and why.
  private trailView = new Int32Array(4096);
  private trailValue = new Int32Array(4096);
  private trailOld = new Int32Array(4096);
  private trailBefore = new Int32Array(4096);
  private trailLevel = new Int32Array(4096);
  private why = new Int32Array(4096);
  private whyA = new Int32Array(4096);
  private whyB = new Int32Array(4096);
  private length = 0;
  private head = 0;
  private readonly last: Int32Array;
  private readonly levels: number[] = [];
  private readonly noteMarks: number[] = [];
  /** Explanations written when they were found: view, value, view, value ... */
  private notes = new Int32Array(1 << 14);
  private notesLength = 0;
  // Arcs between views: to >= from + length.
  private readonly arcTo: number[][];
  private readonly arcLength: number[][];
  private readonly listeners: Propagator[][];
  private readonly propagators: Propagator[] = [];
  // Clauses: size, then view and value of each atom; the first two are watched.
  private clauses = new Int32Array(1 << 16);
  private clausesLength = 0;
  private learnt: number[] = [];
  private activityOf = new Map<number, number>();
  private clauseStep = 1;
  private readonly watchClause: number[][];
  private readonly watchValue: number[][];
  // Conflict analysis.
  private readonly stamp: Int32Array;
  private readonly need: Int32Array;
  private readonly counted: Uint8Array;
  private round = 0;
  private open = 0;
  private levelStart = 0;
  private readonly seen: number[] = [];
  private readonly reason: number[] = [];
  /** Told about every atom met while a conflict is worked out. */
  onSeen: ((view: number, value: number) => void) | null = null;

  constructor(least: ArrayLike<number>, most: ArrayLike<number>) {
    this.views = 2 * least.length;
    this.low = new Int32Array(this.views);
    for (let x = 0; x < least.length; x++) {
      this.low[2 * x] = least[x]!;
      this.low[2 * x + 1] = -most[x]!;
    }
    this.root = this.low.slice();
    this.last = new Int32Array(this.views).fill(-1);
    const lists = <T>(): T[][] => Array.from({ length: this.views }, () => []);
    this.arcTo = lists();
    this.arcLength = lists();
    this.listeners = lists();
    this.watchClause = lists();
    this.watchValue = lists();
    this.stamp = new Int32Array(this.views);
    this.need = new Int32Array(this.views);
    this.counted = new Uint8Array(this.views);
  }

  /** x[j] >= x[i] + length. */
  arc(i: number, j: number, length: number): void {
    this.arcTo[2 * i]!.push(2 * j);
    this.arcLength[2 * i]!.push(length);
    this.arcTo[2 * j + 1]!.push(2 * i + 1);
    this.arcLength[2 * j + 1]!.push(length);
  }

  /** Lets a propagator hear about these variables. */
  listen(p: Propagator, variables: Iterable<number>): void {
    this.propagators.push(p);
    for (const x of variables) {
      this.listeners[2 * x]!.push(p);
      this.listeners[2 * x + 1]!.push(p);
    }
  }

  get level(): number {
    return this.levels.length;
  }

  min(x: number): number {
    return this.low[2 * x]!;
  }

  max(x: number): number {
    return -this.low[2 * x + 1]!;
  }

  /** A new level that begins with this atom, which must be open. */
  decide(view: number, value: number): void {
    this.levels.push(this.length);
    this.noteMarks.push(this.notesLength);
    this.write(view, value, DECIDED, 0, 0);
  }

  /** Raises a view because of the atoms collected with note(); false on a clash. */
  raise(view: number, value: number, atoms: readonly number[]): boolean {
    if (value <= this.low[view]!) return true;
    if (this.notesLength + atoms.length > this.notes.length) this.notes = doubled(this.notes, atoms.length);
    const at = this.notesLength;
    for (const a of atoms) this.notes[this.notesLength++] = a;
    return this.enqueue(view, value, NOTED, at, atoms.length);
  }

  /** Reports that these atoms can't hold together. */
  fail(atoms: readonly number[]): false {
    this.clash.length = 0;
    for (const a of atoms) this.clash.push(a);
    return false;
  }

  /** Raises a view at the root, for good; false when nothing is left. */
  settle(view: number, value: number): boolean {
    if (value <= this.low[view]!) return true;
    if (value > -this.low[view ^ 1]!) return false;
    this.write(view, value, DECIDED, 0, 0);
    return true;
  }

  private enqueue(view: number, value: number, why: number, a: number, b: number): boolean {
    if (value <= this.low[view]!) return true;
    if (value > -this.low[view ^ 1]!) {
      this.reason.length = 0;
      this.explain(why, a, b, value);
      this.clash.length = 0;
      for (const x of this.reason) this.clash.push(x);
      this.clash.push(view ^ 1, 1 - value);
      return false;
    }
    this.write(view, value, why, a, b);
    return true;
  }

  private write(view: number, value: number, why: number, a: number, b: number): void {
    const t = this.length++;
    if (t === this.trailView.length) this.growTrail();
    this.trailView[t] = view;
    this.trailValue[t] = value;
    this.trailOld[t] = this.low[view]!;
    this.trailBefore[t] = this.last[view]!;
    this.trailLevel[t] = this.levels.length;
    this.why[t] = why;
    this.whyA[t] = a;
    this.whyB[t] = b;
    this.last[view] = t;
    this.low[view] = value;
  }

  private growTrail(): void {
    for (const key of [
      "trailView",
      "trailValue",
      "trailOld",
      "trailBefore",
      "trailLevel",
      "why",
      "whyA",
      "whyB",
    ] as const)
      this[key] = doubled(this[key], 0);
  }

  /** Appends to `reason` the atoms that raised a view to the value. */
  private explain(why: number, a: number, b: number, value: number): void {
    const { reason } = this;
    if (why === ARC) reason.push(a, value - b);
    else if (why === NOTED) for (let k = a; k < a + b; k++) reason.push(this.notes[k]!);
    else if (why === CLAUSE) {
      const { clauses } = this;
      // The first atom is the one that followed.
      for (let k = 1, at = a + 3; k < clauses[a]!; k++, at += 2)
        reason.push(clauses[at]! ^ 1, 1 - clauses[at + 1]!);
    }
  }

  /** Draws all consequences; false on a clash, which then stands in `clash`. */
  propagate(): boolean {
    const { low } = this;
    for (;;) {
      while (this.head < this.length) {
        const view = this.trailView[this.head++]!;
        const value = low[view]!;
        if (this.watchClause[view]!.length > 0 && !this.visitClauses(view, value)) return this.stopped();
        const to = this.arcTo[view]!;
        const length = this.arcLength[view]!;
        for (let k = 0; k < to.length; k++)
          if (
            value + length[k]! > low[to[k]!]! &&
            !this.enqueue(to[k]!, value + length[k]!, ARC, view, length[k]!)
          )
            return this.stopped();
        for (const p of this.listeners[view]!) p.touch(view);
      }
      let next: Propagator | null = null;
      for (const p of this.propagators)
        if (p.due) {
          next = p;
          break;
        }
      if (!next) return true;
      next.due = false;
      if (!next.propagate(this)) return this.stopped();
    }
  }

  private stopped(): false {
    this.head = this.length;
    for (const p of this.propagators) p.reset();
    return false;
  }

  private visitClauses(view: number, value: number): boolean {
    const { clauses, low } = this;
    const refs = this.watchClause[view]!;
    const limits = this.watchValue[view]!;
    let kept = 0;
    let x = 0;
    let ok = true;
    for (; x < refs.length; x++) {
      const c = refs[x]!;
      const limit = limits[x]!;
      if (limit > value) {
        refs[kept] = c;
        limits[kept++] = limit;
        continue;
      }
      // The watched atom is false: bring it to the second place.
      if (clauses[c + 1] === (view ^ 1) && clauses[c + 2] === 1 - limit) this.swap(c, 0, 1);
      const v0 = clauses[c + 1]!;
      const n0 = clauses[c + 2]!;
      if (low[v0]! >= n0) {
        refs[kept] = c;
        limits[kept++] = limit;
        continue;
      }
      let found = false;
      for (let k = 2, at = c + 5; k < clauses[c]!; k++, at += 2)
        if (low[clauses[at]! ^ 1]! < 1 - clauses[at + 1]!) {
          this.swap(c, 1, k);
          this.watch(c, 1);
          found = true;
          break;
        }
      if (found) continue;
      refs[kept] = c;
      limits[kept++] = limit;
      if (this.enqueue(v0, n0, CLAUSE, c, 0)) continue;
      ok = false;
      x++;
      break;
    }
    for (; x < refs.length; x++) {
      refs[kept] = refs[x]!;
      limits[kept++] = limits[x]!;
    }
    refs.length = kept;
    limits.length = kept;
    return ok;
  }

  private swap(c: number, a: number, b: number): void {
    const { clauses } = this;
    const [i, j] = [c + 1 + 2 * a, c + 1 + 2 * b];
    const [view, value] = [clauses[i]!, clauses[i + 1]!];
    clauses[i] = clauses[j]!;
    clauses[i + 1] = clauses[j + 1]!;
    clauses[j] = view;
    clauses[j + 1] = value;
  }

  private watch(c: number, place: number): void {
    const view = this.clauses[c + 1 + 2 * place]! ^ 1;
    this.watchClause[view]!.push(c);
    this.watchValue[view]!.push(1 - this.clauses[c + 2 + 2 * place]!);
  }

  /** Back to a level; what was known there stays. */
  backTo(level: number): void {
    if (this.levels.length <= level) return;
    const to = this.levels[level]!;
    while (this.length > to) {
      const t = --this.length;
      const view = this.trailView[t]!;
      this.low[view] = this.trailOld[t]!;
      this.last[view] = this.trailBefore[t]!;
    }
    this.head = to;
    this.notesLength = this.noteMarks[level]!;
    this.levels.length = level;
    this.noteMarks.length = level;
    for (const p of this.propagators) p.reset();
  }

  /**
   * Learns from the clash: a clause with one atom of the conflict's level (first unique implication point),
   * goes back to where that atom follows, and writes it. False when the clash holds at the root: no solution.
   */
  learn(): boolean {
    this.conflicts++;
    const { clash } = this;
    let top = 0;
    for (let k = 0; k < clash.length; k += 2) top = Math.max(top, this.levelOf(clash[k]!, clash[k + 1]!));
    if (top === 0) return false;
    this.backAbove(top);
    this.round++;
    this.open = 0;
    this.seen.length = 0;
    this.levelStart = this.levels[top - 1]!;
    for (let k = 0; k < clash.length; k += 2) this.want(clash[k]!, clash[k + 1]!);
    let t = this.length - 1;
    for (; ; t--) {
      const view = this.trailView[t]!;
      if (
        this.stamp[view] !== this.round ||
        this.counted[view] === 0 ||
        this.need[view]! <= this.trailOld[t]!
      )
        continue;
      if (this.open === 1) break;
      this.open--;
      this.counted[view] = 0;
      const value = this.need[view]!;
      this.need[view] = NOTHING;
      this.reason.length = 0;
      this.explain(this.why[t]!, this.whyA[t]!, this.whyB[t]!, value);
      for (let k = 0; k < this.reason.length; k += 2) this.want(this.reason[k]!, this.reason[k + 1]!);
    }
    const uip = this.trailView[t]!;
    const value = this.need[uip]!;
    return this.assert(uip, value);
  }

  /** Cuts the trail above a level without touching that level. */
  private backAbove(level: number): void {
    if (this.levels.length > level) this.backTo(level);
  }

  private levelOf(view: number, value: number): number {
    const t = this.entryOf(view, value);
    return t < 0 ? 0 : this.trailLevel[t]!;
  }

  /** The trail entry that first made the atom hold; -1 when it held before the trail begins. */
  private entryOf(view: number, value: number): number {
    let t = this.last[view]!;
    while (t >= 0 && this.trailOld[t]! >= value) t = this.trailBefore[t]!;
    return t;
  }

  private want(view: number, value: number): void {
    if (value <= this.root[view]!) return;
    if (this.stamp[view] !== this.round) {
      this.stamp[view] = this.round;
      this.need[view] = NOTHING;
      this.counted[view] = 0;
      this.seen.push(view);
    }
    if (this.need[view]! >= value) return;
    this.need[view] = value;
    this.onSeen?.(view, value);
    if (this.counted[view] === 0 && this.entryOf(view, value) >= this.levelStart) {
      this.counted[view] = 1;
      this.open++;
    }
  }

  private assert(uip: number, value: number): boolean {
    let back = 0;
    let deepest = -1;
    const atoms: number[] = [uip ^ 1, 1 - value];
    for (const view of this.seen) {
      if (view === uip || this.need[view] === NOTHING) continue;
      const level = this.levelOf(view, this.need[view]!);
      if (level === 0) continue;
      if (level > back) {
        back = level;
        deepest = atoms.length;
      }
      atoms.push(view ^ 1, 1 - this.need[view]!);
    }
    // The view of the decision point may be wanted at a lower value by an earlier level too: implied, left out.
    this.backTo(back);
    if (atoms.length === 2) return this.settle(uip ^ 1, 1 - value);
    const [v1, n1] = [atoms[deepest]!, atoms[deepest + 1]!];
    atoms[deepest] = atoms[2]!;
    atoms[deepest + 1] = atoms[3]!;
    atoms[2] = v1;
    atoms[3] = n1;
    const c = this.store(atoms);
    this.learnt.push(c);
    this.activityOf.set(c, this.clauseStep);
    this.clauseStep++;
    return this.enqueue(uip ^ 1, 1 - value, CLAUSE, c, 0);
  }

  private store(atoms: readonly number[]): number {
    const c = this.clausesLength;
    while (c + 1 + atoms.length > this.clauses.length) this.clauses = doubled(this.clauses, 0);
    this.clauses[c] = atoms.length >> 1;
    for (let k = 0; k < atoms.length; k++) this.clauses[c + 1 + k] = atoms[k]!;
    this.clausesLength = c + 1 + atoms.length;
    this.watch(c, 0);
    this.watch(c, 1);
    return c;
  }

  get clauseCount(): number {
    return this.learnt.length;
  }

  /** At the root: keeps the short and the recent half of the learnt clauses, drops what always holds. */
  tidy(): void {
    for (let view = 0; view < this.views; view++) this.root[view] = this.low[view]!;
    this.length = 0;
    this.head = 0;
    this.notesLength = 0;
    this.last.fill(-1);
    const { clauses } = this;
    const keep = this.learnt
      .map((c) => ({ c, size: clauses[c]!, age: this.activityOf.get(c)! }))
      .sort((a, b) => a.size - b.size || b.age - a.age);
    const half = new Set<number>();
    const recent = this.clauseStep - Math.max(500, this.learnt.length / 3);
    keep.forEach((x, k) => {
      if (k < keep.length / 2 || x.age > recent) half.add(x.c);
    });
    const old = this.clauses;
    this.clauses = new Int32Array(old.length);
    this.clausesLength = 0;
    for (const list of [...this.watchClause, ...this.watchValue]) list.length = 0;
    const ages = this.activityOf;
    this.activityOf = new Map();
    const learnt = this.learnt;
    this.learnt = [];
    for (const c of learnt) {
      if (!half.has(c)) continue;
      const atoms: number[] = [];
      let holds = false;
      for (let k = 0, at = c + 1; k < old[c]!; k++, at += 2) {
        if (this.low[old[at]!]! >= old[at + 1]!) holds = true;
        // An atom false at the root is of no more use.
        if (this.low[old[at]! ^ 1]! < 1 - old[at + 1]!) atoms.push(old[at]!, old[at + 1]!);
      }
      if (holds || atoms.length < 4) continue;
      const at = this.store(atoms);
      this.learnt.push(at);
      this.activityOf.set(at, ages.get(c)!);
    }
  }
}

/** Something that raises views by rules of its own. */
export interface Propagator {
  /** Set when it should run. */
  due: boolean;
  /** A view it listens to has been raised. */
  touch(view: number): void;
  /** Forgets what it was told since it ran. */
  reset(): void;
  /** Raises what follows; false on a clash. */
  propagate(b: Bounds): boolean;
}

const DECIDED = 0;
const ARC = 1;
const NOTED = 2;
const CLAUSE = 3;
const NOTHING = -0x40000000;

function doubled(list: Int32Array, extra: number): Int32Array<ArrayBuffer> {
  const out = new Int32Array(2 * list.length + extra);
  out.set(list);
  return out;
}
