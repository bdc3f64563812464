import { expect, test } from "vitest";
import { PreparationSchema } from "../formula/schema.ts";
import { IngredientSchema } from "../pantry/schema.ts";
import { compositionOfStep } from "./composition.ts";

const g = (value: number) => ({ value, unit: "g" });
const ingredient = (id: string, water?: number) =>
  IngredientSchema.parse({
    ...{ id, name: id, origin: ["plant"], allergens: { status: "known" } },
    storage: { state: "cold", days: 3 },
    ...(water === undefined
      ? {}
      : { composition: { water, protein: 100 - water, source: { doc: "made up", kind: "invented" } } }),
  });
const stock = (discard?: object) =>
  PreparationSchema.parse({
    ...{ id: "stock", name: "Stock", yield: { amount: g(800) } },
    lines: ["water", "bones"].map((id) => ({ id, item: { ingredient: id }, amount: g(800), step: "boil" })),
    steps: [{ id: "boil", name: "Boil", text: "Boil.", ...(discard ? { discard } : {}) }],
  });
const braise = PreparationSchema.parse({
  ...{ id: "braise", name: "Braise", yield: { amount: g(1600) } },
  lines: [
    { id: "meat", item: { ingredient: "meat" }, amount: g(800), step: "cook" },
    { id: "stock", item: { preparation: "stock" }, amount: g(800), step: "cook" },
  ],
  steps: [{ id: "cook", name: "Cook", text: "Cook." }],
});

const composed = (made: ReturnType<typeof stock>) =>
  compositionOfStep(
    {
      ingredients: new Map(
        [ingredient("water", 100), ingredient("bones"), ingredient("meat", 50)].map((i) => [i.id, i]),
      ),
      preparations: new Map([made, braise].map((p) => [p.id, p])),
    },
    () => 800,
    braise,
    braise.steps[0]!,
  );

test("R8 what is strained off without a known composition is left out of a stock; unstrained it is missing", () => {
  const strained = composed(stock({ factor: 0.5, as: "strain" }));
  expect(strained).toMatchObject({ ok: true, composition: { water: 0.75, protein: 0.25 } });
  expect(composed(stock())).toEqual({ ok: false, missing: 'the composition of "bones"' });
});

test("R8 a crust that is knocked off lies around the food: of it counts what is taken up, also while it is heated", () => {
  const baked = (lines?: object[]) =>
    PreparationSchema.parse({
      ...{ id: "baked", name: "Baked", yield: { amount: g(800) } },
      lines: ["meat", "crust"].map((id) => ({ id, item: { ingredient: id }, amount: g(800), step: "bake" })),
      steps: [
        { id: "bake", name: "Bake", text: "Bake." },
        {
          ...{ id: "open", name: "Open", text: "Open.", from: ["bake"] },
          discard: { factor: 0.5, as: "trim", ...(lines ? { lines } : {}) },
        },
      ],
    });
  const of = (made: ReturnType<typeof baked>) =>
    compositionOfStep(
      {
        ingredients: new Map([ingredient("meat", 75), ingredient("crust", 0)].map((i) => [i.id, i])),
        preparations: new Map(),
      },
      () => 800,
      made,
      made.steps[0]!,
    );
  expect(of(baked())).toMatchObject({ composition: { water: 0.375 } });
  expect(of(baked([{ line: "crust", takenUp: 0 }]))).toMatchObject({ composition: { water: 0.75 } });
});
