import type { Problem, Result as Solved } from "../schedule/problem.ts";
import type { Amounts } from "./amounts.ts";
import type { Documents } from "./documents.ts";
import { openSite, type SiteOptions } from "./open-site.ts";
import { planOf } from "./plan.ts";
import type { Plan } from "./plan-types.ts";
import { problemOf } from "./problem.ts";
import { serviceTasks } from "./service-tasks.ts";
import type { Site } from "./site.ts";
import type { TaskSet } from "./tasks.ts";

/** How long and from which seed to search. */
export interface Effort {
  readonly seed: number;
  /** Schedules to generate; the same count and seed give the same plan. */
  readonly schedules: number;
  /** Asked between schedules; true ends the search with the best so far. */
  readonly stop?: (() => boolean) | undefined;
  readonly onProgress?: ((best: { readonly schedules: number; readonly value: number }) => void) | undefined;
}

/** An engine for scheduling problems. */
export type Engine = (problem: Problem, effort: Effort) => Solved;

/** One plan with all that it was made from. */
export interface MadePlan {
  readonly site: Site;
  readonly set: TaskSet;
  readonly problem: Problem;
  readonly solved: Solved;
  readonly plan: Plan;
}

/** Builds the tasks of a service in a kitchen, schedules them, and reads the schedule back; no remedies. */
export function makePlan(
  docs: Documents,
  amounts: Amounts,
  options: SiteOptions,
  engine: Engine,
  effort: Effort,
): MadePlan {
  const site = openSite(docs, amounts, options);
  const set = serviceTasks(site);
  const problem = problemOf(site, set);
  const solved = engine(problem, effort);
  return { site, set, problem, solved, plan: planOf(site, set, problem, solved, []) };
}
