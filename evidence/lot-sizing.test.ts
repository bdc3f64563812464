import { describe, expect, test } from "vitest";
import { chooseOrder, type OrderProblem } from "../core/purchasing/order.ts";
import { improveOrder } from "../core/purchasing/order-model.ts";
import { openSolver } from "../solver/highs.ts";

/**
 * Wagner, H. M. and Whitin, T. M., "Dynamic version of the economic lot size model", Management Science 5 (1958) 89-96:
 * twelve months of demand with a set-up cost a month, a unit kept for a month costs 1; the least cost is 864. Figures
 * from memory; the dynamic programme below, written from the paper's recursion, comes to the same.
 */
const DEMAND = [69, 29, 36, 61, 61, 26, 34, 67, 45, 67, 79, 56];
const SET_UP = [85, 102, 102, 101, 98, 114, 105, 86, 119, 110, 98, 114];
const LEAST = 864;
const MILLION = 1e6;

/** Each month's demand is a need; what is ordered for it k months before costs k a unit to keep. */
const problem: OrderProblem = {
  slots: SET_UP.map((charge) => ({ minimum: 0, charge: charge * MILLION })),
  items: DEMAND.map((demand, month) => ({
    ...{ needs: [demand], worth: 0, worthMostG: 0 },
    offers: Array.from({ length: month + 1 }, (_, slot) => ({
      ...{ slot, brings: demand, serves: 1 },
      tiers: [{ from: 1, price: (month - slot) * demand * MILLION }],
    })),
  })),
};

describe("orders over time against Wagner and Whitin", () => {
  test("the recursion of the paper comes to the published cost", () => {
    const least = [0];
    for (let to = 1; to <= DEMAND.length; to++) {
      const from = (first: number) =>
        DEMAND.slice(first, to).reduce((sum, demand, k) => sum + k * demand, SET_UP[first]! + least[first]!);
      least.push(Math.min(...Array.from({ length: to }, (_, first) => from(first))));
    }
    expect(least.at(-1)).toBe(LEAST);
  });

  test("the solver's orders cost the same, and are proven", async () => {
    const own = chooseOrder(problem);
    expect(own.bound).toBeLessThanOrEqual(LEAST * MILLION);
    expect(own.total).toBeGreaterThanOrEqual(LEAST * MILLION);
    const made = improveOrder(problem, own, await openSolver());
    expect(made.total / MILLION).toBe(LEAST);
    expect(made.bound / MILLION).toBeGreaterThan(LEAST - 0.005);
  });
});
