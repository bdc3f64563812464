import type { Board, Spot } from "./board.ts";
import type { Demand } from "./model.ts";
import type { Random } from "./random.ts";

/** Starts tried for the first task of a cluster that found no place. */
const SAMPLES = 24;

/** What stands in the way of a cluster at one start of its first task. */
export interface Blockers {
  readonly tasks: Set<number>;
  readonly weight: number;
  readonly start: number;
  /** Where each task of the cluster would be. */
  readonly spots: ReadonlyMap<number, Spot>;
}

/**
 * For a cluster that finds no place: the tasks that stand in its way at the start, among a sample of its
 * window, where they weigh least. Null when no start would do even with everything else taken off.
 */
export function blockersOf(
  board: Board,
  cluster: readonly number[],
  weight: (task: number) => number,
  random: Random,
): Blockers | null {
  const { windows } = board;
  const open = cluster.filter((i) => !board.isPlaced(i));
  const first = open[0];
  if (first === undefined) return null;
  const lo = windows.lo[2 * first]!;
  const hi = windows.hi[2 * first]!;
  let best: Blockers | null = null;
  for (let k = 0; k < SAMPLES; k++) {
    const start = k === 0 ? lo : k === 1 ? hi : random.between(lo, hi);
    const mark = windows.mark();
    const tasks = new Set<number>();
    const spots = new Map<number, Spot>();
    let sum = 0;
    for (const i of open) {
      const least = i === first ? start : windows.lo[2 * i]!;
      const found = inTheWay(board, i, least, weight, tasks);
      if (!found || !windows.place(i, found.spot.start, found.spot.end)) {
        sum = Number.POSITIVE_INFINITY;
        break;
      }
      spots.set(i, found.spot);
      for (const x of found.tasks) {
        if (!tasks.has(x)) sum += weight(x);
        tasks.add(x);
      }
      if (best && sum >= best.weight) break;
    }
    windows.undo(mark);
    if (sum < (best?.weight ?? 1e8)) best = { tasks, weight: sum, start, spots };
  }
  return best;
}

interface InTheWay {
  readonly spot: Spot;
  readonly tasks: ReadonlySet<number>;
  readonly weight: number;
}

/** The mode in which the least stands in the way of a start at or shortly after t. */
function inTheWay(
  board: Board,
  i: number,
  t: number,
  weight: (task: number) => number,
  already: ReadonlySet<number>,
): InTheWay | null {
  const decided = board.model.decided[i];
  let best: InTheWay | null = null;
  for (let m = 0; m < board.model.ways[i]!.length; m++) {
    if (decided && decided.mode >= 0 && decided.mode !== m) continue;
    const found = at(board, i, m, t, weight, already);
    if (found && (!best || found.weight < best.weight)) best = found;
  }
  return best;
}

function at(
  board: Board,
  i: number,
  m: number,
  t: number,
  weight: (task: number) => number,
  already: ReadonlySet<number>,
): InTheWay | null {
  const { model, windows } = board;
  const way = model.ways[i]![m]!;
  const tasks = new Set<number>();
  const decided = model.decided[i];
  const team: number[] = [];
  let s = t;
  let e = t + way.duration;
  if (way.heads > 0) {
    for (const need of way.people) {
      const ranked: { p: number; w: number; from: number; to: number; who: number[] }[] = [];
      for (const p of decided?.persons ?? need.able) {
        if (team.includes(p)) continue;
        const [from, to] =
          way.duration === 0 ? [t, t] : board.agendas[p]!.alone(t, way.duration, way.interrupt);
        if (from < 0 || from > windows.hi[2 * i]! || to > windows.hi[2 * i + 1]!) continue;
        const who = busyWith(board, p, from, to);
        ranked.push({
          p,
          from,
          to,
          who,
          w: who.reduce((sum, x) => sum + (already.has(x) ? 0 : weight(x)), 0) + (from - t) * 1e-3,
        });
      }
      if (ranked.length < need.count) return null;
      ranked.sort((a, b) => a.w - b.w || a.p - b.p);
      for (const r of ranked.slice(0, need.count)) {
        team.push(r.p);
        for (const x of r.who) tasks.add(x);
        s = Math.max(s, r.from);
        e = Math.max(e, r.to);
      }
    }
  }
  // Work that cannot end so early starts later; the people may still do, or the try is lost.
  if (e < windows.lo[2 * i + 1]!) {
    s += windows.lo[2 * i + 1]! - e;
    e = windows.lo[2 * i + 1]!;
  }
  if (e > windows.hi[2 * i + 1]! || s > windows.hi[2 * i]!) return null;
  const resources: number[] = [];
  for (const d of way.demands) {
    const fixed = decided?.resources?.[resources.length] ?? -1;
    const on = clear(board, d, s, e, weight, tasks, fixed);
    if (on < 0) return null;
    resources.push(on);
  }
  const holds = model.holdsOf[i]!.map(() => -1);
  for (let x = 0; x < holds.length; x++) {
    const k = model.holdsOf[i]![x]!;
    const h = model.holds[k]!;
    const opens = h.from >> 1 === i;
    const closes = h.to >> 1 === i;
    if ((!opens && !board.isPlaced(h.from >> 1)) || (!closes && !board.isPlaced(h.to >> 1))) continue;
    const from = opens ? (h.from & 1 ? e : s) : board.at(h.from);
    const to = closes ? (h.to & 1 ? e : s) : board.at(h.to);
    const on = to > from ? clear(board, h.demand, from, to, weight, tasks) : -2;
    if (on === -1) return null;
    holds[x] = on;
  }
  let sum = 0;
  for (const x of tasks) if (!already.has(x)) sum += weight(x);
  const spot = { start: s, end: e, mode: m, persons: team, resources, holds };
  return { spot, tasks, weight: sum };
}

function busyWith(board: Board, p: number, from: number, to: number): number[] {
  const who: number[] = [];
  for (let x = 0; x < board.model.n; x++)
    if (board.mode[x]! >= 0 && board.start[x]! < to && board.end[x]! > from && board.persons[x]!.includes(p))
      who.push(x);
  return who;
}

/** Adds to `tasks` what must leave the resource that costs least to clear; returns it, -1 when none can be. */
function clear(
  board: Board,
  d: Demand,
  from: number,
  to: number,
  weight: (task: number) => number,
  tasks: Set<number>,
  fixed = -1,
): number {
  const bound = fixed >= 0 ? fixed : d.same >= 0 ? board.sameOn[d.same]! : -1;
  let best: Set<number> | null = null;
  let bestOn = -1;
  let bestWeight = Number.POSITIVE_INFINITY;
  for (const r of bound >= 0 ? [bound] : d.of) {
    if (board.blocks(d, r, from, to) < 0) return r;
    const who = leaving(board, r, d, from, to, weight, tasks);
    if (!who) continue;
    let w = 0;
    for (const x of who) if (!tasks.has(x)) w += weight(x);
    if (w < bestWeight) {
      best = who;
      bestOn = r;
      bestWeight = w;
    }
  }
  if (best) for (const x of best) tasks.add(x);
  return bestOn;
}

interface Held {
  readonly task: number;
  readonly demand: Demand;
  readonly from: number;
  readonly to: number;
}

/** Who leaves resource r so that d fits on [from, to); those in `already` leave anyway. Null: never fits. */
function leaving(
  board: Board,
  r: number,
  d: Demand,
  from: number,
  to: number,
  weight: (task: number) => number,
  already: ReadonlySet<number>,
): Set<number> | null {
  const occupancy = board.occupancies[r]!;
  const out = new Set<number>();
  let stay: Held[] = [];
  for (const h of heldOn(board, r, from, to)) {
    if (already.has(h.task)) continue;
    if (occupancy && !occupancy.beside(h.demand, h.from, h.to, d, from, to)) out.add(h.task);
    else if (h.from < to && h.to > from) stay.push(h);
  }
  stay = stay.filter((h) => !out.has(h.task));
  const e = board.model.equipment[r]!;
  const points = [from, ...stay.map((h) => h.from), ...e.time].filter((t) => t >= from && t < to);
  for (const t of points)
    for (let x = 0; x < d.amount.length; x++) {
      let step = 0;
      while (step + 1 < e.time.length && e.time[step + 1]! <= t) step++;
      let free = e.capacity[step * e.dimensions + x]! - d.amount[x]!;
      if (free < 0) return null;
      const here = stay.filter((h) => h.from <= t && h.to > t && (h.demand.amount[x] ?? 0) > 0);
      for (const h of here) free -= h.demand.amount[x]!;
      here.sort((a, b) => weight(a.task) - weight(b.task) || b.demand.amount[x]! - a.demand.amount[x]!);
      for (let k = 0; free < 0 && k < here.length; k++) {
        out.add(here[k]!.task);
        free += here[k]!.demand.amount[x]!;
      }
      stay = stay.filter((h) => !out.has(h.task));
    }
  return out;
}

/** What resource r holds near [from, to). */
function heldOn(board: Board, r: number, from: number, to: number): Held[] {
  const { model } = board;
  const gap = model.equipment[r]!.longestGap;
  const held: Held[] = [];
  const add = (task: number, demand: Demand, a: number, b: number) => {
    if (a < to + gap && b > from - gap && b > a) held.push({ task, demand, from: a, to: b });
  };
  for (let x = 0; x < model.n; x++) {
    if (board.mode[x]! < 0) continue;
    const on = board.resources[x]!;
    for (let k = 0; k < on.length; k++)
      if (on[k] === r) add(x, model.ways[x]![board.mode[x]!]!.demands[k]!, board.start[x]!, board.end[x]!);
  }
  for (let k = 0; k < model.holds.length; k++)
    if (board.holdOn[k] === r)
      add(model.holds[k]!.from >> 1, model.holds[k]!.demand, board.holdFrom[k]!, board.holdTo[k]!);
  return held;
}
