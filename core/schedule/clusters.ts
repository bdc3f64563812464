import type { Model } from "./model.ts";
import { Windows } from "./windows.ts";

/** Tasks that a short longest wait ties together: they are placed, moved and taken off as one. */
export interface Clusters {
  /** Tasks of each cluster in the order they are placed. */
  readonly tasks: readonly (readonly number[])[];
  readonly of: Int32Array;
  /** Clusters that a least lag puts before this one. */
  readonly before: readonly (readonly number[])[];
  readonly after: readonly (readonly number[])[];
  /** Earliest start of the first task with nothing placed. */
  readonly earliest: Float64Array;
  /** Room between earliest and latest start, at its tightest in the cluster. */
  readonly room: Float64Array;
}

/** A longest wait ties two tasks when it leaves no more than `tied` minutes of play. */
export function clustersOf(model: Model, tied = 60): Clusters {
  const { n, arcs } = model;
  const windows = new Windows(arcs, model.lo, model.hi, model.hours);
  windows.close();
  const parent = Int32Array.from({ length: n }, (_, i) => i);
  const find = (i: number): number => {
    let at = i;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]!]!;
      at = parent[at]!;
    }
    return at;
  };
  const settled = (i: number) => windows.lo[2 * i] === windows.hi[2 * i];
  const problem = model.problem;
  for (let k = 0; k < arcs.to.length; k++) {
    if (arcs.longest[k] === 0) continue;
    const [a, b] = [arcs.from[k]! >> 1, arcs.to[k]! >> 1];
    if (settled(a) || settled(b)) continue;
    const lag = problem.lags![arcs.lag[k]!]!;
    if (lag.most! - Math.max(lag.least ?? 0, Math.min(0, lag.most!)) <= tied) parent[find(a)] = find(b);
  }
  const rank = ranks(model, windows);
  const order = Array.from({ length: n }, (_, i) => i).sort((a, b) => rank[a]! - rank[b]! || a - b);
  const index = new Map<number, number>();
  const tasks: number[][] = [];
  const of = new Int32Array(n);
  for (const i of order) {
    const root = find(i);
    let c = index.get(root);
    if (c === undefined) {
      c = tasks.length;
      index.set(root, c);
      tasks.push([]);
    }
    tasks[c]!.push(i);
    of[i] = c;
  }
  const before: Set<number>[] = tasks.map(() => new Set());
  const after: Set<number>[] = tasks.map(() => new Set());
  for (let k = 0; k < arcs.to.length; k++) {
    if (arcs.longest[k] === 1) continue;
    const [a, b] = [of[arcs.from[k]! >> 1]!, of[arcs.to[k]! >> 1]!];
    if (a === b || arcs.length[k]! < 0) continue;
    before[b]!.add(a);
    after[a]!.add(b);
  }
  return {
    tasks,
    of,
    before: before.map((s) => [...s]),
    after: after.map((s) => [...s]),
    earliest: Float64Array.from(tasks, (list) => Math.min(...list.map((i) => windows.lo[2 * i]!))),
    room: Float64Array.from(tasks, (list) =>
      Math.min(...list.map((i) => windows.hi[2 * i]! - windows.lo[2 * i]!)),
    ),
  };
}

/** A number per task that grows along least lags: depth in the graph, then earliest start. */
function ranks(model: Model, windows: Windows): Float64Array {
  const { n, arcs } = model;
  const waits = new Int32Array(n);
  const next: number[][] = Array.from({ length: n }, () => []);
  for (let k = 0; k < arcs.to.length; k++) {
    if (arcs.longest[k] === 1 || arcs.length[k]! < 0) continue;
    const [a, b] = [arcs.from[k]! >> 1, arcs.to[k]! >> 1];
    if (a === b) continue;
    next[a]!.push(b);
    waits[b]!++;
  }
  const rank = new Float64Array(n);
  const ready = Array.from({ length: n }, (_, i) => i).filter((i) => waits[i] === 0);
  const key = (i: number) => windows.lo[2 * i]! * 2 + windows.lo[2 * i + 1]!;
  // Plain topological order, earliest first: small heaps are not worth their code here.
  ready.sort((a, b) => key(b) - key(a));
  for (let count = 0; ready.length > 0; count++) {
    const i = ready.pop()!;
    rank[i] = count;
    for (const j of next[i]!)
      if (--waits[j]! === 0) {
        let at = ready.length;
        while (at > 0 && key(ready[at - 1]!) < key(j)) at--;
        ready.splice(at, 0, j);
      }
  }
  // Circles of least lags over negative lengths: by earliest start, behind the rest.
  for (let i = 0; i < n; i++) if (waits[i]! > 0) rank[i] = n + windows.lo[2 * i]!;
  return rank;
}
