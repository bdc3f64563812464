import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { compare, fromNumber, multiply, rational, toNumber } from "../numerics/rational.ts";
import {
  AmountSchema,
  BASE_UNIT,
  convert,
  convertExactly,
  pieceName,
  SourceSchema,
  toBase,
  UNIT_SYMBOLS,
  type Unit,
  unitFacts,
} from "./index.ts";

const SEED = { seed: 20261125 };
const BRIDGE = { of: "flour", densityKgPerL: 0.53, gPerPiece: 7 };
const anyUnit = fc.constantFrom(...UNIT_SYMBOLS);
const fraction = fc
  .tuple(fc.bigInt({ min: 0n, max: 10n ** 9n }), fc.bigInt({ min: 1n, max: 10n ** 6n }))
  .map(([n, d]) => rational(n, d));
const size = fc.double({ min: 1e-6, max: 1e6, noNaN: true });
/** Two units that convert, with or without a bridge. */
const joined = fc
  .tuple(anyUnit, anyUnit)
  .filter(([from, to]) => convert({ value: 1, unit: from }, to, BRIDGE).ok);
const straight = joined.filter(([from, to]) => !unitFacts(from).offset && !unitFacts(to).offset);

function must(from: Unit, value: number | string, to: Unit): number {
  const done = convert({ value, unit: from }, to, BRIDGE);
  if (!done.ok) throw new Error(done.message);
  return done.value;
}
function exactly(value: Parameters<typeof convertExactly>[0], from: Unit, to: Unit) {
  const done = convertExactly(value, from, to, BRIDGE);
  if (!done.ok) throw new Error(done.message);
  return done.value;
}

describe("Q1 six dimensions, one closed list", () => {
  test("every unit has an exact size above zero and a source", () => {
    expect(UNIT_SYMBOLS.length).toBe(new Set(UNIT_SYMBOLS).size);
    for (const symbol of UNIT_SYMBOLS) {
      const unit = unitFacts(symbol);
      expect(unit.size.n > 0n, symbol).toBe(true);
      expect(unit.source, symbol).not.toBe("");
      expect(unit.factor).toBe(toNumber(unit.size));
    }
  });
  test("base units have the size one", () => {
    for (const [dimension, unit] of Object.entries(BASE_UNIT)) {
      expect(toBase({ value: 7, unit })).toEqual({ dimension, value: 7 });
    }
  });
});

describe("Q2 conversion is exact", () => {
  test("round trip: there and back is the same fraction, for every pair of units", () => {
    fc.assert(
      fc.property(joined, fraction, ([from, to], x) => {
        expect(exactly(exactly(x, from, to), to, from)).toEqual(x);
      }),
      { ...SEED, numRuns: 500 },
    );
  });
  test("round trip of doubles: within eight units in the last place", () => {
    fc.assert(
      fc.property(straight, size, ([from, to], x) => {
        expect(Math.abs(must(to, must(from, x, to), from) / x - 1)).toBeLessThan(8 * 2 ** -52);
      }),
      { ...SEED, numRuns: 500 },
    );
  });
  test("the quick way with doubles agrees with the exact way to four units in the last place", () => {
    fc.assert(
      fc.property(straight, size, ([from, to], x) => {
        const exact = toNumber(exactly(fromNumber(x), from, to));
        expect(Math.abs(must(from, x, to) / exact - 1)).toBeLessThanOrEqual(4 * 2 ** -52);
      }),
      { ...SEED, numRuns: 500 },
    );
  });
  test("monotone: more is never less in another unit", () => {
    fc.assert(
      fc.property(joined, size, size, ([from, to], x, y) => {
        const [less, more] = x < y ? [x, y] : [y, x];
        expect(must(from, less, to)).toBeLessThanOrEqual(must(from, more, to));
        const [a, b] = [fromNumber(less), fromNumber(more)];
        expect(compare(exactly(a, from, to), exactly(b, from, to))).toBe(compare(a, b));
      }),
      { ...SEED, numRuns: 300 },
    );
  });
  test("commutes with scaling: three times the recipe, then convert, or the other way round", () => {
    fc.assert(
      fc.property(straight, fraction, fraction, ([from, to], x, factor) => {
        expect(exactly(multiply(x, factor), from, to)).toEqual(multiply(exactly(x, from, to), factor));
      }),
      { ...SEED, numRuns: 300 },
    );
  });
  test("toBase is conversion to the base unit", () => {
    fc.assert(
      fc.property(anyUnit, size, (unit, value) => {
        const base = toBase({ value, unit });
        if (pieceName(unit)) expect(base.value).toBe(value);
        else
          expect(Math.abs(base.value - must(unit, value, BASE_UNIT[base.dimension]))).toBeLessThanOrEqual(
            Math.abs(base.value) * 2 ** -52,
          );
      }),
      SEED,
    );
  });
  test("exact text stays exact: three thirds of a cup are a cup", () => {
    expect(must("cup", "1/3", "tsp")).toBe(16);
    expect(must("cup", "1 3/4", "tbsp")).toBe(28);
    expect(must("tbsp", 1, "tsp")).toBe(3);
    expect(must("°F", 212, "°C")).toBe(100);
    expect(must("°F", -40, "°C")).toBe(-40);
    expect(must("°C", 0, "K")).toBe(273.15);
    expect(must("h", 1.5, "min")).toBe(90);
  });
});

describe("Q3 mass, volume and count cross only by a stated bridge", () => {
  test("density and piece weight, one after the other", () => {
    const flour = { densityKgPerL: 0.5, gPerPiece: 50 };
    expect(convert({ value: 2, unit: "L" }, "kg", flour)).toMatchObject({
      value: 1,
      via: ["unit", "density"],
    });
    expect(convert({ value: 4, unit: "piece" }, "g", flour)).toMatchObject({
      value: 200,
      via: ["unit", "piece weight"],
    });
    expect(convert({ value: 1, unit: "dozen" }, "L", flour)).toMatchObject({
      value: 1.2,
      via: ["unit", "piece weight", "density"],
    });
    expect(convert({ value: 600, unit: "g" }, "dozen", flour)).toMatchObject({ value: 1 });
  });
  test("two kinds of pieces are never taken for one another", () => {
    expect(convert({ value: 2, unit: "clove" }, "head", BRIDGE)).toMatchObject({
      ok: false,
      missing: ["piece weight"],
    });
    expect(convert({ value: 2, unit: "clove" }, "piece", BRIDGE).ok).toBe(false);
    expect(convert({ value: 2, unit: "clove" }, "clove").ok).toBe(true);
    expect([pieceName("clove"), pieceName("piece"), pieceName("g")]).toEqual(["clove", undefined, undefined]);
  });
});

describe("Q4 the impossible is refused with what is missing", () => {
  test("the message names the density or the piece", () => {
    expect(convert({ value: 1, unit: "cup" }, "g", { of: "bread flour" })).toEqual({
      ok: false,
      missing: ["density"],
      message: "cup of bread flour to g needs a density (kg/L) of bread flour",
    });
    expect(convert({ value: 3, unit: "clove" }, "tsp", { of: "garlic" })).toMatchObject({
      missing: ["piece weight", "density"],
      message: "clove of garlic to tsp needs the grams of one clove and a density (kg/L) of garlic",
    });
    expect(convert({ value: 3, unit: "min" }, "g", BRIDGE)).toMatchObject({
      missing: ["nothing joins them"],
    });
  });
  test("a bridge that is zero, negative or no number is as good as missing", () => {
    for (const densityKgPerL of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(convert({ value: 1, unit: "cup" }, "g", { densityKgPerL }).ok).toBe(false);
    }
  });
  test("every pair of units converts or refuses; none gives a value that is not finite", () => {
    for (const from of UNIT_SYMBOLS) {
      for (const to of UNIT_SYMBOLS) {
        const [bare, bridged] = [
          convert({ value: 1, unit: from }, to),
          convert({ value: 1, unit: from }, to, BRIDGE),
        ];
        if (bare.ok) expect(bare.via).toEqual(["unit"]);
        else expect(bare.message).toMatch(/needs|is impossible/);
        if (bridged.ok) expect(Number.isFinite(bridged.value)).toBe(true);
        if (bare.ok && bridged.ok) expect(bridged.value).toBe(bare.value);
      }
    }
  });
});

describe("Q6 amounts in a document", () => {
  const messages = (input: unknown) =>
    AmountSchema.safeParse(input).error?.issues.map((issue) => issue.message);
  test("a number or an exact text, and a unit of the list", () => {
    for (const value of [0, 2.5, "1/3", "1 3/4", "2.5", "3"]) {
      expect(AmountSchema.parse({ value, unit: "cup" })).toEqual({ value, unit: "cup" });
    }
  });
  test("a refusal says how to mend it", () => {
    expect(messages({ value: 1, unit: "ml" })).toEqual(['"ml" is not a known unit: write "mL"']);
    expect(messages({ value: 1, unit: "furlong" })?.[0]).toMatch(
      /^"furlong" is not a known unit: use one of mg, g/,
    );
    expect(messages({ value: "1/0", unit: "g" })?.[0]).toContain('"1/3"');
    expect(messages({ value: "½", unit: "g" })?.[0]).toContain('"1/3"');
    expect(messages({ value: -1, unit: "g" })?.[0]).toContain("0 or more");
    expect(messages({ value: Number.NaN, unit: "g" })).toHaveLength(1);
    expect(messages({ value: 1, unit: "g", grams: 1 })).toHaveLength(1);
    expect(messages({ value: 1 })?.[0]).toContain("is not a known unit");
  });
  test("every exact text that a document may hold is read", () => {
    const digits = fc.stringMatching(/^(?:\d{1,12}(?:\.\d{1,12})?|(?:\d{1,12} )?\d{1,12}\/\d{1,12})$/);
    fc.assert(
      fc.property(digits, (value) => {
        if (!AmountSchema.safeParse({ value, unit: "g" }).success) expect(value).toMatch(/\/0+$/);
        else expect(Number.isFinite(toBase({ value, unit: "g" }).value)).toBe(true);
      }),
      SEED,
    );
  });
  test("a source names its document and how far it is to be trusted", () => {
    expect(SourceSchema.safeParse({ doc: "NIST HB 44", table: "App. C", kind: "published" }).success).toBe(
      true,
    );
    expect(SourceSchema.safeParse({ doc: "", kind: "published" }).success).toBe(false);
    expect(SourceSchema.safeParse({ doc: "x", kind: "guessed" }).success).toBe(false);
  });
});
