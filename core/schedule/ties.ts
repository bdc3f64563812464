import type { Arcs } from "./model.ts";

/**
 * Which moments move each other: those that arcs join by way of moments that can still move. A moment whose date
 * is fixed passes nothing on, so the chains that end at one service stay apart.
 */
export interface Ties {
  /** Moments to draw anew when these tasks were taken off or put down. */
  around(tasks: Iterable<number>): readonly number[];
  /** Every moment. */
  readonly all: readonly number[];
}

/** `sound`: `lo` and `hi` are closed under the arcs; where they could not be, everything is tied to everything. */
export function tiesOf(arcs: Arcs, lo: Int32Array, hi: Int32Array, sound: boolean): Ties {
  const count = lo.length;
  const all = Array.from({ length: count }, (_, m) => m);
  if (!sound) return { all, around: () => all };
  const fixed = (m: number) => lo[m] === hi[m];
  const group = new Int32Array(count).fill(-1);
  const groups: number[][] = [];
  for (let first = 0; first < count; first++) {
    if (group[first]! >= 0 || fixed(first)) continue;
    const g = groups.length;
    const list = [first];
    group[first] = g;
    const edge = new Set<number>();
    const meet = (m: number) => {
      if (fixed(m)) edge.add(m);
      else if (group[m]! < 0) {
        group[m] = g;
        list.push(m);
      }
    };
    for (let x = 0; x < list.length; x++) {
      const m = list[x]!;
      for (let k = arcs.first[m]!; k < arcs.first[m + 1]!; k++) meet(arcs.to[k]!);
      for (let p = arcs.firstIn[m]!; p < arcs.firstIn[m + 1]!; p++) meet(arcs.from[arcs.into[p]!]!);
    }
    // Fixed moments around it belong to it too: where one has been forced elsewhere, it says so anew.
    groups.push([...list, ...edge]);
  }
  return {
    all,
    around(tasks) {
      const found = new Set<number>();
      for (const i of tasks)
        for (const m of [2 * i, 2 * i + 1]) {
          if (group[m]! < 0) return all;
          found.add(group[m]!);
        }
      const [one] = found;
      return found.size === 1 ? groups[one!]! : [...found].flatMap((g) => groups[g]!);
    },
  };
}
