import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { incompleteBeta, logBeta } from "../numerics/special.ts";
import { countAt } from "./dirichlet.ts";
import { coversOf, dishesOf, MENU_COVERS, sharesAfter } from "./forecast.ts";

describe("forecast of choices", () => {
  it("LE11 the conjugate update adds counts to the prior: 727, 583, 137 of a poll (BDA3 §3.4)", () => {
    // One service differs from no other, so that nothing is discounted; the book's uniform prior is (1, 1, 1).
    const { alpha } = sharesAfter([1, 1, 1], [[727, 583, 137]]);
    const own = MENU_COVERS / 3;
    expect(alpha).toEqual([727 + own, 583 + own, 137 + own]);
    // With the book's prior: Dirichlet(728, 584, 138), of which θ1 - θ2 has mean 0.099 (printed histogram 0.05 to 0.15).
    const shares = dishesOf({ alpha: [728, 584, 138], dispersion: 1, concentration: Infinity }, 1);
    expect(shares[0]!.share - shares[1]!.share).toBeCloseTo(0.099, 3);
  });

  it("LE11 placenta praevia: 437 girls of 980, uniform prior (BDA3 §2.4)", () => {
    const [girl] = dishesOf({ alpha: [438, 544], dispersion: 1, concentration: Infinity }, 1);
    expect(girl!.share).toBeCloseTo(0.446, 3);
    // Printed: posterior sd 0.016, 95 % interval 0.415 to 0.477.
    const p = girl!.share;
    expect(Math.sqrt((p * (1 - p)) / (982 + 1))).toBeCloseTo(0.016, 3);
    expect(incompleteBeta(0.477, 438, 544) - incompleteBeta(0.415, 438, 544)).toBeCloseTo(0.95, 2);
  });

  it("LE11 counts have the Dirichlet-multinomial mean and variance, summed here over all counts", () => {
    const [a, b, n] = [3.2, 5.5, 40];
    let [mean, second, total, median] = [0, 0, 0, -1];
    let choose = 0;
    for (let k = 0; k <= n; k++) {
      const p = Math.exp(choose + logBeta(a + k, b + n - k) - logBeta(a, b));
      total += p;
      mean += k * p;
      second += k * k * p;
      if (median < 0 && total >= 0.5) median = k;
      choose += Math.log((n - k) / (k + 1));
    }
    expect(total).toBeCloseTo(1, 10);
    const [dish] = dishesOf({ alpha: [a, b], dispersion: 1, concentration: Infinity }, n);
    expect(dish!.mean).toBeCloseTo(mean, 8);
    expect(dish!.sd).toBeCloseTo(Math.sqrt(second - mean ** 2), 8);
    expect(countAt(0.5, n, a, b)).toBe(median);
  });

  it("LE11 services that differ widely count for less and widen the next; alike ones count in full", () => {
    const alike = sharesAfter(
      [2, 1],
      [
        [40, 20],
        [41, 19],
        [39, 21],
      ],
    );
    const apart = sharesAfter(
      [2, 1],
      [
        [55, 5],
        [40, 20],
        [25, 35],
      ],
    );
    expect(alike.dispersion).toBe(1);
    expect(apart.dispersion).toBeGreaterThan(10);
    const [narrow, wide] = [dishesOf(alike, 60)[0]!, dishesOf(apart, 60)[0]!];
    expect(wide.high - wide.low).toBeGreaterThan(1.8 * (narrow.high - narrow.low));
    expect(narrow.mean).toBeCloseTo(40, 0);
  });

  it("LE11 no past: the menu's shares; a dish nobody was meant to choose can be learned", () => {
    const none = dishesOf(sharesAfter([44, 21], []), 65);
    expect(none[0]!.mean).toBeCloseTo(44, 6);
    const learned = dishesOf(
      sharesAfter(
        [44, 21, 0],
        [
          [40, 20, 5],
          [41, 19, 5],
        ],
      ),
      65,
    );
    expect(learned[2]!.mean).toBeGreaterThan(3);
  });

  it("LE11 shares add up, and every interval holds its mean", () => {
    fc.assert(
      fc.property(
        fc.array(fc.array(fc.nat(80), { minLength: 3, maxLength: 3 }), { maxLength: 6 }),
        fc.integer({ min: 1, max: 900 }),
        (past, covers) => {
          const dishes = dishesOf(sharesAfter([3, 2, 1], past), covers);
          expect(dishes.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
          for (const { low, high, mean } of dishes) {
            expect(low).toBeLessThanOrEqual(Math.ceil(mean) + 1);
            expect(high).toBeGreaterThanOrEqual(Math.floor(mean) - 1);
            expect(low).toBeLessThanOrEqual(high);
            expect(high).toBeLessThanOrEqual(covers);
          }
        },
      ),
      { numRuns: 100 },
    );
  });

  it("LE12 a guarantee nobody has seen kept is expected to be kept, and set 3 to 5 % above", () => {
    const first = coversOf([], 100);
    expect(first.expected).toBe(100);
    expect(first.set).toBeGreaterThanOrEqual(103);
    expect(first.set).toBeLessThanOrEqual(105);
    const fewer = coversOf(
      Array.from({ length: 12 }, () => ({ guaranteed: 100, came: 92 })),
      100,
    );
    expect(fewer.expected).toBeLessThan(94);
    expect(fewer.set).toBe(103);
    expect(fewer.high - fewer.low).toBeLessThan(first.high - first.low);
  });
});
