import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { divideRounded, type Rounding, roundToInteger } from "./round.ts";

const ALL: Rounding[] = ["half-even", "half-up", "up", "down", "ceiling", "floor"];
const SEED = { seed: 20261125 };

describe("N3 every rounding is named", () => {
  test("the six roundings of halves and others", () => {
    const values = [-2.5, -1.5, -1.2, 1.2, 1.5, 2.5, 3];
    const table: Record<Rounding, number[]> = {
      "half-even": [-2, -2, -1, 1, 2, 2, 3],
      "half-up": [-3, -2, -1, 1, 2, 3, 3],
      up: [-3, -2, -2, 2, 2, 3, 3],
      down: [-2, -1, -1, 1, 1, 2, 3],
      ceiling: [-2, -1, -1, 2, 2, 3, 3],
      floor: [-3, -2, -2, 1, 1, 2, 3],
    };
    for (const rounding of ALL) {
      expect(
        values.map((x) => roundToInteger(x, rounding)),
        rounding,
      ).toEqual(table[rounding]);
      expect(values.map((x) => Number(divideRounded(BigInt(x * 10), 10n, rounding)))).toEqual(
        table[rounding],
      );
    }
  });
  test("numbers and fractions agree, whatever the sign of the denominator", () => {
    fc.assert(
      fc.property(fc.integer(), fc.constantFrom(...ALL), (eighths, rounding) => {
        const expected = roundToInteger(eighths / 8, rounding);
        expect(Number(divideRounded(BigInt(eighths), 8n, rounding))).toBe(expected);
        expect(Number(divideRounded(BigInt(-eighths), -8n, rounding))).toBe(expected);
      }),
      SEED,
    );
  });
  test("no rounding gives minus nought, and none moves by a whole unit", () => {
    fc.assert(
      fc.property(fc.integer({ min: -(2 ** 30), max: 2 ** 30 }), fc.constantFrom(...ALL), (n, rounding) => {
        const x = n / 1024; // few enough bits that the difference below is exact
        const rounded = roundToInteger(x, rounding);
        expect(Object.is(rounded, -0)).toBe(false);
        expect(Math.abs(rounded - x)).toBeLessThan(1);
      }),
      SEED,
    );
    expect(() => divideRounded(1n, 0n, "up")).toThrow("division by zero");
  });
});
