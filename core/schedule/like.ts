import type { Spot } from "./board.ts";
import { checkSchedule } from "./check.ts";
import type { Model } from "./model.ts";
import { spotsOf } from "./plan.ts";
import type { Placement, Problem, Schedule } from "./problem.ts";

/** A schedule of another problem, with the ids of the spans it speaks of. */
export interface Like extends Schedule {
  readonly spanIds: readonly string[];
}

/**
 * The places that a schedule of a problem much like this one leaves here: of what breaks no rule where it stands. Undefined
 * where it does not speak of every task and span.
 */
export function placesLike(
  problem: Problem,
  model: Model,
  like: Like,
): ReadonlyMap<number, Spot> | undefined {
  const placed = new Map(like.placements.map((p) => [p.task, p]));
  const on = new Map(like.spanIds.map((id, k) => [id, like.spans[k]!]));
  const known = new Set([...(problem.persons ?? []), ...(problem.resources ?? [])].map(({ id }) => id));
  const placements = problem.tasks.flatMap(({ id, modes }): Placement[] => {
    const p = placed.get(id);
    const mode = p && modes[p.mode];
    if (!p || !mode || (mode.resources ?? []).length !== p.resources.length) return [];
    return [...p.persons, ...p.resources].every((one) => known.has(one)) ? [p] : [];
  });
  const spans = (problem.spans ?? []).flatMap(({ id }) => {
    const unit = on.get(id);
    return unit !== undefined && known.has(unit) ? [unit] : [];
  });
  if (placements.length < problem.tasks.length || spans.length < (problem.spans ?? []).length)
    return undefined;
  const schedule = { placements, spans };
  const ends = new Map((problem.spans ?? []).map((span) => [span.id, [span.from.task, span.to.task]]));
  const broken = new Set(
    checkSchedule(problem, schedule).flatMap(({ tasks }) => tasks.flatMap((id) => ends.get(id) ?? [id])),
  );
  return new Map([...spotsOf(model, schedule)].filter(([i]) => !broken.has(problem.tasks[i]!.id)));
}
