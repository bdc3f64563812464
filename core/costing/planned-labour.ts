import type { Tracer } from "../ledger/tracer.ts";
import type { Amounts } from "../production/amounts.ts";
import type { Plan } from "../production/plan-types.ts";
import type { BuyingDocuments } from "../purchasing/documents.ts";
import { wagesOfSpans } from "./rules.ts";

/**
 * What the hands of a plan cost: each person's minutes at work at the person's own cost of an hour, else the
 * kitchen's. Undefined without a plan, or where somebody who works in it has no cost.
 */
export function plannedLabour(
  plan: Plan,
  amounts: Amounts,
  docs: BuyingDocuments,
  tracer: Tracer | undefined,
): number | undefined {
  const { kitchen } = amounts;
  const at = `book:${docs.pointer("kitchens", kitchen.id)}`;
  const rates = new Map(
    kitchen.crew.flatMap(({ id, rate }, i) => {
      const own = rate === undefined ? kitchen.rate : rate;
      if (own === undefined) return [];
      const path = rate === undefined ? `${at}/rate` : `${at}/crew/${i}/rate`;
      return [[id, { path, perHour: Number(own) }] as const];
    }),
  );
  const inputs: string[] = [];
  const numbers: number[] = [];
  for (const [i, task] of plan.tasks.entries())
    for (const person of task.hands) {
      const rate = rates.get(person);
      if (!rate) return undefined;
      numbers.push(task.endMin, task.startMin, rate.perHour);
      inputs.push(`/plan/tasks/${i}/endMin`, `/plan/tasks/${i}/startMin`, rate.path);
    }
  if (numbers.length === 0) return undefined;
  const value = wagesOfSpans(...numbers);
  tracer?.note("/cost/labour/planned", {
    value,
    unit: kitchen.currency,
    rule: wagesOfSpans.name,
    inputs,
  });
  return value;
}
