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
  const play = new Play(problem, schedule);
  const both = problem.tasks.map((_, i) => play.of(i));
  return { earliest: both.map((x) => x.earliest), latest: both.map((x) => x.latest) };
}

/** The play of single tasks in one schedule. */
export class Play {
  private readonly facts: Problem;
  private readonly schedule: Schedule;
  private readonly forward: Side;
  private readonly backward: Side;

  constructor(problem: Problem, schedule: Schedule) {
    this.facts = withEnds(problem);
    this.schedule = schedule;
    this.forward = new Side(buildModel(this.facts, { mirrored: false }), schedule);
    this.backward = new Side(buildModel(this.facts, { mirrored: true }), schedule);
  }

  /** Earliest and latest start of task i. */
  of(i: number): { readonly earliest: number; readonly latest: number } {
    const { start } = this.schedule.placements[i]!;
    if ((this.facts.tasks[i]!.status ?? "open") !== "open") return { earliest: start, latest: start };
    const first = this.forward.extreme(i);
    const last = this.backward.extreme(i);
    if (!first || !last) return { earliest: Number.NaN, latest: Number.NaN };
    const earliest = first.start;
    // In the mirror the earliest place is the latest one, and its end is the real start.
    const latest = this.backward.end - last.end;
    return earliest <= start && start <= latest
      ? { earliest, latest }
      : { earliest: Number.NaN, latest: Number.NaN };
  }
}

class Side {
  readonly end: number;
  private readonly model: Model;
  private readonly board: Board;
  private readonly search: Search;
  private readonly spots: ReadonlyMap<number, Spot>;

  constructor(model: Model, schedule: Schedule) {
    this.model = model;
    this.end = model.end;
    this.board = new Board(model);
    this.search = new Search(this.board, { anytime: false, thrift: 0, random: null });
    this.spots = spotsOf(model, schedule);
    for (const [i, spot] of this.spots) this.board.force(i, spot);
  }

  extreme(i: number): Spot | null {
    const { board } = this;
    const spot = this.spots.get(i)!;
    if (!board.liftable(i)) return null;
    board.lift(i);
    const window = this.window(i);
    const { lo, hi } = board.windows;
    for (const m of [2 * i, 2 * i + 1]) [lo[m], hi[m]] = window[m & 1]!;
    const found = this.search.again(i, spot);
    board.drop(i, spot);
    return found;
  }

  /** What the dates and the placed neighbours leave to the start and the end of a task. */
  private window(i: number): [[number, number], [number, number]] {
    const { model, board } = this;
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
}
