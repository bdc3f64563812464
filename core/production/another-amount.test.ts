import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { library } from "../../tests/small-book.ts";
import * as formulaRules from "../formula/rules.ts";
import { PreparationSchema } from "../formula/schema.ts";
import type { Rule } from "../ledger/ledger.ts";
import * as ledgerRules from "../ledger/rules.ts";
import { Refusal } from "../pantry/refusal.ts";
import * as pantryRules from "../pantry/rules.ts";
import { IngredientSchema } from "../pantry/schema.ts";
import { ANOTHER, anotherAmount } from "./another-amount.ts";
import * as ownRules from "./rules.ts";

const docs = library();
const RULES = { ...ledgerRules, ...pantryRules, ...formulaRules, ...ownRules } as unknown as Record<
  string,
  Rule
>;
const STEPS = [0.1, 1, 5];
const everyone = [...docs.preparations.keys()];
const ONE = { by: "mass", g: 1000 } as const;
const asked = (id: string, of: Parameters<typeof anotherAmount>[3], portionG?: number) =>
  anotherAmount(docs, docs.pointer, id, of, portionG, STEPS);

describe("A12 one formula at another amount, alone", () => {
  test("to a mass: every line times the factor, weighed as the scales show, the error said", () => {
    for (const id of everyone) {
      const at = asked(id, ONE).another;
      const yieldG = at.makesG / at.factor;
      const once = asked(id, { by: "mass", g: yieldG }).another;
      const more = asked(id, { by: "mass", g: 2.5 * yieldG }).another;
      expect(more.factor).toBeCloseTo(2.5, 12);
      expect(more.makesG).toBeCloseTo(2.5 * yieldG, 6);
      more.lines.forEach((line, i) => {
        expect(line.exactG).toBeCloseTo(2.5 * once.lines[i]!.exactG, 9);
        expect(line.errorG).toBeCloseTo(line.weighG - line.exactG, 12);
      });
    }
  });

  test("portions go there and back", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...everyone),
        fc.integer({ min: 1, max: 900 }),
        fc.integer({ min: 5, max: 400 }),
        (id, portions, portionG) => {
          const { another } = asked(id, { by: "portions", portions }, portionG);
          expect(another.portions).toBe(portions);
          expect(another.makesG).toBeCloseTo(portions * portionG, 6);
        },
      ),
      { seed: 7, numRuns: 60 },
    );
  });

  test("what is here: the scarcest decides, and that amount uses it up", () => {
    for (const id of everyone) {
      const { factor, takes } = asked(id, ONE).another;
      if (takes.length === 0) continue;
      const here = takes.map(({ ingredient, cut }, k) => ({ ingredient, cut, grams: 300 + 170 * k }));
      const { another } = asked(id, { by: "here", here });
      const each = takes.map((take, k) => (here[k]!.grams / take.apG) * factor);
      expect(another.factor).toBeCloseTo(Math.min(...each), 12);
      expect(another.limit).toBe(each.indexOf(Math.min(...each)));
      expect(another.takes[another.limit!]!.apG).toBeCloseTo(here[another.limit!]!.grams, 6);
      for (const [k, taken] of another.takes.entries())
        expect(taken.apG).toBeLessThanOrEqual(here[k]!.grams * (1 + 1e-9));
    }
  });

  test("every figure has its node, and each rule on its inputs gives the value", () => {
    for (const id of everyone) {
      const { another, trace } = asked(id, { by: "portions", portions: 12 }, 80);
      for (const at of ["factor", "makesG", "portions", ...another.lines.map((_, i) => `lines/${i}/weighG`)])
        expect(trace[`${ANOTHER}/${at}`], `${id} ${at}`).toBeDefined();
      for (const [path, node] of Object.entries(trace)) {
        if (node.rule === "given") continue;
        const rule = RULES[node.rule];
        expect(rule, node.rule).toBeDefined();
        expect(rule!(...node.inputs.map((input) => trace[input]!.value)), path).toBe(node.value);
      }
    }
  });

  test("what does not go in, and portions of unknown mass, are refused in words", () => {
    const id = everyone[0]!;
    expect(() => asked(id, { by: "here", here: [{ ingredient: "moon-dust", grams: 5 }] })).toThrow(Refusal);
    expect(() => asked(id, { by: "portions", portions: 4 })).toThrow(Refusal);
  });
});

describe("F6 scaling goes three ways", () => {
  const source = { doc: "invented for this test", kind: "invented" } as const;
  const ingredients = new Map(
    ["leek", "carrot"].map((id) => [
      id,
      IngredientSchema.parse({
        ...{ id, name: id, allergens: { status: "known" }, origin: ["plant"] },
        storage: { state: "cold", days: 7 },
        cuts: [{ id: "peeled", name: "Peeled", trimYield: 0.8, source }],
      }),
    ]),
  );
  const parse = (more: object) => PreparationSchema.parse({ name: "x", ...more });
  const g = (value: number) => ({ value, unit: "g" });
  const base = parse({
    id: "base",
    yield: { amount: g(800), pieces: 4 },
    lines: [{ id: "leek", item: { ingredient: "leek", cut: "peeled" }, amount: g(1000), step: "mix" }],
    steps: [{ id: "mix", name: "x", text: "x", change: { factor: 0.8 } }],
  });
  const top = parse({
    id: "top",
    yield: { amount: g(1000) },
    lines: [
      { id: "base", item: { preparation: "base" }, amount: g(400), step: "mix" },
      { id: "two", item: { preparation: "base" }, amount: { value: 1, unit: "piece" }, step: "mix" },
      { id: "carrot", item: { ingredient: "carrot" }, amount: g(400), step: "mix" },
    ],
    steps: [{ id: "mix", name: "x", text: "x" }],
  });
  const larder = { ingredients, preparations: new Map([base, top].map((each) => [each.id, each])) };
  const of = (id: string, how: Parameters<typeof anotherAmount>[3], portionG?: number) =>
    anotherAmount(larder, (kind, part) => `/${kind}/${part}`, id, how, portionG, STEPS).another;

  test("F6 parts are followed down, pieces by their mass", () => {
    const { takes } = of("top", { by: "mass", g: 1000 });
    expect(takes.find((each) => each.ingredient === "leek")).toEqual({
      ...{ ingredient: "leek", cut: "peeled", epG: 750, apG: 937.5 },
    });
    expect(takes.find((each) => each.ingredient === "carrot")!.apG).toBe(400);
    const { makesG, pieces } = of("base", { by: "mass", g: 800 });
    expect(makesG / pieces!).toBe(200);
  });

  test("F6 linear: twice the portions, twice the factor; and back again", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 2000 }),
        fc.double({ min: 1, max: 900, noNaN: true }),
        (n, portion) => {
          const { factor, portions } = of("top", { by: "portions", portions: n }, portion);
          const twice = of("top", { by: "portions", portions: 2 * n }, portion);
          expect(twice.factor).toBeCloseTo(2 * factor, 9);
          expect(of("top", { by: "mass", g: n * portion }).factor).toBe(factor);
          expect(portions).toBe(n);
        },
      ),
      { seed: 42 },
    );
  });

  test("F6 the scarcest thing on hand decides, and using that much uses it up", () => {
    const here = [
      { ingredient: "carrot", grams: 1000 },
      { ingredient: "leek", cut: "peeled", grams: 1500 },
      { ingredient: "leek", cut: "peeled", grams: 1400, trimmed: true },
      { ingredient: "salt", grams: 1 },
    ];
    const { factor, limit } = of("top", { by: "here", here });
    expect(limit).toBe(1);
    const apG = of("top", { by: "mass", g: 1000 }).takes.find((each) => each.ingredient === "leek")!.apG;
    expect(factor * apG).toBeCloseTo(1500, 9);
    expect(() => of("top", { by: "here", here: [{ ingredient: "salt", grams: 1 }] })).toThrow(Refusal);
  });
});
