import { soonestAlone } from "./alone.ts";
import { Board } from "./board.ts";
import { buildModel, type Model, NEVER } from "./model.ts";
import { dueOf, weightsOf } from "./objective.ts";
import type { Term } from "./problem.ts";

/**
 * Lower bounds, term by term: each task alone on an empty board, inside the windows that dates and lags leave
 * it, with its people's hours and its resources' calendars. What it can't do alone it can't do in company.
 */
export function boundsOf(model: Model): Map<Term, number> {
  const { problem } = model;
  const w = weightsOf(problem);
  const bounds = new Map<Term, number>();
  const other = buildModel(problem, { mirrored: !model.mirrored });
  const latest = soloEnds(model.mirrored ? model : other);
  const earliest = soloEnds(model.mirrored ? other : model);
  if (!latest || !earliest) return bounds;
  let late = 0;
  let early = 0;
  let modes = 0;
  let makespan = 0;
  problem.tasks.forEach((task, i) => {
    makespan = Math.max(makespan, earliest[i]!);
    if (task.status === "done") return;
    const due = dueOf(problem, task);
    late += (task.late ?? 1) * Math.max(0, earliest[i]! - due);
    early += (task.early ?? 0) * Math.max(0, due - latest[i]!);
    modes += Math.min(...task.modes.filter((_, m) => (task.pin?.mode ?? m) === m).map((m) => m.cost ?? 0));
  });
  bounds.set("makespan", w.makespan * makespan);
  bounds.set("late", w.late * late);
  bounds.set("early", w.early * early);
  bounds.set("modes", w.modes * modes);
  return bounds;
}

/** Latest (mirrored) or earliest end of each task alone; null when the dates themselves clash. */
function soloEnds(model: Model): Int32Array | null {
  const board = new Board(model);
  if (!board.sound) return null;
  const { windows } = board;
  // Twice: what the first round finds moves the windows of the neighbours.
  for (let round = 0; round < 2; round++)
    for (let i = 0; i < model.n; i++) {
      const { start, end } = soonestAlone(board, i);
      // No place alone: there is no plan at all, and this bound has nothing to say about it.
      if (start >= NEVER) continue;
      if (!windows.raise(2 * i, start) || !windows.raise(2 * i + 1, end)) return null;
    }
  return Int32Array.from({ length: model.n }, (_, i) =>
    model.mirrored ? model.end - windows.lo[2 * i]! : windows.lo[2 * i + 1]!,
  );
}
