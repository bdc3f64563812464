import { describe, expect, test } from "vitest";
import { costResult, plateCosts } from "../core/costing/cost-result.ts";
import { costCells } from "../core/costing/costs.ts";
import { usablePrice } from "../core/costing/rules.ts";
import { yieldTest } from "../core/costing/yield-test.ts";
import { untraced } from "../core/ledger/tracer.ts";
import { purchasedFor } from "../core/pantry/rules.ts";
import { clockOf } from "../core/production/clock.ts";
import { computeAmounts } from "../core/production/compute-amounts.ts";
import { Buying } from "../core/purchasing/buying.ts";
import { ordersResult } from "../core/purchasing/orders-result.ts";
import { changed, library, meetsOf } from "../tests/small-book.ts";

describe("costing examples of handbooks", () => {
  // Basic Kitchen and Food Service Management, The BC Cook Articulation Committee (BCcampus), "Controlling Food
  // Costs", standard portion cost (published): eggs at 2.00 a dozen, two a portion, 0.34 as printed, each egg
  // rounded to a cent; bacon at 3.75 for 500 g of 20 rashers, four a portion, 0.75; the plate 1.09.
  test("bacon and eggs: 0.75 + 0.34 = 1.09, to the cent by which the handbook rounds each egg", () => {
    const source = { doc: "Basic Kitchen and Food Service Management", kind: "published" } as const;
    const food = { allergens: { status: "known" as const }, storage: { state: "cold" as const, days: 9 } };
    const book = changed((all) => {
      all.ingredients.push(
        // The price goes by the dozen: the mass of an egg cancels out. 55 g is from memory.
        { ...food, id: "egg", name: "Egg", origin: ["egg"], pieces: [{ name: "piece", g: 55, source }] },
        { ...food, id: "bacon", name: "Bacon", origin: ["meat"], pieces: [{ name: "slice", g: 25, source }] },
      );
      all.suppliers[1]!.offers!.push(
        { id: "eggs", ingredient: "egg", inner: { value: 1, unit: "dozen" }, innerPerPack: 1, price: "2.00" },
        {
          id: "bacon",
          ingredient: "bacon",
          inner: { value: 500, unit: "g" },
          innerPerPack: 1,
          price: "3.75",
        },
      );
      const { preparation: _, ...on } = all.dishes[1]!.placements[0]!;
      all.dishes[1]!.placements = [
        { ...on, n: 1, ingredient: "egg", amount: { value: 2, unit: "piece" } },
        { ...on, n: 2, ingredient: "bacon", amount: { value: 4, unit: "slice" } },
      ];
    });
    const docs = library(book);
    const amounts = computeAmounts(docs, "small", { meets: meetsOf(docs) });
    const buying = new Buying(amounts, docs);
    const clock = clockOf("2027-01-30T19:30", "Europe/London", "D-2 06:00");
    const { outcome } = ordersResult(buying, amounts, docs, { clock });
    const cost = costResult(costCells(amounts, docs, buying.offers), amounts, docs, outcome);
    const plate = cost.perPlate.find((each) => each.dish === "rib")!.plate;
    expect(plate).toBeCloseTo(2 / 6 + 0.75, 12);
    expect(Math.abs(plate - 1.09)).toBeLessThan(0.01);
  });

  // G. Wall, Trade Calculations (2007), objective 4 (published): a striploin of 5.2 kg trims to 4.6 kg, 88.5 %;
  // 11.95 a kilogram; 85 steaks of 170 g. Only the yield's figure was read; the others follow from it.
  test("striploin: yield 88.5 %, its price by usable kilogram, what to buy for 85 steaks", () => {
    const of = yieldTest(5.2, 11.95, 4.6, []);
    expect(Math.round(of.trimYield * 1000) / 10).toBe(88.5);
    expect(of.usablePerKg).toBeCloseTo((5.2 * 11.95) / 4.6, 12);
    expect(of.lostKg).toBeCloseTo(0.6, 12);
    expect(purchasedFor(85 * 170, of.trimYield) / 1000).toBeCloseTo(16.33, 1);
  });

  // P. Dittmer and J. Keefe, Principles of Food, Beverage and Labor Cost Controls, butcher test problem (published):
  // rib of beef of 38 lb 12 oz at 3.19 a pound. The problem gives no answer; it is worked by the book's own form:
  // total cost − value of the other parts = value of the primary part; / its weight = cost by usable pound.
  test("butcher test of a rib of beef", () => {
    const of = yieldTest(38.75, 3.19, 22, [
      { name: "fat", kg: 6.5, valuePerKg: 0 },
      { name: "bones", kg: 4.25, valuePerKg: 0.32 },
      { name: "short ribs", kg: 3.25, valuePerKg: 1.49 },
      { name: "chopped beef", kg: 2.5, valuePerKg: 1.59 },
    ]);
    // 123.61 − (1.36 + 4.84 + 3.98) = 113.43; / 22 = 5.16; / 3.19 = 1.62.
    expect(of.usablePerKg).toBeCloseTo(5.16, 2);
    expect(of.costFactor).toBeCloseTo(1.62, 2);
    // Loss in cutting, 4 oz, is what is left.
    expect(of.lostKg).toBeCloseTo(0.25, 12);
  });

  // Culinary Math Learning Centre, Vancouver Community College Library, "Recipe Costing" (published): apples at 5.60
  // for 10 lb with a yield of 75 %: factor 1.333, edible cost 7.465 for 10 lb (the factor rounded to three places).
  test("apples: 5.60 as purchased at 75 % is 7.465 edible", () => {
    expect(Math.abs(usablePrice(5.6, 0.75) - 7.465)).toBeLessThan(5.6 * 0.0005);
    expect(usablePrice(1, 0.75)).toBeCloseTo(1.333, 3);
  });

  // Restaurant Business, Advice Guy, "Calculating hidden food costs" (published): a steak at 18 whose parts cost 6 runs
  // at 33 %; with a Q factor of 1 for roll, butter and sauce it is 7 of 18. The second share is worked here.
  test("a steak with a Q factor: 33 % of the price without it, 39 % with it", () => {
    expect(Math.round((6 / 18) * 100)).toBe(33);
    const book = changed((all) => {
      const ingredient = { ...all.ingredients.find(({ id }) => id === "mushroom")!, id: "steak", cuts: [] };
      all.ingredients.push(ingredient);
      const kg = { value: 1, unit: "kg" as const };
      all.suppliers[1]!.offers!.push({
        id: "steak",
        ingredient: "steak",
        inner: kg,
        innerPerPack: 1,
        price: "24",
      });
      const { preparation: _, ...on } = all.dishes[1]!.placements[0]!;
      const amount = { value: 250, unit: "g" as const };
      for (const dish of all.dishes)
        Object.assign(dish, { placements: [{ ...on, n: 1, ingredient: "steak", amount }], variants: [] });
      all.menus[0]!.courses = [
        { id: "main", name: "Main", afterMin: 0, options: [{ dish: "rib", share: 1 }] },
      ];
      all.menus[0]!.surround = { perCover: "1.00" };
      Object.assign(all.services[0]!, {
        guests: [],
        stock: [],
        sellPerCover: "18",
        pricing: { wantedShare: 7 / 18 },
      });
    });
    const docs = library(book);
    const amounts = computeAmounts(docs, "small", { meets: meetsOf(docs) });
    const costs = costCells(amounts, docs, new Buying(amounts, docs).offers);
    const { service, ledger } = amounts;
    const cost = plateCosts(costs, amounts, docs, untraced(ledger), "/cost", service.pricing);
    expect(cost.menu).toBeCloseTo(6, 9);
    expect(cost.menuShare).toBeCloseTo(0.333, 3);
    expect(cost.food!.share).toBeCloseTo(7 / 18, 9);
    // And back: at that share the price is 18.
    expect(cost.price!.menu.printed).toBeCloseTo(18, 2);
  });
});
