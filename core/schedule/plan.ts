import type { Board, Spot } from "./board.ts";
import type { Model } from "./model.ts";
import type { Placement, Schedule } from "./problem.ts";

/** The schedule on a full board, read in real time. */
export function scheduleOf(board: Board): Schedule {
  const { model } = board;
  const { problem, mirrored, end } = model;
  const placements = problem.tasks.map((task, i): Placement => {
    const persons = board.persons[i]!.map((p) => problem.persons![p]!.id);
    const resources = board.resources[i]!.map((r) => problem.resources![r]!.id);
    const start = mirrored ? end - board.end[i]! : board.start[i]!;
    const stop = mirrored ? end - board.start[i]! : board.end[i]!;
    return { task: task.id, start, end: stop, mode: board.mode[i]!, persons, resources };
  });
  const spans = (problem.spans ?? []).map((span, k) => {
    const on = board.holdOn[k]!;
    if (on >= 0) return problem.resources![on]!.id;
    // It holds nothing: name the one it would be, so that every span has an answer.
    const { same } = model.holds[k]!.demand;
    const bound = same >= 0 ? board.sameOn[same]! : -1;
    return bound >= 0 ? problem.resources![bound]!.id : span.need.of[0]!;
  });
  return { placements, spans };
}

/** The places of a schedule on the axis of a model; tasks it does not know are left out. */
export function spotsOf(model: Model, schedule: Schedule): Map<number, Spot> {
  const { problem, mirrored, end } = model;
  const task = new Map(problem.tasks.map((t, i) => [t.id, i]));
  const person = new Map((problem.persons ?? []).map((p, i) => [p.id, i]));
  const resource = new Map((problem.resources ?? []).map((r, i) => [r.id, i]));
  const spots = new Map<number, Spot>();
  for (const p of schedule.placements) {
    const i = task.get(p.task);
    if (i === undefined) continue;
    spots.set(i, {
      start: mirrored ? end - p.end : p.start,
      end: mirrored ? end - p.start : p.end,
      mode: p.mode,
      persons: p.persons.map((id) => person.get(id)!),
      resources: p.resources.map((id) => resource.get(id)!),
      holds: model.holdsOf[i]!.map((k) => resource.get(schedule.spans[k]!)!),
    });
  }
  return spots;
}

/** The same place on the axis of another model of the same problem. */
export function moved(from: Model, to: Model, spot: Spot): Spot {
  const real = from.mirrored ? { start: from.end - spot.end, end: from.end - spot.start } : spot;
  const there = to.mirrored ? { start: to.end - real.end, end: to.end - real.start } : real;
  return { ...spot, start: there.start, end: there.end };
}
