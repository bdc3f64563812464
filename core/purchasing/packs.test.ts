import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { chooseOrder, holds, type OrderProblem } from "./order.ts";
import { choosePacks, type ItemNeed, type PackOffer, tierPrice, uncutNeed } from "./packs.ts";

const whole = (supplier: number, packG: number, price: number, ...breaks: [number, number][]): PackOffer => ({
  ...{ supplier, cut: -1, packG },
  tiers: [{ from: 1, price }, ...breaks.map(([from, each]) => ({ from, price: each }))],
});
const need = (g: number, ...offers: PackOffer[]): ItemNeed => ({
  onHandG: 0,
  cuts: [{ epG: g, trim: 1 }],
  offers,
});
const all = () => true;

const offer = (suppliers: number, cuts: number): fc.Arbitrary<PackOffer> =>
  fc
    .record({
      supplier: fc.nat(suppliers - 1),
      cut: fc.integer({ min: -1, max: cuts - 1 }),
      packG: fc.integer({ min: 1, max: 40 }),
      price: fc.integer({ min: 1, max: 60 }),
      at: fc.integer({ min: 2, max: 6 }),
      off: fc.integer({ min: 0, max: 30 }),
    })
    .map(({ supplier, cut, packG, price, at, off }) => ({
      ...{ supplier, cut, packG },
      tiers: [{ from: 1, price }, ...(off > 0 ? [{ from: at, price: Math.max(1, price - off) }] : [])],
    }));
const item = (suppliers: number, most = 4): fc.Arbitrary<ItemNeed> =>
  fc
    .record({
      onHandG: fc.constantFrom(0, 0, 7),
      cuts: fc.array(
        fc.record({ epG: fc.integer({ min: 0, max: 60 }), trim: fc.constantFrom(1, 0.8, 0.5) }),
        {
          minLength: 1,
          maxLength: 2,
        },
      ),
    })
    .chain((base) =>
      fc
        .array(offer(suppliers, base.cuts.length), { minLength: 1, maxLength: most })
        .map((offers) => ({ ...base, offers })),
    );

/** Every choice there is, by plain counting. */
function cheapestByCounting(of: ItemNeed, allowed: (s: number) => boolean): number | undefined {
  const total = of.cuts.reduce((sum, cut) => sum + cut.epG / cut.trim, 0);
  let best: number | undefined;
  const packs = of.offers.map(() => 0);
  const go = (k: number, cost: number): void => {
    if (best !== undefined && cost >= best) return;
    const each = of.offers[k];
    if (!each) {
      if (uncutNeed(of, packs) <= 1e-6) best = cost;
      return;
    }
    const most = allowed(each.supplier) ? Math.ceil(total / each.packG) + 6 : 0;
    for (let n = 0; n <= most; n++) {
      packs[k] = n;
      go(k + 1, cost + n * tierPrice(each.tiers, n));
    }
    packs[k] = 0;
  };
  go(0, 0);
  return best;
}

describe("packs of one item", () => {
  test("O2 by hand: a case and singles, and six at the price of four", () => {
    expect(choosePacks(need(5200, whole(0, 6000, 2100), whole(0, 1000, 390)), all)!.packs).toEqual([1, 0]);
    expect(choosePacks(need(7500, whole(0, 6000, 2100), whole(0, 1000, 390)), all)!.packs).toEqual([1, 2]);
    expect(choosePacks(need(17, whole(0, 5, 60, [4, 54])), all)).toMatchObject({ packs: [4], cost: 216 });
    // Four at 54 are cheaper than the three at 75 that would do.
    expect(choosePacks(need(15, whole(0, 5, 75, [4, 54])), all)).toMatchObject({ packs: [4], cost: 216 });
    expect(choosePacks(need(0, whole(0, 5, 75)), all)).toMatchObject({ packs: [0], cost: 0 });
    expect(choosePacks(need(5), all)).toBeUndefined();
    expect(choosePacks(need(5, whole(1, 5, 75)), (s) => s === 0)).toBeUndefined();
  });

  // USDA Food Buying Guide, from a training handout of its standard formula: 460 servings of ½ cup, three
  // No. 10 cans for 100 servings of ¼ cup: 3.0 × 4.6 × 2 = 27.6, so 28 cans are bought.
  test("O2 the Food Buying Guide's cans", () => {
    const cans = 3.0 * (460 / 100) * (0.5 / 0.25);
    expect(cans).toBeCloseTo(27.6, 12);
    expect(choosePacks(need(cans, whole(0, 1, 1)), all)!.packs).toEqual([28]);
  });

  test("O1 goods already cut compete with whole goods that are trimmed here", () => {
    const trimmed = { onHandG: 0, cuts: [{ epG: 800, trim: 0.8 }] };
    const cut = (price: number): PackOffer => ({
      supplier: 0,
      cut: 0,
      packG: 800,
      tiers: [{ from: 1, price }],
    });
    expect(choosePacks({ ...trimmed, offers: [whole(0, 1000, 10), cut(9)] }, all)!.packs).toEqual([0, 1]);
    expect(choosePacks({ ...trimmed, offers: [whole(0, 1000, 10), cut(11)] }, all)!.packs).toEqual([1, 0]);
    expect(choosePacks({ ...trimmed, onHandG: 1000, offers: [whole(0, 1000, 10)] }, all)!.packs).toEqual([0]);
  });

  test("O2 never below the need, and the cheapest of all choices", () => {
    fc.assert(
      fc.property(item(2), (of) => {
        const choice = choosePacks(of, all);
        expect(choice?.cost).toBe(cheapestByCounting(of, all));
        if (!choice) return;
        expect(choice.exact).toBe(true);
        expect(uncutNeed(of, choice.packs)).toBeLessThanOrEqual(1e-6);
      }),
      { seed: 71, numRuns: 400 },
    );
  });

  test("O2 a need of millions of packs ends soon", () => {
    const begun = performance.now();
    const cut: PackOffer = { supplier: 0, cut: 0, packG: 1, tiers: [{ from: 1, price: 3 }] };
    const of = need(5_000_000, cut, { ...cut, packG: 1.01 }, whole(0, 1, 2), whole(0, 1.5, 3));
    const choice = choosePacks(of, all)!;
    expect(uncutNeed(of, choice.packs)).toBeLessThanOrEqual(1e-6);
    expect(choice.bound).toBeLessThanOrEqual(choice.cost);
    expect(performance.now() - begun).toBeLessThan(5000);
  });

  test("O2 a search cut short says so, covers the need all the same, and its bound is not above it", () => {
    const nearly = Array.from({ length: 9 }, (_, i) => whole(0, 997 + 2 * i, 99_700 + 200 * i + (i % 3)));
    const choice = choosePacks(need(1_234_567, ...nearly), all)!;
    expect(uncutNeed(need(1_234_567, ...nearly), choice.packs)).toBeLessThanOrEqual(1e-6);
    expect(choice.bound).toBeLessThanOrEqual(choice.cost);
    expect(choice.cost / choice.bound).toBeLessThan(1.01);
  });
});

/** The cheapest order by trying every packs of every item; minimums count what is missing. */
function orderByCounting(problem: OrderProblem): number {
  let best = Number.POSITIVE_INFINITY;
  const goods = problem.suppliers.map(() => 0);
  const spent = () => goods.reduce((sum, each) => sum + each, 0);
  const go = (i: number): void => {
    if (spent() >= best) return;
    const of = problem.items[i];
    if (!of) {
      const total = problem.suppliers.reduce(
        (sum, { minimum, charge }, s) => sum + (goods[s]! > 0 ? Math.max(goods[s]!, minimum) + charge : 0),
        0,
      );
      best = Math.min(best, total);
      return;
    }
    const packs = of.offers.map(() => 0);
    const pick = (k: number): void => {
      const each = of.offers[k];
      if (spent() >= best) return;
      if (!each) {
        if (uncutNeed(of, packs) <= 1e-6) go(i + 1);
        return;
      }
      const sum = of.cuts.reduce((total, cut) => total + cut.epG / cut.trim, 0);
      for (let n = 0; n <= Math.ceil(sum / each.packG) + (each.tiers[1]?.from ?? 0); n++) {
        const price = n * tierPrice(each.tiers, n);
        packs[k] = n;
        goods[each.supplier] = goods[each.supplier]! + price;
        pick(k + 1);
        goods[each.supplier] = goods[each.supplier]! - price;
      }
      packs[k] = 0;
    };
    pick(0);
  };
  go(0);
  return best;
}
const few = (g: number): ItemNeed => ({ onHandG: 0, cuts: [{ epG: g, trim: 1 }], offers: [] });
const problem = (minimum: number): fc.Arbitrary<OrderProblem> =>
  fc.record({
    suppliers: fc.array(
      fc.record({ minimum: fc.integer({ min: 0, max: minimum }), charge: fc.integer({ min: 0, max: 25 }) }),
      { minLength: 3, maxLength: 3 },
    ),
    items: fc.array(
      fc
        .record({
          g: fc.integer({ min: 1, max: 30 }),
          offers: fc.array(
            offer(3, 0).map((each) => ({ ...each, packG: each.packG + 8 })),
            { minLength: 1, maxLength: 3 },
          ),
        })
        .map(({ g, offers }) => ({ ...few(g), offers })),
      { minLength: 1, maxLength: 3 },
    ),
  });

describe("orders over suppliers", () => {
  test("O3 without minimums the order is the cheapest of all, and proven so", () => {
    fc.assert(
      fc.property(problem(0), (of) => {
        const choice = chooseOrder(of);
        expect(choice.uncovered).toEqual([]);
        expect(choice.total).toBe(orderByCounting(of));
        expect(choice.bound).toBe(choice.total);
      }),
      { seed: 72, numRuns: 150 },
    );
  });

  test("O3 with minimums the best order lies between the bound and the order", () => {
    let proven = 0;
    let off = 0;
    fc.assert(
      fc.property(problem(80), (of) => {
        const choice = chooseOrder(of);
        const best = orderByCounting(of);
        expect(choice.bound).toBeLessThanOrEqual(best);
        expect(choice.total).toBeGreaterThanOrEqual(best);
        if (choice.bound === choice.total) proven++;
        off = Math.max(off, choice.total / best - 1);
      }),
      { seed: 73, numRuns: 150 },
    );
    // Measured on these draws: 145 of 150 proven, every one the best; kept so that it does not get worse.
    expect(proven).toBeGreaterThanOrEqual(140);
    expect(off).toBeLessThan(0.02);
  });

  test("O3 a delivery charge can be worth a dearer offer", () => {
    const items = [need(5, whole(0, 5, 100)), need(5, whole(0, 5, 40), whole(1, 5, 30))];
    const free = { minimum: 0, charge: 0 };
    expect(chooseOrder({ suppliers: [free, free], items }).packs).toEqual([[1], [0, 1]]);
    expect(chooseOrder({ suppliers: [free, { minimum: 0, charge: 15 }], items }).packs).toEqual([
      [1],
      [1, 0],
    ]);
  });

  test("O3 a supplier under its minimum is filled from others where that pays", () => {
    const items = [need(5, whole(0, 5, 30)), need(5, whole(0, 5, 40), whole(1, 5, 35))];
    const suppliers = [
      { minimum: 70, charge: 0 },
      { minimum: 0, charge: 0 },
    ];
    const choice = chooseOrder({ suppliers, items });
    expect(choice.packs).toEqual([[1], [1, 0]]);
    expect([choice.total, choice.bound]).toEqual([70, 70]);
  });

  test("O3 items nobody can bring are named and the rest is ordered", () => {
    const choice = chooseOrder({
      suppliers: [{ minimum: 0, charge: 0 }],
      items: [need(5), need(5, whole(0, 5, 3))],
    });
    expect(choice).toMatchObject({ uncovered: [0], packs: [[], [1]], total: 3 });
  });

  test("O3 many suppliers are searched in parts, with an honest bound", () => {
    const n = 20;
    const suppliers = Array.from({ length: n }, (_, s) => ({ minimum: 0, charge: 10 + s }));
    const items = Array.from({ length: 30 }, (_, i) =>
      need(10, whole(i % n, 5, 20), whole((i * 7 + 1) % n, 5, 21)),
    );
    const choice = chooseOrder({ suppliers, items });
    expect(choice.bound).toBeLessThanOrEqual(choice.total);
    expect(choice.bound).toBeGreaterThan(0);
    expect(holds(choice.suppliers, 0) || holds(choice.suppliers, 1)).toBe(true);
  });
});
