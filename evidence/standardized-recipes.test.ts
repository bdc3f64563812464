import { describe, expect, test } from "vitest";
import { factorForPortions, factorOnHand, type Scalable, scalable } from "../core/formula/scaling.ts";
import { PreparationSchema } from "../core/formula/schema.ts";
import { IngredientSchema } from "../core/pantry/schema.ts";
import { convert, toBase } from "../core/quantity/index.ts";
import { roundToStep } from "../core/quantity/steps.ts";

/**
 * Armed Forces Recipe Service, TM 10-412 (2003), A. General Information No. 1(2) and 1(3), "Recipe conversion"
 * (US Department of Defense, published): recipes make 100 portions; a working factor scales them in three ways.
 */
const ingredient = (id: string, kgPerL?: number) =>
  IngredientSchema.parse({
    ...{
      id,
      name: id,
      origin: ["plant"],
      allergens: { status: "known" },
      storage: { state: "cold", days: 5 },
    },
    densities:
      kgPerL === undefined
        ? []
        : [{ state: "plain", kgPerL, source: { doc: "1 by choice", kind: "memory" } }],
  });

/** A recipe for 100 portions of 4 oz with one of the handbook's lines. */
function recipe(id: string, amount: { value: number; unit: string }, kgPerL?: number): Scalable {
  const preparation = PreparationSchema.parse({
    ...{ id: "x", name: "x", yield: { amount: { value: 400, unit: "oz" } } },
    lines: [{ id, item: { ingredient: id }, amount, step: "mix" }],
    steps: [{ id: "mix", name: "Mix", text: "Mix." }],
  });
  const larder = {
    ingredients: new Map([[id, ingredient(id, kgPerL)]]),
    preparations: new Map([["x", preparation]]),
  };
  return scalable(larder, "x", (kind) => `/${kind}/0`);
}
const ounces = (value: number) => toBase({ value, unit: "oz" }).value;
const inPounds = (grams: number) => {
  const done = convert({ value: grams, unit: "g" }, "lb");
  if (!done.ok) throw new Error(done.message);
  return done.value;
};

describe("TM 10-412, recipe conversion by the factor method", () => {
  test("348 portions: factor 3.48; 1.25 lb becomes 4.35 lb, weighed as 4 lb 5 1/2 oz", () => {
    const of = recipe("beef", { value: 1.25, unit: "lb" });
    const factor = factorForPortions(of, 348, ounces(4));
    expect(factor).toBeCloseTo(3.48, 12);
    const pounds = inPounds(of.uses.get("beef")!.epG * factor);
    expect(pounds).toBeCloseTo(4.35, 12);
    expect((pounds - 4) * 16).toBeCloseTo(5.6, 10);
    // The handbook's table rounds to quarters of an ounce; a scale with that step shows the same.
    const quarter = toBase({ value: "1/4", unit: "oz" }).value;
    const weighed = roundToStep(of.uses.get("beef")!.epG * factor, [quarter]).value;
    expect(weighed).toBeCloseTo(toBase({ value: 4 * 16 + 5.5, unit: "oz" }).value, 6);
  });

  test("333 portions: factor 3.33; 6 gal of water become 19 gal 3 qt 1 pt 1 c 10 tbsp 2 3/4 tsp", () => {
    const of = recipe("water", { value: 6, unit: "gal" }, 1);
    const factor = factorForPortions(of, 333, ounces(4));
    expect(factor).toBeCloseTo(3.33, 12);
    const printed = (
      [
        [19, "gal"],
        [3, "qt"],
        [1, "pt"],
        [1, "cup"],
        [10, "tbsp"],
        [2.75, "tsp"],
      ] as const
    ).reduce((total, [value, unit]) => total + toBase({ value, unit }).value, 0);
    // The handbook rounds at the last spoon: half of a quarter teaspoon.
    const rounding = toBase({ value: "1/8", unit: "tsp" }).value;
    expect(Math.abs(of.uses.get("water")!.epG * factor - printed)).toBeLessThan(rounding);
  });

  test("by what is on hand: 102 lb where 100 portions take 30 lb: factor 3.40", () => {
    const of = recipe("chicken", { value: 30, unit: "lb" });
    const { factor } = factorOnHand(of, [
      { ingredient: "chicken", grams: toBase({ value: 102, unit: "lb" }).value },
    ]);
    expect(factor).toBeCloseTo(3.4, 12);
  });

  test("by portion size: 348 portions of 3 oz instead of 4 are 261 of 4: factor 2.61; 2 lb become 5.22 lb", () => {
    const of = recipe("cornstarch", { value: 2, unit: "lb" });
    const factor = factorForPortions(of, 348, ounces(3));
    expect(factor).toBeCloseTo(2.61, 12);
    expect(inPounds(of.uses.get("cornstarch")!.epG * factor)).toBeCloseTo(5.22, 12);
  });
});
