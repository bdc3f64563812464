import { describe, expect, test } from "vitest";
import { PreparationSchema } from "../formula/schema.ts";
import { type Ingredient, IngredientSchema } from "../pantry/schema.ts";
import type { Need } from "../plating/schema.ts";
import { Contents } from "./contents.ts";

const ingredient = (id: string, origin: string[], contains: string[] = [], more: object = {}): Ingredient =>
  IngredientSchema.parse({
    id,
    name: id,
    allergens: { status: "known", contains, ...more },
    origin,
    storage: { state: "cold", days: 3 },
  });
const step = (id: string, more: object = {}) => ({ id, name: id, text: `${id}.`, ...more });
const core = (value: number) => ({
  control: {
    hazard: "h",
    limit: { what: "coreC", op: ">=", value },
    monitor: "m",
    corrective: "c",
    record: "r",
  },
});
const preparation = (id: string, parts: [object, string][], steps: object[]) =>
  PreparationSchema.parse({
    id,
    name: id,
    yield: { amount: { value: 1, unit: "kg" } },
    lines: parts.map(([item, at], i) => ({ id: `l${i}`, item, amount: { value: 100, unit: "g" }, step: at })),
    steps,
  });

const ingredients = [
  ingredient("celeriac", ["plant"], ["celery"]),
  ingredient("pearl-barley", ["plant"], ["gluten"]),
  ingredient("strong-flour", ["plant"], ["wheat"]),
  ingredient("red-wine", ["plant", "alcohol"], ["sulphite"]),
  ingredient("honey", ["honey"]),
  ingredient("char", ["fish", "raw-animal"], ["fish"]),
  ingredient("guinea-fowl", ["poultry", "raw-animal"]),
  ingredient("mystery-stock-cube", ["plant"], [], { status: "unknown" }),
  ingredient("hazelnut", ["plant"], ["tree-nut"]),
  ingredient("oats", ["plant"], [], { mayContain: ["gluten"] }),
];
const preparations = [
  preparation("salted-char", [[{ ingredient: "char" }, "salt"]], [step("salt")]),
  preparation("baked-char", [[{ preparation: "salted-char" }, "bake"]], [step("bake", core(63))]),
  preparation("bath-breast", [[{ ingredient: "guinea-fowl" }, "bath"]], [step("bath", core(64))]),
  preparation("roast-leg", [[{ ingredient: "guinea-fowl" }, "roast"]], [step("roast", core(74))]),
  preparation(
    "half-raw",
    [
      [{ ingredient: "char" }, "bake"],
      [{ ingredient: "char" }, "mix"],
    ],
    [step("bake", core(70)), step("mix", { from: ["bake"] })],
  ),
  preparation("jus", [[{ ingredient: "red-wine" }, "boil"]], [step("boil")]),
  preparation(
    "crumb",
    [
      [{ ingredient: "hazelnut" }, "mix"],
      [{ preparation: "jus" }, "mix"],
    ],
    [step("mix")],
  ),
];
const contents = new Contents({
  ingredients: new Map(ingredients.map((i) => [i.id, i])),
  preparations: new Map(preparations.map((p) => [p.id, p])),
});
const fits = (need: Need, eaten: object) => contents.against(need, [eaten]).length === 0;

describe("safety", () => {
  test("S1 an allergen arrives through any depth, with its whole path", () => {
    expect(contents.paths([{ preparation: "crumb" }], (i) => i.id === "red-wine")).toEqual([
      ["crumb", "jus", "red-wine"],
    ]);
    expect(contents.allergens([{ preparation: "crumb" }], ["contains"])).toEqual(["tree-nut", "sulphite"]);
  });

  test("S2 an ingredient with unknown allergens counts against every allergen", () => {
    const cube = [{ ingredient: "mystery-stock-cube" }];
    expect(contents.allergen(cube, "peanut")).toBe("unknown");
    expect(fits("no-peanut", cube[0]!)).toBe(false);
    expect(fits("coeliac", cube[0]!)).toBe(false);
  });

  test("S3 wheat, barley and a trace of gluten all speak against a coeliac", () => {
    for (const id of ["strong-flour", "pearl-barley", "oats"])
      expect(fits("coeliac", { ingredient: id })).toBe(false);
    expect(fits("coeliac", { ingredient: "celeriac" })).toBe(true);
    expect(fits("no-wheat", { ingredient: "pearl-barley" })).toBe(true);
    expect(fits("no-celery", { ingredient: "celeriac" })).toBe(false);
  });

  test("S4 no alcohol is judged by ingredient, however long it boils", () => {
    expect(fits("no-alcohol", { preparation: "jus" })).toBe(false);
  });

  test("S5 vegan excludes honey; vegetarian does not", () => {
    expect(fits("vegan", { ingredient: "honey" })).toBe(false);
    expect(fits("vegetarian", { ingredient: "honey" })).toBe(true);
  });

  test("S6 a pregnant guest gets nothing salted raw or cooked below its limit", () => {
    expect(fits("pregnant", { preparation: "salted-char" })).toBe(false);
    expect(fits("pregnant", { preparation: "baked-char" })).toBe(true);
    expect(fits("pregnant", { preparation: "bath-breast" })).toBe(false);
    expect(fits("pregnant", { preparation: "roast-leg" })).toBe(true);
    expect(fits("pregnant", { preparation: "half-raw" })).toBe(false);
  });

  test("S1 what a supplier declares counts too", () => {
    const declared = new Contents(
      { ingredients: new Map(ingredients.map((i) => [i.id, i])), preparations: new Map() },
      (id) => (id === "celeriac" ? { contains: [], mayContain: ["mustard"] } : undefined),
    );
    expect(declared.allergen([{ ingredient: "celeriac" }], "mustard")).toBe("may");
    expect(declared.against("no-mustard", [{ ingredient: "celeriac" }])).toHaveLength(1);
  });

  test("S1 the quick answer and the explained one agree", () => {
    const needs: Need[] = [
      "vegetarian",
      "vegan",
      "pescatarian",
      "coeliac",
      "no-alcohol",
      "pregnant",
      "no-tree-nut",
      "no-fish",
    ];
    for (const p of [
      ...preparations.map((x) => ({ preparation: x.id })),
      ...ingredients.map((x) => ({ ingredient: x.id })),
    ])
      for (const need of needs)
        expect(contents.meets([need], [p as never])).toBe(contents.against(need, [p]).length === 0);
  });

  test("S1 depth does not exhaust the stack", () => {
    const deep = Array.from({ length: 12_000 }, (_, i) =>
      preparation(
        `d-${i}`,
        [[i === 0 ? { ingredient: "hazelnut" } : { preparation: `d-${i - 1}` }, "mix"]],
        [step("mix")],
      ),
    );
    const larder = {
      ingredients: new Map(ingredients.map((i) => [i.id, i])),
      preparations: new Map(deep.map((p) => [p.id, p])),
    };
    const facts = new Contents(larder);
    expect(facts.allergen([{ preparation: "d-11999" }], "tree-nut")).toBe("contains");
    expect(facts.raw({ preparation: "d-11999" }).size).toBe(0);
  });
});
