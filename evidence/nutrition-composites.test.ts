import { describe, expect, test } from "vitest";
import { computeAmounts } from "../core/production/compute-amounts.ts";
import { Contents } from "../core/safety/contents.ts";
import { Foods } from "../core/safety/foods.ts";
import { nutritionLabels } from "../core/safety/nutrition-labels.ts";
import type { LabelNutrient } from "../core/safety/nutrition-types.ts";
import { sr28 } from "../data/pantry/sr28.ts";
import { changed, g, ingredient, library, meetsOf, placement, step } from "../tests/small-book.ts";

/**
 * Foods of USDA SR28 (2015, published) that are other foods of it by recipe: mixed, dried or salted. Figures in 100 g;
 * the samples differ, so each has its tolerance. The amounts follow from the figure named, the others are the check.
 */
function made(lines: readonly (readonly [ndb: string, grams: number])[], yieldG: number) {
  const book = changed((all) => {
    for (const [ndb] of lines) all.ingredients.push(ingredient(`sr-${ndb}`, { composition: sr28(ndb) }));
    all.preparations = [
      {
        id: "made",
        name: "Made",
        yield: { amount: g(yieldG) },
        lines: lines.map(([ndb, grams]) => ({
          ...{ id: `l-${ndb}`, item: { ingredient: `sr-${ndb}` }, amount: g(grams), step: "one" },
        })),
        steps: [
          step("one", { change: { factor: yieldG / lines.reduce((sum, [, grams]) => sum + grams, 0) } }),
        ],
      },
    ];
    all.dishes = [{ ...all.dishes[0]!, placements: [placement(1, "made", 100)], variants: [] }];
    all.menus[0]!.courses = [
      { id: "first", name: "First", afterMin: 0, options: [{ dish: all.dishes[0]!.id, share: 1 }] },
    ];
    Object.assign(all.services[0]!, { guests: [], stock: [] });
  });
  const docs = library(book);
  const amounts = computeAmounts(docs, "small", { meets: meetsOf(docs) });
  const { labels } = nutritionLabels(
    docs,
    amounts,
    new Contents(docs),
    new Foods(docs),
    docs.pointer.bind(docs),
  );
  return (nutrient: LabelNutrient) =>
    labels[0]!.nutrients.find((each) => each.nutrient === nutrient)!.perPortion!;
}

/** Each of `nutrients` within `ratio` of the printed food, or within `least` of its unit. */
function near(
  of: ReturnType<typeof made>,
  ndb: string,
  ratio: number,
  nutrients: readonly (LabelNutrient & keyof ReturnType<typeof sr28>)[],
  least = 0.15,
) {
  const printed = sr28(ndb);
  for (const nutrient of nutrients) {
    const figure = printed[nutrient] as number;
    const off = Math.abs(of(nutrient) - figure);
    expect(off, `${nutrient}: ${of(nutrient)} against ${figure}`).toBeLessThanOrEqual(
      Math.max(ratio * figure, least),
    );
  }
}

describe("foods of USDA SR28 made of others", () => {
  test("half and half (01049): whole milk and 36 % cream to its fat of 10.39 %", () => {
    const [fat, milk, cream] = [10.39, 3.25, 36.08];
    const part = (fat - milk) / (cream - milk);
    const of = made(
      [
        ["01077", 1000 * (1 - part)],
        ["01053", 1000 * part],
      ],
      1000,
    );
    near(of, "01049", 0.12, ["protein", "fat", "saturated", "cholesterolMg"]);
    near(of, "01049", 0.12, ["calciumMg", "potassiumMg"], 12);
  });

  test("tomato paste (11546): purée boiled down to 73.5 % water", () => {
    const [puree, paste] = [sr28("11547"), sr28("11546")];
    const yieldG = (1000 * (100 - puree.water!)) / (100 - paste.water!);
    const of = made([["11547", 1000]], yieldG);
    near(of, "11546", 0.2, ["carbohydrate", "sugars", "fibre", "potassiumMg", "protein"]);
  });

  test("salted butter (01001): unsalted, and salt to its sodium", () => {
    const salt = (1000 * (sr28("01001").salt! - sr28("01145").salt!)) / 100;
    const of = made(
      [
        ["01145", 1000 - salt],
        ["02047", salt],
      ],
      1000,
    );
    near(of, "01001", 0.02, ["fat", "protein", "cholesterolMg", "salt"]);
    near(of, "01001", 0.05, ["saturated"]);
  });

  test("powdered sugar (19336): sugar and 2.5 % of maize starch", () => {
    const of = made(
      [
        ["19335", 975],
        ["20027", 25],
      ],
      1000,
    );
    near(of, "19336", 0.01, ["carbohydrate", "sugars"]);
  });

  test("buttermilk powder (01094): buttermilk dried to 2.97 % water, as milk solids go", () => {
    const [wet, dry] = [sr28("01077"), sr28("01094")];
    const of = made([["01077", 1000]], (1000 * (100 - wet.water!)) / (100 - dry.water!));
    // Whole milk has its fat still: what is not fat agrees when the fat is left out of both.
    const notFat = 100 - of("fat");
    const printed = 100 - dry.fat!;
    expect(Math.abs((of("protein") / notFat) * printed - dry.protein!)).toBeLessThan(0.1 * dry.protein!);
    expect(Math.abs((of("calciumMg") / notFat) * printed - dry.calciumMg!)).toBeLessThan(
      0.12 * dry.calciumMg!,
    );
  });

  // 21 CFR 101.9(c)(1)(i)(A) and (B): specific and general factors are both allowed; they agree to about a tenth.
  test("energy by the general factors is within a tenth of the printed energy of mixed foods", () => {
    for (const ndb of ["01077", "01145", "17164", "15236", "20005", "18029", "12061"]) {
      const of = made([[ndb, 1000]], 1000);
      const printed = sr28(ndb).energyKcal!;
      expect(Math.abs(of("energyKcal") - printed) / printed, ndb).toBeLessThan(0.1);
    }
  });
});
