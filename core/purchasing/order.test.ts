import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { openSolver } from "../../solver/highs.ts";
import { chooseOrder, type OrderProblem, orderTotal } from "./order.ts";
import { improveOrder } from "./order-model.ts";
import type { PackOffer } from "./packs.ts";
import { covers, everyChoice, item, need, whole } from "./testing/small-orders.ts";

const solver = await openSolver();

/** The cheapest order by trying all packs of all items together; minimums count what is missing. */
function orderByCounting(of: OrderProblem): { total: number } {
  const choices = of.items.map((one) => {
    const all: number[][] = [];
    for (const packs of everyChoice(one)) if (covers(one, packs)) all.push([...packs]);
    // Nobody can cover it: nothing is ordered.
    return all.length > 0 ? all : [one.offers.map(() => 0)];
  });
  let total = Number.POSITIVE_INFINITY;
  const go = (packs: number[][]): void => {
    const next = choices[packs.length];
    if (!next) total = Math.min(total, orderTotal(of, packs));
    else for (const choice of next) go([...packs, choice]);
  };
  go([]);
  return { total };
}

/** Two or three ingredients over three deliveries, few enough packs that all can be counted. Money in whole units. */
const problem = (minimum: number): fc.Arbitrary<OrderProblem> =>
  fc.record({
    slots: fc.array(
      fc.record({
        minimum: fc.integer({ min: 0, max: minimum }).map(million),
        charge: fc.integer({ min: 0, max: 25 }).map(million),
      }),
      { minLength: 3, maxLength: 3 },
    ),
    items: fc.array(
      item(3, 2, 20).map((of) => ({
        ...of,
        worth: million(of.worth),
        offers: of.offers.map(
          (each): PackOffer => ({
            ...each,
            tiers: each.tiers.map((tier) => ({ ...tier, price: million(tier.price) })),
          }),
        ),
      })),
      { minLength: 1, maxLength: 2 },
    ),
  });
const million = (value: number) => 1e6 * value;

describe("orders over suppliers", () => {
  test("O3 without minimums the order is the cheapest of all, and proven so", () => {
    fc.assert(
      fc.property(problem(0), (of) => {
        const choice = chooseOrder(of);
        const best = orderByCounting(of);
        expect(choice.total).toBe(best.total);
        expect(choice.bound).toBe(choice.total);
        expect(orderTotal(of, choice.packs)).toBe(choice.total);
      }),
      { seed: 72, numRuns: 120 },
    );
  });

  test("O3 with minimums the best order lies between the bound and the order", () => {
    let proven = 0;
    let off = 0;
    fc.assert(
      fc.property(problem(80), (of) => {
        const choice = chooseOrder(of);
        const best = orderByCounting(of);
        expect(choice.bound).toBeLessThanOrEqual(best.total);
        expect(choice.total).toBeGreaterThanOrEqual(best.total);
        if (choice.bound === choice.total) proven++;
        off = Math.max(off, choice.total - best.total);
      }),
      { seed: 73, numRuns: 120 },
    );
    // Measured on these draws: 116 of 120 proven; kept so that it does not get worse.
    expect(proven).toBeGreaterThanOrEqual(114);
    expect(off).toBeLessThan(5e6);
  });

  test("O3 with the solver every order is the best there is, and proven so", () => {
    let improved = 0;
    fc.assert(
      fc.property(problem(80), (of) => {
        const own = chooseOrder(of);
        const made = improveOrder(of, own, solver);
        const best = orderByCounting(of);
        expect(made.total).toBe(best.total);
        expect(made.bound).toBeLessThanOrEqual(best.total);
        expect(made.total - made.bound).toBeLessThan(5000);
        if (made.total < own.total) improved++;
      }),
      { seed: 74, numRuns: 50 },
    );
    expect(improved).toBeGreaterThan(0);
  });

  test("O3 a delivery charge can be worth a dearer offer", () => {
    const items = [need(5, whole(0, 5, 100)), need(5, whole(0, 5, 40), whole(1, 5, 30))];
    const free = { minimum: 0, charge: 0 };
    expect(chooseOrder({ slots: [free, free], items }).packs).toEqual([[1], [0, 1]]);
    expect(chooseOrder({ slots: [free, { minimum: 0, charge: 15 }], items }).packs).toEqual([[1], [1, 0]]);
  });

  test("O3 a delivery under its minimum is filled from others where that pays", () => {
    const items = [need(5, whole(0, 5, 30)), need(5, whole(0, 5, 40), whole(1, 5, 35))];
    const slots = [
      { minimum: 70, charge: 0 },
      { minimum: 0, charge: 0 },
    ];
    const choice = chooseOrder({ slots, items });
    expect(choice.packs).toEqual([[1], [1, 0]]);
    expect([choice.total, choice.bound]).toEqual([70, 70]);
  });

  test("O3 items nobody can bring are named and the rest is ordered", () => {
    const choice = chooseOrder({
      slots: [{ minimum: 0, charge: 0 }],
      items: [need(5), need(5, whole(0, 5, 3))],
    });
    expect(choice).toMatchObject({ uncovered: [0], packs: [[], [1]], total: 3 });
  });

  test("O3 many suppliers are searched in parts, with an honest bound", () => {
    const n = 20;
    const slots = Array.from({ length: n }, (_, s) => ({ minimum: 0, charge: 10 + s }));
    const items = Array.from({ length: 30 }, (_, i) =>
      need(10, whole(i % n, 5, 20), whole((i * 7 + 1) % n, 5, 21)),
    );
    const choice = chooseOrder({ slots, items });
    expect(choice.bound).toBeLessThanOrEqual(choice.total);
    expect(choice.bound).toBeGreaterThan(0);
  });
});
