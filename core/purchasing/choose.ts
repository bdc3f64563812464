import type { MixedInteger } from "./mixed-integer.ts";
import { chooseOrder, type OrderChoice, type OrderProblem } from "./order.ts";
import { improveOrder } from "./order-model.ts";

/**
 * The cheapest order: by this room's own search, and where that proves nothing, made better and bounded by the solver,
 * if there is one.
 */
export function bestOrder(problem: OrderProblem, solver: MixedInteger | undefined): OrderChoice {
  const own = chooseOrder(problem);
  if (!solver || own.bound >= own.total) return own;
  return { ...own, ...improveOrder(problem, own, solver) };
}
