import { soonestAlone } from "./alone.ts";
import { Board } from "./board.ts";
import { buildModel, type Model, NEVER } from "./model.ts";
import { dueOf, weightsOf } from "./objective.ts";
import { peakBound } from "./peak-bound.ts";
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
  const [forth, back] = model.mirrored ? [other, model] : [model, other];
  const [soonest, latest] = [alone(forth), alone(back)];
  if (!soonest || !latest) return bounds;
  const lastEnd = (i: number) => back.end - latest[2 * i]!;
  let late = 0;
  let early = 0;
  let modes = 0;
  let makespan = 0;
  problem.tasks.forEach((task, i) => {
    const firstEnd = soonest[2 * i + 1]!;
    makespan = Math.max(makespan, firstEnd);
    if (task.status === "done") return;
    const due = dueOf(problem, task);
    late += (task.late ?? 1) * Math.max(0, firstEnd - due);
    early += (task.early ?? 0) * Math.max(0, due - lastEnd(i));
    modes += Math.min(...task.modes.filter((_, m) => (task.pin?.mode ?? m) === m).map((m) => m.cost ?? 0));
  });
  bounds.set("makespan", w.makespan * makespan);
  bounds.set("late", w.late * late);
  bounds.set("early", w.early * early);
  bounds.set("modes", w.modes * modes);
  if (w.peak) {
    const room = problem.tasks.map((_, i) => ({ from: soonest[2 * i]!, to: lastEnd(i) }));
    bounds.set("peak", w.peak.weight * peakBound(problem, room, w.peak));
  }
  return bounds;
}

/** Soonest start and end of each task alone, in the model's direction; null when the dates themselves clash. */
function alone(model: Model): Int32Array | null {
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
  return windows.lo.slice(0, 2 * model.n);
}
