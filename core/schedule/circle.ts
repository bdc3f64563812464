/** time[to] >= time[from] + length. */
export interface Arc {
  readonly from: number;
  readonly to: number;
  readonly length: number;
}

/**
 * A circle of arcs that together ask for more than no time, in its order; null when there is none and times can be found.
 * Longest paths round by round (Bellman-Ford), there and back by turns: a long chain is done in two rounds whichever way its
 * arcs are listed (Yen 1970). A round that moved something is searched for a circle of those that moved each other last: it
 * is of positive length, and there is one after as many rounds as there are moments at the latest, whenever the graph has any
 * (Cherkassky, Goldberg 1999).
 */
export function positiveCircle<A extends Arc>(moments: number, arcs: readonly A[]): A[] | null {
  const far = new Float64Array(moments);
  const before = new Int32Array(moments).fill(-1);
  let at = -1;
  for (let round = 0; at < 0; round++) {
    let moved = false;
    for (let x = 0; x < arcs.length; x++) {
      const k = round % 2 === 0 ? x : arcs.length - 1 - x;
      const { from, to, length } = arcs[k]!;
      if (far[from]! + length <= far[to]!) continue;
      far[to] = far[from]! + length;
      before[to] = k;
      moved = true;
    }
    if (!moved) return null;
    at = onCircle(before, arcs);
  }
  const circle: A[] = [];
  for (let m = at; circle.length === 0 || m !== at; m = circle.at(-1)!.from) circle.push(arcs[before[m]!]!);
  return circle.reverse();
}

/** A moment on a circle of those that moved each other last, or -1. */
function onCircle(before: Int32Array, arcs: readonly Arc[]): number {
  const seen = new Int32Array(before.length);
  for (let m = 0; m < before.length; m++) {
    let at = m;
    while (seen[at] === 0 && before[at]! >= 0) {
      seen[at] = m + 1;
      at = arcs[before[at]!]!.from;
    }
    if (seen[at] === m + 1) return at;
  }
  return -1;
}
