import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  add,
  compare,
  divide,
  equals,
  fromNumber,
  multiply,
  negate,
  parseRational,
  type Rational,
  rational,
  subtract,
  toDecimal,
  toNumber,
  toText,
  ZERO,
} from "./rational.ts";

const SEED = { seed: 20261125 };
const big = fc.bigInt({ min: -(10n ** 30n), max: 10n ** 30n });
const any: fc.Arbitrary<Rational> = fc
  .tuple(big, fc.bigInt({ min: 1n, max: 10n ** 30n }))
  .map(([n, d]) => rational(n, d));

describe("N1 fractions are exact and in lowest terms", () => {
  test("addition and multiplication obey the laws of a field", () => {
    fc.assert(
      fc.property(any, any, any, (a, b, c) => {
        expect(add(a, b)).toEqual(add(b, a));
        expect(multiply(a, add(b, c))).toEqual(add(multiply(a, b), multiply(a, c)));
        expect(add(a, negate(a))).toEqual(ZERO);
        expect(subtract(add(a, b), b)).toEqual(a);
        if (b.n !== 0n) expect(multiply(divide(a, b), b)).toEqual(a);
      }),
      SEED,
    );
  });
  test("equal fractions have one form, with a positive denominator", () => {
    expect(rational(-6, -4)).toEqual({ n: 3n, d: 2n });
    expect(rational(6n, -4n)).toEqual({ n: -3n, d: 2n });
    expect(rational(0, 17)).toEqual(ZERO);
    expect(rational(2n ** 70n, 2n ** 68n * 3n)).toEqual({ n: 4n, d: 3n });
    expect(equals(rational(10, 20), rational(1, 2))).toBe(true);
    expect(() => rational(1, 0)).toThrow("denominator 0");
    expect(() => divide(rational(1), ZERO)).toThrow("denominator 0");
  });
  test("order agrees with subtraction", () => {
    fc.assert(
      fc.property(any, any, (a, b) => {
        const sign = subtract(a, b).n;
        expect(compare(a, b)).toBe(sign < 0n ? -1 : sign > 0n ? 1 : 0);
      }),
      SEED,
    );
  });
});

describe("N2 numbers and texts go in and out without loss", () => {
  test("every finite double is read as its shortest decimal and comes back the same", () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (x) => {
        expect(toNumber(fromNumber(x))).toBe(x + 0);
      }),
      { ...SEED, numRuns: 1000 },
    );
    expect(fromNumber(0.1)).toEqual({ n: 1n, d: 10n });
    expect(fromNumber(5e-324)).toEqual(rational(5n, 10n ** 324n));
    for (const x of [Number.MAX_VALUE, Number.MIN_VALUE, 2 ** 53 + 2])
      expect(toNumber(fromNumber(x))).toBe(x);
    expect(() => fromNumber(Number.NaN)).toThrow("NaN");
    expect(() => fromNumber(Number.POSITIVE_INFINITY)).toThrow("Infinity");
  });
  test("toNumber gives the nearest double, ties to even", () => {
    const half = rational(1n, 2n ** 53n);
    expect(toNumber(add(rational(1), half))).toBe(1);
    expect(toNumber(add(rational(1), multiply(half, rational(3))))).toBe(1 + 2 ** -51);
    expect(toNumber(add(add(rational(1), half), rational(1n, 10n ** 40n)))).toBe(1 + 2 ** -52);
    fc.assert(
      fc.property(any, (a) => {
        const x = toNumber(a);
        const gap = Math.max(Math.abs(x) * 2 ** -52, Number.MIN_VALUE);
        const off = (y: number) => subtract(asBinary(y), a);
        const [here, up, down] = [off(x), off(x + gap), off(x - gap)].map((r) => (r.n < 0n ? negate(r) : r));
        expect(compare(here!, up!)).toBeLessThanOrEqual(0);
        expect(compare(here!, down!)).toBeLessThanOrEqual(0);
      }),
      SEED,
    );
  });
  test("text round trip", () => {
    fc.assert(
      fc.property(any, (a) => {
        expect(parseRational(toText(a))).toEqual(a);
      }),
      SEED,
    );
    expect(toText(rational(7, 4))).toBe("1 3/4");
    expect(toText(rational(-7, 4))).toBe("-1 3/4");
    expect(parseRational("1e-7")).toEqual(rational(1n, 10n ** 7n));
    expect(parseRational("2.50")).toEqual(rational(5, 2));
  });
  test("what is no number is undefined, not a guess", () => {
    for (const text of [
      "",
      " ",
      "1/0",
      "1 3",
      "3/",
      "0x10",
      "1,5",
      "½",
      "1e9999",
      "9".repeat(41),
      "NaN",
      "--1",
    ]) {
      expect(parseRational(text), text).toBeUndefined();
    }
  });
  test("decimals are rounded as named", () => {
    expect(toDecimal(rational(1, 3), 4, "half-even")).toBe("0.3333");
    expect(toDecimal(rational(-1, 200), 2, "half-even")).toBe("0.00");
    expect(toDecimal(rational(-1, 200), 2, "up")).toBe("-0.01");
    expect(toDecimal(rational(25, 10), 0, "half-even")).toBe("2");
    expect(toDecimal(rational(25, 10), 0, "half-up")).toBe("3");
  });
});

/** The exact value of a double, bit for bit. */
function asBinary(x: number): Rational {
  let [value, power] = [x, 0];
  while (!Number.isInteger(value)) [value, power] = [value * 2, power + 1];
  return rational(BigInt(value), 2n ** BigInt(power));
}
