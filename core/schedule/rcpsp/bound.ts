import type { Project } from "./project.ts";

/**
 * A minute before which no plan ends: the longest path, and for every resource the work of the activities
 * that can't start before a head and must be followed by a tail, spread over the whole capacity (energetic).
 * Arcs must have no circle of positive length.
 */
export function energyBound(p: Project): number {
  const { n, resources, duration, demand, capacity } = p;
  const head = longest(p, false);
  const tail = longest(p, true);
  let bound = 0;
  for (let i = 0; i < n; i++) bound = Math.max(bound, head[i]! + duration[i]! + tail[i]!);
  const byHead = Array.from({ length: n }, (_, i) => i).sort((a, b) => head[b]! - head[a]!);
  const tails = [...new Set(tail)].sort((a, b) => a - b).slice(0, MOST);
  for (let r = 0; r < resources; r++) {
    if (capacity[r]! <= 0) continue;
    for (const least of tails) {
      // Activities join by falling head; each prefix is a set of its own.
      let work = 0;
      for (let k = 0; k < n; k++) {
        const i = byHead[k]!;
        if (tail[i]! < least || duration[i] === 0) continue;
        work += duration[i]! * demand[i * resources + r]!;
        bound = Math.max(bound, head[i]! + Math.ceil(work / capacity[r]!) + least);
      }
    }
  }
  return bound;
}

/** Different tails tried. */
const MOST = 400;

/** Longest way from the start to each activity's start, or from each activity's end to the end of the plan. */
function longest(p: Project, backward: boolean): Int32Array {
  const { n, duration } = p;
  const far = new Int32Array(n);
  for (let round = 0; round < n; round++) {
    let moved = false;
    for (let k = 0; k < p.lag.length; k++) {
      const [i, j] = [p.from[k]!, p.to[k]!];
      // Backward: end of i to end of plan is at least the lag beyond i's end, j's time, and j's tail.
      const by = backward ? far[j]! + duration[j]! + p.lag[k]! - duration[i]! : far[i]! + p.lag[k]!;
      const at = backward ? i : j;
      if (by <= far[at]!) continue;
      far[at] = by;
      moved = true;
    }
    if (!moved) break;
  }
  return far;
}
