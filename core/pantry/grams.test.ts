import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Ledger } from "../ledger/ledger.ts";
import { convert, UNIT_SYMBOLS, unitFacts } from "../quantity/index.ts";
import { findCut, trimCell } from "./cuts.ts";
import { gramsCell, matterOf } from "./grams.ts";
import { type Problem, Refusal } from "./refusal.ts";
import { edibleOf, purchasedFor } from "./rules.ts";
import { IngredientSchema } from "./schema.ts";

const source = { doc: "invented for this test", kind: "invented" } as const;
const leek = IngredientSchema.parse({
  id: "leek",
  name: "Leek",
  densities: [
    { state: "packed", kgPerL: 0.6, source },
    { state: "plain", kgPerL: 0.4, source },
  ],
  pieces: [{ name: "stalk", g: 220, source }],
  cuts: [{ id: "white", name: "White", trimYield: 0.45, source }],
  allergens: { status: "known" },
  origin: ["plant"],
  storage: { state: "cold", days: 7 },
});
const bare = IngredientSchema.parse({ ...leek, densities: [], pieces: [] });

function weigh(value: number | string, unit: (typeof UNIT_SYMBOLS)[number], of = leek) {
  const ledger = new Ledger();
  const problems: Problem[] = [];
  const cell = gramsCell(
    ledger,
    "calc:/g",
    { value, unit },
    "/x/amount",
    matterOf(ledger, of, "/ingredients/3"),
    problems,
  );
  return { grams: ledger.value(cell), problems, trace: ledger.trace(cell) };
}

describe("grams of an amount", () => {
  test("I1 mass by its unit, volume by the plain density, count by the piece", () => {
    expect(weigh("1/2", "kg").grams).toBe(500);
    expect(weigh("1 1/2", "L").grams).toBe(600);
    expect(weigh(3, "stalk").grams).toBe(660);
    expect(weigh(2, "piece").grams).toBe(440);
    expect(weigh(1, "dozen").grams).toBe(2640);
    expect(weigh(250, "g").trace).toMatchObject({ rule: "given", value: 250 });
  });

  test("I1 the same grams as `convert` gives, for every unit that has a mass", () => {
    const positive = fc.double({ min: 0.001, max: 5000, noNaN: true });
    fc.assert(
      fc.property(fc.constantFrom(...UNIT_SYMBOLS), positive, (unit, value) => {
        const { grams, problems } = weigh(value, unit);
        const bridge = { densityKgPerL: 0.4, gPerPiece: 220 };
        const plain = unitFacts(unit).dimension === "count" && !["piece", "dozen", "stalk"].includes(unit);
        const other = convert({ value, unit }, "g", plain ? {} : bridge);
        expect(problems.length === 0).toBe(other.ok);
        if (other.ok) expect(grams).toBeCloseTo(other.value, 8);
      }),
      { seed: 21 },
    );
  });

  test("I1 what is missing is said with its home", () => {
    expect(weigh(1, "cup", bare).problems).toEqual([
      {
        path: "/x/amount",
        what: "cup of Leek to g needs a density (kg/L) of Leek",
        mend: 'write it by mass, or give the ingredient "leek" a density',
      },
    ]);
    expect(weigh(2, "clove").problems[0]!.mend).toMatch(/one "clove"/);
    expect(weigh(2, "min").problems[0]!.what).toMatch(/impossible/);
  });

  test("I2 EP and AP go back and forth by the cut", () => {
    const ledger = new Ledger();
    const trim = trimCell(ledger, leek, "/ingredients/3", "white")!;
    expect(ledger.path(trim)).toBe("book:/ingredients/3/cuts/0/trimYield");
    expect(trimCell(ledger, leek, "/ingredients/3", undefined)).toBeUndefined();
    expect(findCut(leek, "green")).toBeUndefined();
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1e6, noNaN: true }),
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        (g, y) => {
          expect(edibleOf(purchasedFor(g, y), y)).toBeCloseTo(g, 6);
        },
      ),
      { seed: 22 },
    );
  });

  test("I3 a refusal carries all problems", () => {
    const problem = { path: "/a", what: "b", mend: "c" };
    expect(new Refusal([problem, problem]).message).toBe("/a: b; c (and 1 more)");
    expect(new Refusal([problem]).problems).toEqual([problem]);
  });
});
