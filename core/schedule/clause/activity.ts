/** Atoms met in conflicts, the busiest first: what to decide next (VSIDS, Moskewicz et al. 2001). */
export class Activity {
  private readonly ids = new Map<number, number>();
  private readonly span: number;
  readonly variable: number[] = [];
  readonly value: number[] = [];
  private readonly score: number[] = [];
  private readonly heap: number[] = [];
  private readonly place: number[] = [];
  private step = 1;

  /** Values lie from -span to span - 1. */
  constructor(span: number) {
    this.span = span;
  }

  /** Counts an atom on a view (see Bounds); it and its negation are the same "x >= value". */
  bump(view: number, value: number): void {
    const x = view >> 1;
    const v = view & 1 ? 1 - value : value;
    const key = x * 2 * this.span + v + this.span;
    let id = this.ids.get(key);
    if (id === undefined) {
      id = this.variable.length;
      this.ids.set(key, id);
      this.variable.push(x);
      this.value.push(v);
      this.score.push(0);
      this.place.push(-1);
    }
    this.score[id]! += this.step;
    if (this.place[id]! < 0) this.push(id);
    else this.up(this.place[id]!);
    if (this.score[id]! > 1e100) {
      for (let k = 0; k < this.score.length; k++) this.score[k]! *= 1e-100;
      this.step *= 1e-100;
    }
  }

  /** Makes what comes weigh more than what was. */
  decay(): void {
    this.step /= 0.95;
  }

  /** Takes the busiest out; -1 when empty. */
  pop(): number {
    const { heap, place } = this;
    if (heap.length === 0) return -1;
    const id = heap[0]!;
    const last = heap.pop()!;
    place[id] = -1;
    if (heap.length > 0) {
      heap[0] = last;
      place[last] = 0;
      this.down(0);
    }
    return id;
  }

  /** Puts one back. */
  push(id: number): void {
    if (this.place[id]! >= 0) return;
    this.place[id] = this.heap.length;
    this.heap.push(id);
    this.up(this.heap.length - 1);
  }

  private up(at: number): void {
    const { heap, place, score } = this;
    const id = heap[at]!;
    let k = at;
    while (k > 0) {
      const parent = (k - 1) >> 1;
      if (score[heap[parent]!]! >= score[id]!) break;
      heap[k] = heap[parent]!;
      place[heap[k]!] = k;
      k = parent;
    }
    heap[k] = id;
    place[id] = k;
  }

  private down(at: number): void {
    const { heap, place, score } = this;
    const id = heap[at]!;
    let k = at;
    for (;;) {
      let child = 2 * k + 1;
      if (child >= heap.length) break;
      if (child + 1 < heap.length && score[heap[child + 1]!]! > score[heap[child]!]!) child++;
      if (score[heap[child]!]! <= score[id]!) break;
      heap[k] = heap[child]!;
      place[heap[k]!] = k;
      k = child;
    }
    heap[k] = id;
    place[id] = k;
  }
}
