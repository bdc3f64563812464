import type { Tracer } from "../ledger/tracer.ts";
import type { Amounts } from "./amounts.ts";
import type { Apart } from "./apart.ts";
import type { Clock } from "./clock.ts";
import { conflictOf } from "./conflict.ts";
import type { Documents } from "./documents.ts";
import { firstNeeds, spansOfUse, type UseSpan } from "./first-needs.ts";
import { type Effort, type Engine, type MadePlan, makePlan } from "./make-plan.ts";
import { noPlanOf } from "./no-plan.ts";
import type { SiteOptions } from "./open-site.ts";
import { tracePlan } from "./plan-trace.ts";
import type { Plan, PrepList } from "./plan-types.ts";
import { plannedTasks, prepLists } from "./prep-lists.ts";
import { type CountedPull, pullList } from "./pull.ts";
import { type RemedyOptions, remediesFor, type Tried } from "./remedies.ts";
import type { FillTarget } from "./site.ts";
import type { Doubt } from "./tasks.ts";

export interface PlanOptions {
  /** Of the search; the same seed and schedules give the same plan. */
  readonly seed: number;
  readonly schedules: number;
  readonly engine: Engine;
  readonly fillTarget: FillTarget;
  /** Minute from which an ingredient is there (deliveries). */
  readonly earliestBy?: ReadonlyMap<string, number> | undefined;
  /** What must be kept apart for a guest (README, P25). */
  readonly apart?: Apart | undefined;
  readonly stop?: (() => boolean) | undefined;
  readonly onProgress?: Effort["onProgress"];
  /** Whether an independent checker accepts a plan tried as a remedy. */
  readonly judge?: ((plan: Plan, tried: Tried) => boolean) | undefined;
  /** Schedules for each remedy tried; 0 tries none. Default: a quarter of `schedules`, at least 100. */
  readonly remedySchedules?: number | undefined;
  /** Told of the remedies found so far, each time there is one more. */
  readonly onRemedies?: RemedyOptions["onFound"];
  /** The same service at fewer covers, or undefined when it cannot be. Default: none are tried. */
  readonly amountsFor?: ((covers: number) => Amounts | undefined) | undefined;
}

export interface PlanResult {
  readonly plan: Plan;
  readonly prepLists: readonly PrepList[];
  readonly pull: readonly CountedPull[];
  /** Minute of the first need, by ingredient. */
  readonly firstNeeds: ReadonlyMap<string, number>;
  /** When each use takes its ingredients (`spansOfUse`). */
  readonly uses: ReadonlyMap<string, UseSpan>;
  readonly warnings: readonly Doubt[];
  readonly clock: Clock;
  /** Tasks, problem and schedule behind the plan. */
  readonly made: MadePlan;
  /** Notes under `pointer` how every number of the plan came. */
  trace(tracer: Tracer, pointer?: string): void;
}

/**
 * Plans a service: tasks, schedule, lists and, when the plan does not hold, remedies (README, "Plan").
 * Never throws for a plan that cannot be: the plan's status and what it breaks say so.
 */
export function planService(docs: Documents, amounts: Amounts, options: PlanOptions): PlanResult {
  const { seed, schedules, stop, onProgress } = options;
  const fillTarget = remembered(options.fillTarget);
  const site: SiteOptions = { fillTarget, earliest: options.earliestBy, apart: options.apart };
  const made = makePlan(docs, amounts, site, options.engine, { seed, schedules, stop, onProgress });
  const clash = conflicting(made, options);
  const noPlan = noPlanOf(made, clash, stop);
  const told = { ...(clash ? { conflict: clash.rules } : {}), ...(noPlan ? { noPlan } : {}) };
  const known = { ...made, plan: { ...made.plan, ...told } };
  const plan = { ...known.plan, remedies: remediesOf(docs, known, site, options) };
  const planned = plannedTasks(made.set, plan.tasks);
  return {
    plan,
    prepLists: prepLists(made.site, planned),
    pull: pullList(made.site, planned),
    firstNeeds: firstNeeds(made.site, planned),
    uses: spansOfUse(made.site, planned),
    warnings: made.site.doubts,
    clock: made.site.clock,
    made,
    trace: (tracer, pointer) => tracePlan(tracer, made, plan, schedules, pointer),
  };
}

/** What rules out a plan that breaks something; a lack is its own word, said first. */
function conflicting(made: MadePlan, { engine, seed, stop, remedySchedules }: PlanOptions) {
  if (made.plan.status !== "broken" || remedySchedules === 0 || made.set.lacks.length > 0) return undefined;
  return conflictOf(made, engine, { seed, stop });
}

function remediesOf(
  docs: Documents,
  made: MadePlan,
  site: SiteOptions,
  options: PlanOptions,
): Plan["remedies"] {
  const schedules = options.remedySchedules ?? Math.max(100, Math.round(options.schedules / 4));
  // What is too large to be planned is too large to be planned another way.
  if (made.plan.status === "feasible" || made.solved.reason === "refused" || schedules === 0) return [];
  const guests = made.site.amounts.service.guests.reduce((sum, group) => sum + group.count, 0);
  const remedies: RemedyOptions = {
    effort: { seed: options.seed, schedules, stop: options.stop, any: true, prove: true },
    judge: options.judge,
    onFound: options.onRemedies,
    amountsFor: options.amountsFor,
    leastCovers: Math.max(1, guests),
  };
  return remediesFor(made, docs, site, options.engine, remedies);
}

/** Heat is slow and batches are alike: each step and mass is asked once. */
function remembered(fill: FillTarget): FillTarget {
  const known = new Map<string, ReturnType<FillTarget>>();
  return (preparation, step, load) => {
    const byMass = step.target?.stages.some(
      (stage) => stage.untilMass !== undefined || stage.oven !== undefined,
    );
    const mass = byMass ? ` ${load.inG} ${load.outG} ${load.pieces}` : "";
    const key = `${preparation.id}/${step.id}${mass}`;
    const found = known.get(key);
    if (found) return found;
    const filled = fill(preparation, step, load);
    known.set(key, filled);
    return filled;
  };
}
