import type { Amounts } from "../core/production/amounts.ts";
import type { Documents } from "../core/production/documents.ts";
import type { Engine } from "../core/production/make-plan.ts";
import { type PlanOptions, type PlanResult, planService } from "../core/production/plan-service.ts";
import { solve } from "../core/schedule/index.ts";
import { anHour, type SmallBook, smallAmounts, smallDocuments } from "./small-kitchen.ts";

/** The engine as the planner calls it, without a clock or a listener. */
export const smallEngine: Engine = (problem, { seed, schedules, relax, hopeless, any }) =>
  solve(problem, {
    ...{ seed, schedules },
    ...(relax ? { relax } : {}),
    ...(hopeless ? { hopeless } : {}),
    ...(any ? { any } : {}),
  });

/** The one service of a small book planned, with what it was planned from. */
export function smallPlan(
  book: SmallBook,
  options: Partial<PlanOptions> & Pick<PlanOptions, "schedules">,
): PlanResult & { readonly docs: Documents; readonly amounts: Amounts } {
  const docs = smallDocuments(book);
  const amounts = smallAmounts(docs);
  const all: PlanOptions = { seed: 1, engine: smallEngine, fillTarget: anHour, ...options };
  return { docs, amounts, ...planService(docs, amounts, all) };
}
