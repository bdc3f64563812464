import type { Board, Spot } from "./board.ts";
import type { Clusters } from "./clusters.ts";
import type { Demand, PeopleDemand, Way } from "./model.ts";
import type { Windows } from "./windows.ts";

/** Starts looked at for each cluster. */
const STARTS = 40;

/** What a breach weighs beside its minutes: few are easier to put right than many. */
const EACH = 20;

/** A place with what it breaks, in minutes. */
interface Weighed {
  readonly spot: Spot;
  readonly cost: number;
}

/**
 * Places what has found no place on top of what is there, where that breaks least: minutes in which somebody is
 * asked for twice or is not there, minutes in which a resource holds too much or what does not go together.
 */
export class Pile {
  private readonly board: Board;
  private readonly clusters: Clusters;
  private readonly busy: number[] = [];

  constructor(board: Board, clusters: Clusters) {
    this.board = board;
    this.clusters = clusters;
  }

  /** Places cluster c; a task for which not even the lags leave a minute comes back as not placed. */
  place(c: number): boolean {
    const { board } = this;
    const tasks = this.clusters.tasks[c]!.filter((i) => !board.isPlaced(i));
    const found = this.best(tasks, board.windows) ?? this.best(tasks, board.open);
    if (!found) return false;
    tasks.forEach((i, k) => {
      board.force(i, found[k]!);
    });
    board.redraw();
    return true;
  }

  private best(tasks: readonly number[], windows: Windows): Spot[] | null {
    const first = 2 * tasks[0]!;
    const [lo, hi] = [windows.lo[first]!, windows.hi[first]!];
    let best: Spot[] | null = null;
    let least = Number.POSITIVE_INFINITY;
    let last = -1;
    for (let k = 0; k < STARTS; k++) {
      const mark = windows.mark();
      if (!windows.raise(first, Math.round(lo + ((hi - lo) * k) / (STARTS - 1)))) {
        // What comes too late for the rest now does so at every later start.
        windows.undo(mark);
        break;
      }
      const start = windows.lo[first]!;
      if (start !== last) {
        last = start;
        const spots = this.spots(tasks, windows, least);
        if (spots) {
          best = spots.list;
          least = spots.cost;
        }
      }
      windows.undo(mark);
      if (least === 0) break;
    }
    return best;
  }

  /** The tasks one after another as early as the windows let them; null when it costs `limit` or more. */
  private spots(
    tasks: readonly number[],
    windows: Windows,
    limit: number,
  ): { list: Spot[]; cost: number } | null {
    const list: Spot[] = [];
    let cost = 0;
    for (const i of tasks) {
      const found = this.weigh(i, windows.lo[2 * i]!, windows.lo[2 * i + 1]!);
      cost += found.cost;
      if (cost >= limit || !windows.place(i, found.spot.start, found.spot.end)) return null;
      list.push(found.spot);
    }
    return { list, cost };
  }

  /** The way of doing task i at t that breaks least. */
  private weigh(i: number, t: number, least: number): Weighed {
    const { model } = this.board;
    const decided = model.decided[i] ?? null;
    let best: Weighed | null = null;
    model.ways[i]!.forEach((way, m) => {
      if (decided && decided.mode >= 0 && decided.mode !== m) return;
      const found = this.inWay(i, way, m, t, least);
      if (!best || found.cost < best.cost) best = found;
    });
    return best!;
  }

  private inWay(i: number, way: Way, mode: number, t: number, least: number): Weighed {
    const { board } = this;
    const decided = board.model.decided[i] ?? null;
    const fixed = decided && decided.start >= 0 && decided.end >= 0 ? decided.end - decided.start : -1;
    let end = Math.max(least, t + (fixed >= 0 ? fixed : way.duration));
    const alone = way.heads === 1 && way.interrupt > 0 && fixed < 0;
    let cost = 0;
    const persons: number[] = [];
    for (const need of decided?.persons ? [] : way.people)
      for (let k = 0; k < need.count; k++) {
        const found = this.person(need, persons, t, end, alone ? way : null);
        persons.push(found.p);
        cost += found.cost;
        end = Math.max(least, found.end);
      }
    if (decided?.persons) persons.push(...decided.persons);
    const resources = way.demands.map((d, k) => {
      const found = this.room(d, t, end, decided?.resources?.[k] ?? -1);
      cost += found.cost;
      return found.on;
    });
    const at = (moment: number) =>
      moment >> 1 === i ? (moment & 1 ? end : t) : board.isPlaced(moment >> 1) ? board.at(moment) : -1;
    const holds = board.model.holdsOf[i]!.map((k) => {
      const h = board.model.holds[k]!;
      const [from, to] = [at(h.from), at(h.to)];
      if (from < 0 || to < 0) return -1;
      if (to <= from) return -2;
      const found = this.room(h.demand, from, to, -1);
      cost += found.cost;
      return found.on;
    });
    return { spot: { start: t, end, mode, persons, resources, holds }, cost };
  }

  /** Who is missed least; over breaks when the work may pause and one alone does it. */
  private person(
    need: PeopleDemand,
    taken: readonly number[],
    from: number,
    to: number,
    pausing: Way | null,
  ): { p: number; cost: number; end: number } {
    let best = { p: need.able.find((p) => !taken.includes(p)) ?? need.able[0]!, cost: 1e6, end: to };
    for (const p of need.able) {
      if (taken.includes(p)) continue;
      const agenda = this.board.agendas[p]!;
      let end = to;
      if (pausing) {
        const start = agenda.alone(from, pausing.duration, pausing.interrupt);
        if (start === from) end = agenda.ended;
      }
      let cost = 0;
      if (end === to) {
        const away = to - from - agenda.worked(from, to);
        if (away > 0) cost += EACH + away;
      }
      this.busy.length = 0;
      agenda.busy(from, end, this.busy);
      for (const x of this.busy)
        cost += EACH + Math.min(end, this.board.end[x]!) - Math.max(from, this.board.start[x]!);
      if (cost < best.cost) best = { p, cost, end };
    }
    return best;
  }

  /** The resource on which a need collides least. */
  private room(d: Demand, from: number, to: number, fixed: number): { on: number; cost: number } {
    const { board } = this;
    const bound = fixed >= 0 ? fixed : d.same >= 0 ? board.sameOn[d.same]! : -1;
    let best = { on: bound >= 0 ? bound : d.of[0]!, cost: Number.POSITIVE_INFINITY };
    for (const on of bound >= 0 ? [bound] : d.of) {
      const cost = board.blocks(d, on, from, to) < 0 ? 0 : this.collisions(d, on, from, to);
      if (cost < best.cost) best = { on, cost };
      if (cost === 0) break;
    }
    return best;
  }

  private collisions(d: Demand, on: number, from: number, to: number): number {
    const occupancy = this.board.occupancies[on];
    let cost = 0;
    for (const h of this.board.held[on]!) {
      const shared = Math.min(to, h.to) - Math.max(from, h.from);
      const apart = occupancy !== null && !occupancy!.beside(h.demand, h.from, h.to, d, from, to);
      if (apart) cost += EACH + Math.max(0, shared);
    }
    if (this.board.profiles[on]!.blocks(d.amount, from, to) >= 0) cost += EACH + (to - from);
    return cost;
  }
}
