import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { library } from "../../tests/small-book.ts";
import * as formulaRules from "../formula/rules.ts";
import { factorOnHand, scalable } from "../formula/scaling.ts";
import type { Rule } from "../ledger/ledger.ts";
import * as ledgerRules from "../ledger/rules.ts";
import { Refusal } from "../pantry/refusal.ts";
import * as pantryRules from "../pantry/rules.ts";
import { ANOTHER, anotherAmount } from "./another-amount.ts";
import * as ownRules from "./rules.ts";

const docs = library();
const RULES = { ...ledgerRules, ...pantryRules, ...formulaRules, ...ownRules } as unknown as Record<
  string,
  Rule
>;
const STEPS = [0.1, 1, 5];
const everyone = [...docs.preparations.keys()];
const asked = (id: string, of: Parameters<typeof anotherAmount>[3], portionG?: number) =>
  anotherAmount(docs, docs.pointer, id, of, portionG, STEPS);

describe("A12 one formula at another amount, alone", () => {
  test("to a mass: every line times the factor, weighed as the scales show, the error said", () => {
    for (const id of everyone) {
      const yieldG = scalable(docs, id, docs.pointer).yieldG;
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
      const of = scalable(docs, id, docs.pointer);
      const here = [...of.uses.values()].map(({ ingredient, cut }, k) => ({
        ingredient,
        cut,
        grams: 300 + 170 * k,
      }));
      if (here.length === 0) continue;
      const { another } = asked(id, { by: "here", here });
      const known = factorOnHand(of, here);
      expect(another.factor).toBeCloseTo(known.factor, 12);
      expect(here[another.limit!]).toBe(known.limit);
      const taken = another.takes.find(
        (each) => each.ingredient === known.limit.ingredient && each.cut === known.limit.cut,
      )!;
      expect(taken.apG).toBeCloseTo(known.limit.grams, 6);
      for (const [k, each] of another.takes.entries())
        expect(each.apG).toBeLessThanOrEqual(here[k]!.grams * (1 + 1e-9));
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
