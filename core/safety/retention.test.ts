import { describe, expect, test } from "vitest";
import {
  type BookInput,
  changed,
  g,
  ingredient,
  library,
  meetsOf,
  placement,
  step,
} from "../../tests/small-book.ts";
import { Tracer } from "../ledger/tracer.ts";
import type { RetentionGroup } from "../pantry/retention-groups.ts";
import { computeAmounts } from "../production/compute-amounts.ts";
import { Contents } from "./contents.ts";
import { Foods } from "./foods.ts";
import { nutritionLabels } from "./nutrition-labels.ts";
import type { LabelNutrient } from "./nutrition-types.ts";

type Steps = NonNullable<BookInput["preparations"]>[number]["steps"];
const source = { doc: "invented for this test", kind: "invented" } as const;

/** 100 mg, 10 mg and 1000 mg in 100 g of a raw food of a group; 1 kg of it through the steps. */
function cooked(steps: Steps, yieldG: number, retentionGroup?: RetentionGroup) {
  const book = changed((all) => {
    const figures = { salt: 1, sugars: 2, carbohydrate: 5, calciumMg: 100, ironMg: 10, potassiumMg: 1000 };
    const composition = { ...figures, vitaminDUg: 4, fat: 5, water: 80, source };
    all.ingredients.push(ingredient("food", { composition, ...(retentionGroup ? { retentionGroup } : {}) }));
    const lines = [{ id: "food", item: { ingredient: "food" }, amount: g(1000), step: steps[0]!.id }];
    all.preparations = [{ id: "made", name: "Made", yield: { amount: g(yieldG) }, lines, steps }];
    all.dishes = [{ ...all.dishes[0]!, placements: [placement(1, "made", 100)], variants: [] }];
    const options = [{ dish: all.dishes[0]!.id, share: 1 }];
    all.menus[0]!.courses = [{ id: "first", name: "First", afterMin: 0, options }];
    Object.assign(all.services[0]!, { guests: [], stock: [] });
  });
  const docs = library(book);
  const amounts = computeAmounts(docs, "small", { meets: meetsOf(docs) });
  const made = nutritionLabels(docs, amounts, new Contents(docs), new Foods(docs), docs.pointer.bind(docs));
  const tracer = new Tracer(amounts.ledger);
  made.trace(tracer);
  const all = made.labels.find(({ preparation }) => preparation === "made")!.nutrients;
  /** Share of what was put in that is in the batch. */
  const left = (nutrient: LabelNutrient, in100: number) =>
    (all.find((each) => each.nutrient === nutrient)!.per100 * yieldG) / (in100 * 1000);
  const minerals = () => [left("calciumMg", 100), left("ironMg", 10), left("potassiumMg", 1000)];
  const sources = () => Object.values(tracer.nodes()).flatMap(({ source: from }) => from?.table ?? []);
  return { left, minerals, sources };
}
const near = (found: readonly number[], wanted: readonly number[]) =>
  found.forEach((value, i) => {
    expect(value).toBeCloseTo(wanted[i]!, 9);
  });

describe("N6 what cooking leaves of minerals", () => {
  const drained = { change: { factor: 0.8, as: "drained" as const } };

  test("the drained factor takes the place of what drains off, and is never added to it", () => {
    near(cooked([step("boil", drained)], 800, "greens").minerals(), [1, 1, 0.8]);
    const { minerals, left, sources } = cooked(
      [step("boil", { ...drained, cooks: { by: "boil" } })],
      800,
      "greens",
    );
    near(minerals(), [0.95, 0.95, 0.85]);
    // What the table does not have goes as before: salt with the liquid, vitamin D not by heat.
    near([left("salt", 1), left("vitaminDUg", 4)], [0.8, 1]);
    expect(sources()).toContain("code 3005");
  });

  test("with the liquid eaten too, what leaves with it later leaves as it is", () => {
    const kept = { cooks: { by: "boil" as const, liquid: "kept" as const } };
    near(cooked([step("boil", kept)], 1000, "pulse-1-h").minerals(), [0.9, 0.85, 0.75]);
    near(cooked([step("boil", { ...kept, ...drained })], 800, "pulse-1-h").minerals(), [0.9, 0.85, 0.6]);
  });

  test("roasting by the factor of the meat; what sticks goes besides, in proportion", () => {
    const roast = { cooks: { by: "bake" as const } };
    near(cooked([step("roast", { ...roast, ...drained })], 800, "beef").minerals(), [0.9, 1, 0.8]);
    const stuck = { change: { factor: 0.9, as: "stuck" as const } };
    near(cooked([step("roast", { ...roast, ...stuck })], 900, "beef").minerals(), [0.81, 0.9, 0.72]);
  });

  test("blanched, then roasted: the factors are multiplied, and the trace says that no table says so", () => {
    const { minerals, sources } = cooked(
      [
        step("blanch", { ...drained, cooks: { by: "boil" } }),
        step("roast", { from: ["blanch"], cooks: { by: "bake" } }),
      ],
      800,
      "root",
    );
    near(minerals(), [0.95, 0.95, 0.9]);
    expect(sources()).toContain("code 3451; cooked before: multiplied, which no table says");
  });

  test("where no factor is known none is applied, and the trace says why", () => {
    const without = (steps: Steps, group?: RetentionGroup) => {
      const { minerals, sources } = cooked(steps, 800, group);
      near(minerals(), [1, 1, 0.8]);
      return sources();
    };
    const boiled = { ...drained, cooks: { by: "boil" as const } };
    const hot = {
      uses: [{ kind: "burner", during: "work" as const, space: { value: 1, unit: "burner" as const } }],
    };
    expect(without([step("boil", boiled)])).toContain(
      "no factor applied: the food is in no group of the table",
    );
    expect(without([step("fry", { ...drained, cooks: { by: "fry" } })], "cereal")).toContain(
      "no factor applied: no row for cereal, fry",
    );
    expect(without([step("boil", { ...drained, ...hot })], "greens")).toContain(
      "no factor applied: no step says how it cooks",
    );
  });

  test("a step taken in part: each way by its own cooking", () => {
    const { minerals } = cooked(
      [
        step("cut"),
        step("boil", { from: [{ step: "cut", share: 0.5 }], ...drained, cooks: { by: "boil" } }),
        step("join", { from: ["boil", { step: "cut", share: 0.5 }] }),
      ],
      900,
      "greens",
    );
    near(minerals(), [0.975, 0.975, 0.925]);
  });
});
