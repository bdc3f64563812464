import { blockersOf } from "./blockers.ts";
import type { Spot } from "./board.ts";
import type { Generator } from "./generate.ts";
import type { Random } from "./random.ts";

/**
 * Places what serial generation left over, by taking others off: a cluster without a place puts out those
 * that stand in its way where they have failed least often, and these are placed anew (guided ejection, after
 * Nagata and Bräysy 2009). Ends when all is placed or after `tries` attempts; returns what is still left.
 */
export function eject(g: Generator, left: readonly number[], random: Random, tries: number): number[] {
  const { board, clusters } = g;
  const failures = new Float64Array(clusters.tasks.length).fill(1);
  const queue = [...left];
  const movable = (i: number) => board.isPlaced(i) && !settled(i);
  const settled = (i: number) => board.model.decided[i] !== null;
  for (let budget = tries; queue.length > 0 && budget > 0; budget--) {
    const c = queue.pop()!;
    if (g.placeCluster(c)) continue;
    failures[c]!++;
    const weight = (task: number) => {
      const d = clusters.of[task]!;
      return settled(task) || d === c ? 1e9 : failures[d]! * (0.7 + 0.6 * random.next());
    };
    const found = blockersOf(board, clusters.tasks[c]!, weight, random);
    // Where nothing helps at any start, its neighbours in time are in the wrong place.
    const leaving = found
      ? new Set([...found.tasks].map((i) => clusters.of[i]!))
      : new Set(
          [...clusters.before[c]!, ...clusters.after[c]!].filter((d) => clusters.tasks[d]!.every(movable)),
        );
    if (leaving.size > 0) {
      takeOff(g, leaving);
      const fits = g.placeCluster(c) || (found !== null && g.placeCluster(c, found.start));
      for (const d of leaving) if (!g.placeCluster(d)) queue.push(d);
      if (fits) continue;
    }
    queue.unshift(c);
  }
  return queue;
}

function takeOff(g: Generator, out: Iterable<number>): Map<number, Spot> {
  const spots = new Map<number, Spot>();
  for (const c of out)
    for (const i of g.clusters.tasks[c]!) if (g.board.isPlaced(i)) spots.set(i, g.board.spotOf(i));
  g.board.remove(spots.keys());
  return spots;
}
