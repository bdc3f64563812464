import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type BookInput,
  changed,
  kg,
  library,
  meetsOf,
  placement,
  SMALL_BOOK,
  step,
} from "../../tests/small-book.ts";
import { clockOf } from "../production/clock.ts";
import { computeAmounts } from "../production/compute-amounts.ts";
import { Buying } from "../purchasing/buying.ts";
import { ordersResult } from "../purchasing/orders-result.ts";
import { costResult } from "./cost-result.ts";
import { costCells } from "./costs.ts";
import { yieldTest } from "./yield-test.ts";

const clock = clockOf("2027-01-30T19:30", "Europe/London", "D-2 06:00");

function costed(book: BookInput = SMALL_BOOK, covers?: number) {
  const docs = library(book);
  const amounts = computeAmounts(docs, "small", { covers, meets: meetsOf(docs) });
  const buying = new Buying(amounts, docs);
  const cells = costCells(amounts, docs, buying.offers);
  const result = (at: typeof amounts) =>
    costResult(cells, at, docs, ordersResult(buying, at, docs, { clock }).outcome);
  return { amounts, cells, result, cost: result(amounts) };
}
const plate = (of: ReturnType<typeof costed>, dish: string, variant = "standard") =>
  of.cost.perPlate.find((each) => each.dish === dish && each.variant === variant)!;
const perKg = (of: ReturnType<typeof costed>, id: string) =>
  of.cost.preparations.find((each) => each.preparation === id)!.perKg;

describe("cost of a service", () => {
  test("C1 C3 by hand, through three preparations", () => {
    const of = costed();
    // Stock: 4 kg of bones at 1.20 over 6 kg.
    expect(perKg(of, "stock")).toBeCloseTo(0.8, 12);
    // Rib: 6 kg at 12.00 / 0.75 and 2 kg of stock, over 5 kg.
    expect(perKg(of, "rib")).toBeCloseTo((6 * 16 + 2 * 0.8) / 5, 12);
    // Jus: 4 kg of stock and salt to taste, 5 g at 0.90.
    expect(perKg(of, "jus")).toBeCloseTo(4 * 0.8 + 0.005 * 0.9, 12);
    expect(plate(of, "rib").plate).toBeCloseTo(0.2 * perKg(of, "rib") + 0.04 * perKg(of, "jus"), 12);
    // The soup's own price is 9.
    expect(plate(of, "soup").share).toBeCloseTo(plate(of, "soup").plate / 9, 12);
    // Celeriac by the 5 kg at 1.80 a kilogram, not by the kilogram at 2.60; trimmed at 0.8.
    const soup = (2 * (1.8 / 0.8) + 0.505 * (3.5 / 1.01) + 0.0266177766 * 0.9) / 4;
    expect(perKg(of, "soup")).toBeCloseTo(soup, 6);
    expect(of.cost.menuShare).toBeCloseTo(of.cost.menu / 55, 12);
  });

  test("C1 goods sold in the cut win when they are cheaper by usable gram", () => {
    const offer = (price: string) =>
      changed(({ suppliers }) => {
        const rib = { ingredient: "short-rib", cut: "trimmed", innerPerPack: 1 };
        suppliers[1]!.offers!.push({ ...rib, id: "t", inner: kg(1), price });
      });
    expect(perKg(costed(offer("15.99")), "rib")).toBeCloseTo((6 * 15.99 + 1.6) / 5, 12);
    expect(perKg(costed(offer("16.01")), "rib")).toBeCloseTo((6 * 16 + 1.6) / 5, 12);
  });

  test("C2 usable trim is credited", () => {
    const book = changed(({ ingredients }) => {
      const cut = ingredients.find((each) => each.id === "short-rib")!.cuts![0]!;
      cut.usableTrim = { share: 0.15, valuePerKg: "4.00" };
    });
    expect(perKg(costed(book), "rib")).toBeCloseTo((6 * ((12 - 0.15 * 4) / 0.75) + 1.6) / 5, 12);
  });

  test("C4 without overage, spare and rounding what is used is what is eaten", () => {
    const plain = changed(({ preparations, services, dishes, menus }) => {
      for (const each of preparations)
        Object.assign(each, { overage: 0, batch: {}, yield: { amount: each.yield.amount } });
      services[0]!.guests = [];
      services[0]!.tasting = 0;
      services[0]!.stock = [];
      for (const dish of dishes) dish.variants = [];
      dishes[1]!.placements = [placement(1, "rib", 200), placement(2, "jus", 40)];
      dishes[2]!.placements = [placement(1, "pie", 275)];
      menus[0]!.courses[1]!.options[1]!.share = 0.3;
    });
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 900 }), (covers) => {
        const { cost } = costed(plain, covers);
        expect(cost.used).toBeCloseTo(cost.menu * covers, 8);
      }),
      { seed: 81, numRuns: 20 },
    );
  });

  test("C4 with them, used is more; an ingredient on the plate itself is counted", () => {
    const book = changed(({ dishes }) => {
      const { preparation: _, ...cress } = placement(3, "x", 2);
      dishes[2]!.placements.push({ ...cress, ingredient: "mushroom", cut: "trimmed" });
    });
    const [before, after] = [costed(), costed(book)];
    expect(before.cost.used).toBeGreaterThan(before.cost.menu * 40);
    const each = (2 / 1000) * (5.5 / 0.9);
    expect(plate(after, "pie").plate - plate(before, "pie").plate).toBeCloseTo(each, 9);
    expect(after.cost.used - before.cost.used).toBeCloseTo(15 * each, 9);
  });

  test("C4 a free ingredient costs nothing", () => {
    const book = changed(({ preparations }) => {
      preparations[0]!.lines = [{ id: "w", item: { ingredient: "water" }, amount: kg(7.5), step: "simmer" }];
      preparations[0]!.steps = [step("simmer", { change: { factor: 0.8 } })];
    });
    expect(perKg(costed(book), "stock")).toBe(0);
  });

  test("C5 leftover is what is bought beyond the need, at the price paid", () => {
    const only = changed(({ menus, services }) => {
      menus[0]!.courses = [{ id: "main", name: "Main", afterMin: 0, options: [{ dish: "pie", share: 1 }] }];
      services[0]!.guests = [];
      services[0]!.stock = [];
      services[0]!.tasting = 0;
    });
    // 40 pies: five moulds. Flour 3 kg of 3; butter 1.5 of 5 kg; barley 1.1667 of 2; mushroom 5.5556 of 6 kg.
    const of = costed(only);
    const left = 3.5 * 9 + (2 - 3.5 / 3) * 1.8 + (6 - 5 / 0.9) * 5.5;
    expect(of.cost.leftover).toBeCloseTo(left, 9);
  });

  test("C4 after any history of covers the cost is what a fresh computation gives", () => {
    const kept = costed();
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 7, max: 900 }), { minLength: 1, maxLength: 4 }), (history) => {
        let now = kept.amounts;
        for (const covers of history) now = now.update(covers);
        expect(kept.result(now)).toEqual(costed(SMALL_BOOK, history.at(-1)!).cost);
      }),
      { seed: 82, numRuns: 30 },
    );
  });

  test("C3 a price written anew reaches every plate, as in a fresh book", () => {
    const kept = costed();
    const { ledger } = kept.amounts;
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 20_000 }), (pence) => {
        const price = (pence / 100).toFixed(2);
        ledger.change(ledger.find("book:/suppliers/1/offers/1/price")!, Number(price));
        ledger.settle();
        const fresh = costed(
          changed(({ suppliers }) => {
            suppliers[1]!.offers![1]!.price = price;
          }),
        );
        expect(ledger.value(kept.cells.menu)).toBe(fresh.cost.menu);
        expect(ledger.value(kept.cells.used)).toBe(fresh.cost.used);
      }),
      { seed: 83, numRuns: 25 },
    );
  });
});

describe("yield test", () => {
  test("C2 the credited price is that of a cut with usable trim", () => {
    const part = fc.record({
      name: fc.constant("part"),
      kg: fc.double({ min: 0, max: 3, noNaN: true }),
      valuePerKg: fc.oneof(fc.constant(0), fc.double({ min: 0.01, max: 5, noNaN: true })),
    });
    const usable = fc.double({ min: 0.5, max: 20, noNaN: true });
    fc.assert(
      fc.property(
        usable,
        fc.array(part, { maxLength: 4 }),
        fc.double({ min: 10, max: 60, noNaN: true }),
        (kgs, parts, per) => {
          const ap = kgs + parts.reduce((total, each) => total + each.kg, 0) + 0.1;
          const found = yieldTest(ap, per, kgs, parts);
          const credit = found.usableTrim ? found.usableTrim.share * found.usableTrim.valuePerKg : 0;
          expect((per - credit) / found.trimYield).toBeCloseTo(found.usablePerKg, 6);
          expect(found.lostKg).toBeCloseTo(0.1, 6);
          expect(found.costFactor * per).toBeCloseTo(found.usablePerKg, 9);
        },
      ),
      { seed: 84 },
    );
  });

  test("C2 parts heavier than the whole are refused", () => {
    expect(() => yieldTest(1, 10, 0.8, [{ name: "bone", kg: 0.3, valuePerKg: 0 }])).toThrow(
      /more than the 1 kg/,
    );
    expect(() => yieldTest(0, 10, 0.8, [])).toThrow(RangeError);
  });
});
