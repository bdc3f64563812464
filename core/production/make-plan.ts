import { refused } from "../schedule/index.ts";
import type { Like } from "../schedule/like.ts";
import type { Problem, Relaxation, Result as Solved } from "../schedule/problem.ts";
import type { Amounts } from "./amounts.ts";
import { totalLacks } from "./bounds.ts";
import type { Documents } from "./documents.ts";
import { openSite, type SiteOptions } from "./open-site.ts";
import { planOf } from "./plan.ts";
import type { Plan } from "./plan-types.ts";
import { problemOf } from "./problem.ts";
import { serviceTasks } from "./service-tasks.ts";
import type { Site } from "./site.ts";
import type { Lack, TaskSet } from "./tasks.ts";

/** How long and from which seed to search. */
export interface Effort {
  readonly seed: number;
  /** Schedules to generate; the same count and seed give the same plan. */
  readonly schedules: number;
  /** Asked between schedules; true ends the search with the best so far. */
  readonly stop?: (() => boolean) | undefined;
  /** Known to fit nowhere: the first attempt will do. */
  readonly hopeless?: boolean;
  /** Any plan that fits will do; none better is looked for. */
  readonly any?: boolean;
  /** Whether there is a plan at all is asked before it is fought for. */
  readonly prove?: boolean;
  /** The attempt at the service as it is: where a change leaves no plan to be found, its attempt begins there. */
  readonly like?: Like | undefined;
  /** What a best attempt gives up first when not everything fits. */
  readonly relax?: readonly Relaxation[];
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

/**
 * Given up in this order when not everything fits: working time can be asked for, a wait can be shortened in
 * another way, guests who wait cannot be made good.
 */
export const GIVEN_UP: readonly Relaxation[] = ["overtime", "wait", "late", "capacity"];

/** Tasks planned at most: beyond them a kitchen's own page would wait for minutes, and no brigade reads the list. */
const MOST_TASKS = 5000;

const ATTEMPT = { schedules: 1, relax: [], hopeless: true } as const;

/** Builds the tasks of a service in a kitchen, schedules them, and reads the schedule back; no remedies. */
export function makePlan(
  docs: Documents,
  amounts: Amounts,
  options: SiteOptions,
  engine: Engine,
  effort: Effort,
): MadePlan {
  return planProblem(docs, amounts, problemFor(docs, amounts, options), engine, effort);
}

/** Schedules tasks that are built, and reads the schedule back. */
export function planProblem(
  docs: Documents,
  amounts: Amounts,
  { site, set, problem }: Pick<MadePlan, "site" | "set" | "problem">,
  engine: Engine,
  effort: Effort,
): MadePlan {
  // A plan that the sums rule out is only an attempt: the shortest search will do.
  const impossible = set.lacks.some(isTotal);
  const solved =
    set.tasks.length > MOST_TASKS
      ? tooMany(set.tasks.length, docs.pointer("services", amounts.service.id), effort)
      : engine(problem, impossible ? { ...effort, ...ATTEMPT } : { relax: GIVEN_UP, ...effort });
  return { site, set, problem, solved, plan: planOf(site, set, problem, solved, []) };
}

/** A lack over the whole time, found by sums: it is of no task in particular, and rules out any plan. */
export const isTotal = (lack: Lack) => lack.tasks.length === 0;

/** The tasks of a service in a kitchen and the problem they make, not yet scheduled. */
export function problemFor(docs: Documents, amounts: Amounts, options: SiteOptions) {
  const site = openSite(docs, amounts, options);
  const set = serviceTasks(site);
  const problem = problemOf(site, set);
  site.lacks.push(...totalLacks(site, set.tasks, problem.horizon));
  return { site, set, problem };
}

/** What the engine would say after minutes, said at once. */
function tooMany(tasks: number, path: string, { seed }: Effort): Solved {
  const what = `the service comes to ${tasks} tasks; at most ${MOST_TASKS} are planned`;
  const mend = "plan it in parts, make batches larger, or ask for amounts alone";
  return refused([{ path, what, mend }], seed);
}
