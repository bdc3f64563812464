import type { Board } from "./board.ts";
import { NEVER, type Way } from "./model.ts";

/** A start and an end before which a task can't start or end; NEVER when there is no such minute. */
export interface Soonest {
  readonly start: number;
  readonly end: number;
}

const NOWHERE: Soonest = { start: NEVER, end: NEVER };

/**
 * How soon task i could start and end on an empty board, in any of its modes: inside its window, when as many of
 * those who can do it as it needs have each had time for it, and on resources that are open. For a team this is
 * less than what its people need together, never more.
 */
export function soonestAlone(board: Board, i: number): Soonest {
  const decided = board.model.decided[i];
  let start = NEVER;
  let end = NEVER;
  board.model.ways[i]!.forEach((way, m) => {
    if (decided && decided.mode >= 0 && decided.mode !== m) return;
    const found = inWay(board, i, way);
    start = Math.min(start, found.start);
    end = Math.min(end, found.end);
  });
  return { start, end };
}

function inWay(board: Board, i: number, way: Way): Soonest {
  const { lo, hi } = board.windows;
  const decided = board.model.decided[i];
  const given = decided && decided.start >= 0 && decided.end >= 0 ? decided.end - decided.start : -1;
  let t = lo[2 * i]!;
  for (let guard = 0; guard < 2000 && t <= hi[2 * i]!; guard++) {
    const free = given >= 0 || way.heads === 0 || way.duration === 0;
    const minutes = given >= 0 ? given : way.duration;
    const { start, end } = free
      ? { start: t, end: t + minutes }
      : staffed(board, way, t, decided?.persons ?? null);
    if (start > hi[2 * i]! || end > hi[2 * i + 1]!) return NOWHERE;
    if (end < lo[2 * i + 1]!) {
      t = start + lo[2 * i + 1]! - end;
      continue;
    }
    const next = closed(board, way, start, end, decided?.resources ?? null);
    if (next < 0) return { start, end };
    t = Math.max(next, start + 1);
  }
  return NOWHERE;
}

/** When the last of as many as are needed could each have started and ended, from t on. */
function staffed(board: Board, way: Way, t: number, fixed: readonly number[] | null): Soonest {
  const needs = fixed ? fixed.map((p) => ({ count: 1, able: [p] })) : way.people;
  let start = t;
  let end = t;
  for (const { count, able } of needs) {
    const starts: number[] = [];
    const ends: number[] = [];
    for (const p of able) {
      const agenda = board.agendas[p]!;
      const from = agenda.alone(t, way.duration, way.interrupt);
      if (from < 0) continue;
      starts.push(from);
      ends.push(agenda.ended);
    }
    if (starts.length < count) return NOWHERE;
    start = Math.max(start, nth(starts, count));
    end = Math.max(end, nth(ends, count));
  }
  return { start, end };
}

/** The count-th smallest. */
function nth(list: number[], count: number): number {
  return count === 1 ? Math.min(...list) : list.sort((a, b) => a - b)[count - 1]!;
}

/** -1 when every need finds an open resource on [start, end), else a start before which one does not. */
function closed(board: Board, way: Way, start: number, end: number, fixed: readonly number[] | null): number {
  let next = -1;
  way.demands.forEach((d, k) => {
    let soonest = NEVER;
    for (const on of fixed ? [fixed[k]!] : d.of) {
      const at = board.blocks(d, on, start, end);
      if (at < 0) return;
      soonest = Math.min(soonest, at);
    }
    next = Math.max(next, soonest);
  });
  return next;
}
