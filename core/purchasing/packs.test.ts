import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { choosePacks, lackG } from "./packs.ts";
import { covers, everyChoice, item, need, priceOf, whole } from "./testing/small-orders.ts";

const all = () => true;

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
    // 800 g trimmed at 0.8 are 1,000 g as purchased; 800 g already cut save as much.
    const cut = (price: number) => whole(0, 1000, price);
    expect(choosePacks(need(1000, whole(0, 1000, 10), cut(9)), all)!.packs).toEqual([0, 1]);
    expect(choosePacks(need(1000, whole(0, 1000, 10), cut(11)), all)!.packs).toEqual([1, 0]);
  });

  test("O5 goods that come too late, or would not keep, serve nothing; one delivery for both where they keep", () => {
    const early = { ...whole(0, 5, 10), serves: 1 };
    const late = { ...whole(1, 5, 9), serves: 2 };
    const both = { ...whole(0, 5, 10), serves: 3 };
    const item = { ...need(0), needs: [4, 6] };
    expect(choosePacks({ ...item, offers: [early, late] }, all)!.packs).toEqual([1, 2]);
    expect(choosePacks({ ...item, offers: [both, late] }, all)!.packs).toEqual([1, 1]);
    expect(choosePacks({ ...item, offers: [late] }, all)).toBeUndefined();
  });

  test("O8 what is left over and keeps counts at its worth, no further than is used again", () => {
    // A kilogram at 3.00, or five at 8.00 with four left over, worth half of 1.60 each: 8.00 − 0.80 × min(4, 1).
    const of = { ...need(1000, whole(0, 1000, 300), whole(0, 5000, 800)), worth: 0.08, worthMostG: 4000 };
    expect(choosePacks({ ...of, worth: 0 }, all)).toMatchObject({ packs: [1, 0], cost: 300 });
    expect(choosePacks(of, all)).toMatchObject({ packs: [1, 0], cost: 300 });
    const dear = { ...of, offers: [whole(0, 1000, 600), whole(0, 5000, 800)] };
    expect(choosePacks(dear, all)).toMatchObject({ packs: [0, 1], cost: 800 - 320 });
    expect(choosePacks({ ...dear, worthMostG: 1000 }, all)).toMatchObject({ packs: [1, 0], cost: 600 });
  });

  test("O2 never below the need, and the cheapest of all choices", () => {
    fc.assert(
      fc.property(item(2), (of) => {
        const choice = choosePacks(of, all);
        let cheapest = Number.POSITIVE_INFINITY;
        for (const packs of everyChoice(of))
          if (priceOf(of, packs) < cheapest && covers(of, packs)) cheapest = priceOf(of, packs);
        expect(choice?.cost ?? Number.POSITIVE_INFINITY).toBe(cheapest);
        if (!choice) return;
        expect(choice.exact).toBe(true);
        expect(covers(of, choice.packs)).toBe(true);
      }),
      { seed: 71, numRuns: 300 },
    );
  });

  test("O2 a need of millions of packs ends soon", () => {
    const begun = performance.now();
    const of = need(5_000_000, whole(0, 1, 3), whole(0, 1.01, 3), whole(0, 1, 2), whole(0, 1.5, 3));
    const choice = choosePacks(of, all)!;
    expect(lackG(of, choice.packs)).toBeLessThanOrEqual(1e-6);
    expect(choice.bound).toBeLessThanOrEqual(choice.cost);
    expect(performance.now() - begun).toBeLessThan(5000);
  });

  test("O2 a search cut short says so, covers the need all the same, and its bound is not above it", () => {
    const nearly = Array.from({ length: 9 }, (_, i) => whole(0, 997 + 2 * i, 99_700 + 200 * i + (i % 3)));
    const choice = choosePacks(need(1_234_567, ...nearly), all)!;
    expect(lackG(need(1_234_567, ...nearly), choice.packs)).toBeLessThanOrEqual(1e-6);
    expect(choice.bound).toBeLessThanOrEqual(choice.cost);
    expect(choice.cost / choice.bound).toBeLessThan(1.01);
  });
});
