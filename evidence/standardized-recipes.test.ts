import { describe, expect, test } from "vitest";
import { PreparationSchema } from "../core/formula/schema.ts";
import { IngredientSchema } from "../core/pantry/schema.ts";
import { type AmountAsked, anotherAmount } from "../core/production/another-amount.ts";
import { convert, toBase } from "../core/quantity/index.ts";

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

/** A scale that shows quarters of an ounce, as the handbook's table rounds. */
const QUARTER = toBase({ value: "1/4", unit: "oz" }).value;

/** A recipe for 100 portions of 4 oz with one of the handbook's lines, at another amount. */
function scaled(
  id: string,
  amount: { value: number; unit: string },
  asked: AmountAsked,
  portionG = ounces(4),
  kgPerL?: number,
) {
  const preparation = PreparationSchema.parse({
    ...{ id: "x", name: "x", yield: { amount: { value: 400, unit: "oz" } } },
    lines: [{ id, item: { ingredient: id }, amount, step: "mix" }],
    steps: [{ id: "mix", name: "Mix", text: "Mix." }],
  });
  const larder = {
    ingredients: new Map([[id, ingredient(id, kgPerL)]]),
    preparations: new Map([["x", preparation]]),
  };
  const { another } = anotherAmount(larder, (kind) => `/${kind}/0`, "x", asked, portionG, [QUARTER]);
  return { factor: another.factor, line: another.lines[0]! };
}
const ounces = (value: number) => toBase({ value, unit: "oz" }).value;
const inPounds = (grams: number) => {
  const done = convert({ value: grams, unit: "g" }, "lb");
  if (!done.ok) throw new Error(done.message);
  return done.value;
};

describe("TM 10-412, recipe conversion by the factor method", () => {
  test("348 portions: factor 3.48; 1.25 lb becomes 4.35 lb, weighed as 4 lb 5 1/2 oz", () => {
    const { factor, line } = scaled("beef", { value: 1.25, unit: "lb" }, { by: "portions", portions: 348 });
    expect(factor).toBeCloseTo(3.48, 12);
    const pounds = inPounds(line.exactG);
    expect(pounds).toBeCloseTo(4.35, 12);
    expect((pounds - 4) * 16).toBeCloseTo(5.6, 10);
    // The handbook's table rounds to quarters of an ounce; a scale with that step shows the same.
    expect(line.weighG).toBeCloseTo(toBase({ value: 4 * 16 + 5.5, unit: "oz" }).value, 6);
  });

  test("333 portions: factor 3.33; 6 gal of water become 19 gal 3 qt 1 pt 1 c 10 tbsp 2 3/4 tsp", () => {
    const asked = { by: "portions", portions: 333 } as const;
    const { factor, line } = scaled("water", { value: 6, unit: "gal" }, asked, ounces(4), 1);
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
    expect(Math.abs(line.exactG - printed)).toBeLessThan(rounding);
  });

  test("by what is on hand: 102 lb where 100 portions take 30 lb: factor 3.40", () => {
    const here = [{ ingredient: "chicken", grams: toBase({ value: 102, unit: "lb" }).value }];
    const { factor } = scaled("chicken", { value: 30, unit: "lb" }, { by: "here", here });
    expect(factor).toBeCloseTo(3.4, 12);
  });

  test("by portion size: 348 portions of 3 oz instead of 4 are 261 of 4: factor 2.61; 2 lb become 5.22 lb", () => {
    const asked = { by: "portions", portions: 348 } as const;
    const { factor, line } = scaled("cornstarch", { value: 2, unit: "lb" }, asked, ounces(3));
    expect(factor).toBeCloseTo(2.61, 12);
    expect(inPounds(line.exactG)).toBeCloseTo(5.22, 12);
  });
});
