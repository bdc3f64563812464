import type { Library } from "../book/index-book.ts";
import { BOOK_FORMAT, BOOK_VERSION, type Book } from "../book/schema.ts";
import { type Finding, type InspectOptions, inspect, inspectAt, type Moment } from "../inspection/index.ts";
import type { Amounts } from "../production/amounts.ts";
import { needsResult, platesResult } from "../production/amounts-result.ts";
import type { Documents } from "../production/documents.ts";
import type { Plan } from "../production/plan-types.ts";
import type { FillTarget } from "../production/site.ts";

/** The book that documents stand in, some of them perhaps changed for a trial. */
function bookOf(docs: Documents & Pick<Library, "suppliers">): Book {
  return {
    format: BOOK_FORMAT,
    version: BOOK_VERSION,
    ingredients: [...docs.ingredients.values()],
    suppliers: [...docs.suppliers.values()],
    preparations: [...docs.preparations.values()],
    dishes: [...docs.dishes.values()],
    menus: [...docs.menus.values()],
    kitchens: [...docs.kitchens.values()],
    services: [...docs.services.values()],
  };
}

/**
 * What the inspector finds wrong with a plan that the plan does not say itself; with a moment, as it stands then, in the
 * middle of the service.
 */
export function unsaid(
  docs: Documents & Pick<Library, "suppliers">,
  amounts: Amounts,
  plan: Plan,
  fill: FillTarget,
  moment?: Moment,
): readonly Finding[] {
  const result = { plates: platesResult(amounts), needs: needsResult(amounts), plan };
  const options: InspectOptions = {
    service: amounts.service.id,
    covers: amounts.covers,
    kitchen: amounts.kitchen.id,
    heatMinutes: (id, stepId) => {
      const preparation = docs.preparations.get(id)!;
      const step = preparation.steps.find((one) => one.id === stepId)!;
      const filled = fill(preparation, step, { inG: 0, outG: 0, pieces: 0 });
      return "minutes" in filled ? filled.minutes : undefined;
    },
  };
  const book = bookOf(docs);
  return (moment ? inspectAt(book, result, options, moment) : inspect(book, result, options)).findings;
}

/** A plan as the inspector leaves it: what it did not say is added to what it breaks. */
export function inspected(plan: Plan, findings: readonly Finding[]): Plan {
  if (findings.length === 0) return plan;
  return {
    ...plan,
    status: plan.status === "feasible" ? "broken" : plan.status,
    broken: [
      ...plan.broken,
      ...findings.map(({ rule, tasks, by, unit, what }) => ({ rule, tasks, by, unit, what })),
    ],
  };
}
