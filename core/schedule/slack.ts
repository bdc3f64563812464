import { Board, type Spot } from "./board.ts";
import { withEnds } from "./facts.ts";
import { buildModel, type Model } from "./model.ts";
import { spotsOf } from "./plan.ts";
import type { Problem, Schedule } from "./problem.ts";
import { Search } from "./search.ts";

/** Earliest and latest start of each task. */
export interface Slack {
  readonly earliest: readonly number[];
  readonly latest: readonly number[];
}

/**
 * How far each task alone could move: the earliest and the latest start at which it still keeps every rule in
 * its mode, with its people, on its resources, everything else left as it is. NaN for a task that breaks a
 * rule where it stands. Started and done tasks have no play.
 */
export function slackOf(problem: Problem, schedule: Schedule): Slack {
  const facts = withEnds(problem);
  const forward = extremes(buildModel(facts, { mirrored: false }), schedule);
  const backward = buildModel(facts, { mirrored: true });
  // In the mirror the earliest place is the latest one, and its end is the real start.
  const latest = extremes(backward, schedule).map((spot) => (spot ? backward.end - spot.end : Number.NaN));
  const earliest = forward.map((spot) => spot?.start ?? Number.NaN);
  schedule.placements.forEach((p, i) => {
    const decided = (facts.tasks[i]!.status ?? "open") !== "open";
    const broken = !(earliest[i]! <= p.start && p.start <= latest[i]!);
    if (decided || broken) earliest[i] = latest[i] = decided ? p.start : Number.NaN;
  });
  return { earliest, latest };
}

function extremes(model: Model, schedule: Schedule): (Spot | null)[] {
  const board = new Board(model);
  const search = new Search(board, { anytime: false, thrift: 0, random: null });
  const spots = spotsOf(model, schedule);
  for (const [i, spot] of spots) board.force(i, spot);
  return Array.from({ length: model.n }, (_, i) => {
    if (model.decided[i] && model.decided[i]!.status !== "open") return null;
    const spot = spots.get(i)!;
    if (!board.liftable(i)) return null;
    board.lift(i);
    const window = aloneWindow(model, board, i);
    const { lo, hi } = board.windows;
    for (const m of [2 * i, 2 * i + 1]) [lo[m], hi[m]] = window[m & 1]!;
    const found = search.again(i, spot);
    board.drop(i, spot);
    return found;
  });
}

/** What the dates and the placed neighbours leave to the start and the end of a task. */
function aloneWindow(model: Model, board: Board, i: number): [[number, number], [number, number]] {
  const { arcs } = model;
  const window = [2 * i, 2 * i + 1].map((m): [number, number] => {
    let lo = model.lo[m]!;
    let hi = model.hi[m]!;
    for (let p = arcs.firstIn[m]!; p < arcs.firstIn[m + 1]!; p++) {
      const k = arcs.into[p]!;
      const from = arcs.from[k]!;
      if (from >> 1 !== i) lo = Math.max(lo, board.at(from) + arcs.length[k]!);
    }
    for (let k = arcs.first[m]!; k < arcs.first[m + 1]!; k++) {
      const to = arcs.to[k]!;
      if (to >> 1 !== i) hi = Math.min(hi, board.at(to) - arcs.length[k]!);
    }
    return [lo, hi];
  });
  return window as [[number, number], [number, number]];
}
