import { proves } from "../schedule/conflict.ts";
import type { Conflict, Problem, Resource, ResourceNeed } from "../schedule/problem.ts";
import { refuted } from "../schedule/refute.ts";
import type { MadePlan } from "./make-plan.ts";
import type { ConflictRule, NoPlan } from "./plan-types.ts";
import { WHOLE_ROOM } from "./units.ts";

/** What was found of a plan that does not fit: the rules in words, and as the engine has them. */
export interface Clash {
  readonly rules: readonly ConflictRule[];
  readonly found: Conflict;
  /** The part of the problem they were found in. */
  readonly part: Problem;
}

/**
 * Whether it is proved that no plan here keeps every rule, and which rules alone prove it (README, P28): what is lacking
 * outright, else rules that clash, else all of them together. Proofs are complete searches of problems that ask for less
 * (schedule, S24), with room rounded in the plan's favour. Not proved says nothing but that none was found.
 */
export function noPlanOf(
  made: MadePlan,
  clash: Clash | undefined,
  stop: (() => boolean) | undefined,
): NoPlan | undefined {
  if (made.plan.status !== "broken" || made.solved.reason === "refused") return undefined;
  const { lacks } = made.set;
  if (lacks.length > 0) {
    const told = new Map(lacks.map(({ rule, tasks, what }) => [what, { rule, tasks, what }]));
    return { proved: true, rules: [...told.values()] };
  }
  if (clash && proves(inFavour(clash.part), clash.found, { conflicts: patience(clash.found), stop }))
    return { proved: true, rules: clash.rules };
  const proved = made.solved.status === "infeasible" || refuted(inFavour(made.problem), { stop });
  return { proved, rules: [] };
}

/** Few tasks that may stand anywhere ask for many conflicts, each of them quick; so many take about a tenth of a second. */
const patience = ({ tasks }: Conflict) => Math.round(200_000 / tasks.length);

/** Room is counted in whole steps, needs up and units down; where that may have decided, a step is given back. */
export function inFavour(problem: Problem): Problem {
  const whole = new Map(
    (problem.resources ?? []).map(({ id, dimensions = [] }) => [
      id,
      dimensions.map((d) => WHOLE_ROOM.has(d)),
    ]),
  );
  const room = ({ id }: Resource, capacity: readonly number[]) =>
    capacity.map((value, d) => (whole.get(id)![d] ? value : value + 1));
  const need = (each: ResourceNeed): ResourceNeed => ({
    ...each,
    amount: each.amount.map((value, d) => (whole.get(each.of[0]!)?.[d] ? value : Math.max(0, value - 1))),
  });
  return {
    ...problem,
    ...(problem.resources
      ? {
          resources: problem.resources.map((unit) => ({
            ...unit,
            capacity: room(unit, unit.capacity),
            ...(unit.calendar
              ? { calendar: unit.calendar.map((span) => ({ ...span, capacity: room(unit, span.capacity) })) }
              : {}),
          })),
        }
      : {}),
    tasks: problem.tasks.map((task) => ({
      ...task,
      modes: task.modes.map((mode) => ({
        ...mode,
        ...(mode.resources ? { resources: mode.resources.map(need) } : {}),
      })),
    })),
    ...(problem.spans ? { spans: problem.spans.map((span) => ({ ...span, need: need(span.need) })) } : {}),
  };
}
