import type { Spot } from "./board.ts";
import { clustersOf } from "./clusters.ts";
import { Generator } from "./generate.ts";
import { buildModel, type Model } from "./model.ts";
import { moved } from "./plan.ts";
import type { Problem, Relaxation } from "./problem.ts";

/**
 * A best attempt when some clusters find no place: gives up one kind of rule after another, in the order
 * asked for, and only for what is left over, until everything stands somewhere.
 *
 * overtime: outside the shifts. wait: longer than the longest wait. late: after deadlines and pinned starts,
 * whatever follows moving along. capacity: on top of each other; this always ends it.
 */
export function attempt(
  problem: Problem,
  model: Model,
  spots: ReadonlyMap<number, Spot>,
  order: readonly Relaxation[],
) {
  let overtime = false;
  let wait = false;
  let late = false;
  let last: Generator | null = null;
  for (const given of [...order.filter((r) => r !== "capacity"), "capacity" as const]) {
    if (given === "overtime") overtime = true;
    if (given === "wait") wait = true;
    if (given === "late") late = true;
    if (given === "capacity" && last) {
      pile(last);
      return last;
    }
    const g = late
      ? lateAttempt(problem, model, spots, overtime, wait)
      : attemptInTime(problem, model, spots, overtime, wait);
    last = g;
    if (g.board.placedCount === model.n) return g;
    if (given === "capacity") pile(g);
  }
  return last!;
}

function attemptInTime(
  problem: Problem,
  model: Model,
  spots: ReadonlyMap<number, Spot>,
  overtime: boolean,
  wait: boolean,
): Generator {
  const relaxed = buildModel(problem, { mirrored: model.mirrored });
  const g = new Generator(relaxed, clustersOf(relaxed), { anytime: overtime, thrift: 1, random: null }, wait);
  g.settle();
  for (const [i, spot] of spots) if (!g.board.isPlaced(i)) g.board.force(i, moved(model, relaxed, spot));
  g.board.redraw();
  g.run(Float64Array.from(g.clusters.earliest));
  return g;
}

/** Forward from now, with as much time after the horizon as all the work together takes. */
function lateAttempt(
  problem: Problem,
  model: Model,
  spots: ReadonlyMap<number, Spot>,
  overtime: boolean,
  wait: boolean,
): Generator {
  const extra =
    problem.horizon + problem.tasks.reduce((sum, t) => sum + Math.max(...t.modes.map((m) => m.duration)), 0);
  const relaxed = buildModel(problem, { mirrored: false, extra, late: true });
  const g = new Generator(relaxed, clustersOf(relaxed), { anytime: overtime, thrift: 1, random: null }, wait);
  g.settle();
  const move = followers(g, spots);
  for (const [i, spot] of spots)
    if (!g.board.isPlaced(i) && !move.has(i)) g.board.force(i, moved(model, relaxed, spot));
  g.board.redraw();
  g.run(Float64Array.from(g.clusters.earliest));
  return g;
}

/** Tasks that come after something without a place: they must be free to go later. */
function followers(g: Generator, spots: ReadonlyMap<number, Spot>): Set<number> {
  const { clusters, board } = g;
  const queue: number[] = [];
  for (let i = 0; i < board.model.n; i++)
    if (!spots.has(i) && !board.isPlaced(i)) queue.push(clusters.of[i]!);
  const seen = new Set(queue);
  while (queue.length > 0) {
    const c = queue.pop()!;
    for (const d of clusters.after[c]!) {
      if (seen.has(d)) continue;
      seen.add(d);
      queue.push(d);
    }
  }
  return new Set([...seen].flatMap((c) => clusters.tasks[c]!));
}

/** Puts what is still left at the first minute of its window, whatever is there. */
function pile(g: Generator): void {
  const { board } = g;
  for (const tasks of g.clusters.tasks)
    for (const i of tasks) {
      if (board.isPlaced(i)) continue;
      board.force(i, g.anySpot(i));
      board.redraw();
    }
}
