import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fromNumber, rational } from "./rational.ts";
import { shareOut, shareOutInteger } from "./share-out.ts";

const SEED = { seed: 20261125 };
const weights = fc
  .array(fc.double({ min: 0, max: 1000, noNaN: true }), { minLength: 1, maxLength: 12 })
  .filter((list) => list.some((w) => w > 0));

describe("N4 shares add back to the whole", () => {
  test("the sum is the total, and each part is within one of its exact share", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1_000_000 }), weights, (total, list) => {
        const parts = shareOutInteger(total, list);
        expect(parts.reduce((a, b) => a + b, 0)).toBe(total);
        const sum = list.map(fromNumber).reduce((a, b) => rational(a.n * b.d + b.n * a.d, a.d * b.d));
        parts.forEach((part, i) => {
          const w = fromNumber(list[i]!);
          // |part × sum − total × w| < sum, in exact integers
          const off = BigInt(part) * sum.n * w.d - BigInt(total) * w.n * sum.d;
          expect(off < 0n ? -off : off).toBeLessThan(sum.n * w.d);
        });
      }),
      SEED,
    );
  });
  test("a heavier weight never gets less, and no weight gets nothing", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 5000 }), weights, (total, list) => {
        const parts = shareOutInteger(total, list);
        list.forEach((w, i) => {
          if (w === 0) expect(parts[i]).toBe(0);
          list.forEach((v, j) => {
            if (w > v) expect(parts[i]).toBeGreaterThanOrEqual(parts[j]!);
          });
        });
      }),
      SEED,
    );
  });
  test("worked by hand: 72 covers by 0.61, 0.29, 0.10; the earlier of equals gets the odd one", () => {
    // 43.92, 20.88, 7.2: floors 43, 20, 7 leave two, for the remainders .92 and .88
    expect(shareOutInteger(72, [0.61, 0.29, 0.1])).toEqual([44, 21, 7]);
    expect(shareOutInteger(2, [1, 1, 1])).toEqual([1, 1, 0]);
    expect(shareOutInteger(-2, [1, 1, 1])).toEqual([-1, -1, 0]);
    expect(shareOut(10n ** 30n, [rational(1, 3), rational(2, 3)])).toEqual([
      333333333333333333333333333333n,
      666666666666666666666666666667n,
    ]);
  });
  test("what cannot be shared is refused", () => {
    expect(() => shareOutInteger(1, [0, 0])).toThrow("every weight is zero");
    expect(() => shareOutInteger(1, [])).toThrow("every weight is zero");
    expect(shareOutInteger(0, [0, 0])).toEqual([0, 0]);
    expect(() => shareOutInteger(1, [1, -1])).toThrow("weight 1 is negative");
    expect(() => shareOutInteger(1.5, [1])).toThrow("1.5 is no whole number");
    expect(() => shareOutInteger(1, [Number.NaN])).toThrow("NaN");
  });
});
