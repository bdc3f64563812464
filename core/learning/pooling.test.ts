import { describe, expect, it } from "vitest";
import { afterSeeing, meanOf, nextOf, sdOf } from "./conjugate.ts";
import { poolGroups } from "./pooling.ts";

/** The eight schools: effect and standard error (Rubin 1981; Gelman et al., BDA3, Table 5.2). */
const SCHOOLS = [
  [28, 15],
  [8, 10],
  [-3, 16],
  [7, 11],
  [-1, 9],
  [1, 11],
  [18, 10],
  [12, 18],
].map(([mean, sd]) => ({ mean: mean!, variance: sd! ** 2 }));

describe("partial pooling", () => {
  it("LE2 the eight schools lie within the printed posterior quartiles and near the medians (BDA3 Table 5.3)", () => {
    // 25 %, 50 % and 75 % of 200 simulation draws: printed in whole points, so the medians may stand one off and more.
    const printed = [
      [7, 10, 16],
      [3, 8, 12],
      [2, 7, 11],
      [4, 8, 11],
      [1, 5, 10],
      [2, 6, 10],
      [7, 10, 15],
      [3, 8, 13],
    ] as const;
    const pooled = poolGroups(SCHOOLS);
    pooled.groups.forEach((school, j) => {
      const [low, median, high] = printed[j]!;
      expect(school.mean).toBeGreaterThan(low);
      expect(school.mean).toBeLessThan(high);
      expect(Math.abs(school.mean - median)).toBeLessThan(1.6);
    });
    // The pooled estimate of the book is 7.7 with standard error 4.1 (§5.5, τ = 0); over all τ it stays near 8.
    expect(pooled.mean).toBeGreaterThan(7.5);
    expect(pooled.mean).toBeLessThan(8.5);
    const together = poolGroups(SCHOOLS, { tauScale: 1e-6 });
    expect(together.mean).toBeCloseTo(7.7, 1);
    expect(together.meanSd).toBeCloseTo(4.1, 1);
  });

  it("LE2 agrees with adding up over τ and μ on a plain grid, computed another way", () => {
    // Joint density of (μ, τ) with θ integrated out (BDA3 eq. 5.18), by sums over both.
    let [total, mu, a, e, tauSum] = [0, 0, 0, 0, 0];
    for (let tau = 0.05; tau < 120; tau += 0.1)
      for (let m = -60; m <= 76; m += 0.5) {
        let density = 1;
        for (const { mean, variance } of SCHOOLS) {
          const v = variance + tau ** 2;
          density *= Math.exp(-((mean - m) ** 2) / (2 * v)) / Math.sqrt(v);
        }
        const theta = ({ mean, variance }: { mean: number; variance: number }) =>
          (mean / variance + m / tau ** 2) / (1 / variance + 1 / tau ** 2);
        total += density;
        mu += density * m;
        tauSum += density * tau;
        a += density * theta(SCHOOLS[0]!);
        e += density * theta(SCHOOLS[4]!);
      }
    const pooled = poolGroups(SCHOOLS);
    expect(pooled.mean).toBeCloseTo(mu / total, 2);
    expect(pooled.tau).toBeCloseTo(tauSum / total, 1);
    expect(pooled.groups[0]!.mean).toBeCloseTo(a / total, 2);
    expect(pooled.groups[4]!.mean).toBeCloseTo(e / total, 2);
  });

  it("LE2 groups that differ for sure keep their own means; groups that agree share one", () => {
    const apart = poolGroups([
      { mean: 0, variance: 0.01 },
      { mean: 10, variance: 0.01 },
      { mean: 20, variance: 0.01 },
    ]);
    expect(apart.groups[2]!.mean).toBeCloseTo(20, 1);
    const alike = poolGroups(
      [
        { mean: 4.9, variance: 4 },
        { mean: 5.1, variance: 4 },
      ],
      { tauScale: 0.1 },
    );
    expect(alike.groups[0]!.mean).toBeCloseTo(5, 1);
    expect(alike.blend.mean).toBeCloseTo(5, 5);
  });
});

describe("conjugate updates", () => {
  const prior = { mean: 1.9, meanCount: 1, spread: 0.1, spreadCount: 1 };
  /** Wing lengths of nine midges, mm (Grogan and Wirth 1981; Hoff, A First Course in Bayesian Statistical Methods, §5.3). */
  const WINGS = [1.64, 1.7, 1.72, 1.74, 1.82, 1.82, 1.82, 1.9, 2.08];

  it("LE1 midge wings as worked by Hoff: mean 1.814, variance 0.015", () => {
    const after = afterSeeing(prior, WINGS);
    expect(after.mean).toBeCloseTo(1.814, 3);
    expect(after.spread ** 2).toBeCloseTo(0.0153, 3);
    expect([after.meanCount, after.spreadCount]).toEqual([10, 10]);
  });

  it("LE1 agrees with adding up over mean and variance, computed another way", () => {
    let [total, m1, m2, next, next2] = [0, 0, 0, 0, 0];
    for (let logV = -8; logV < 1; logV += 0.02) {
      const v = Math.exp(logV);
      for (let m = 1.2; m < 2.5; m += 0.002) {
        // Prior: 1/σ² ~ gamma(ν/2, νσ²/2) as a density of ln σ², mean ~ N(μ0, σ²/κ); then the likelihood.
        let log = -0.5 * logV - (0.5 * 0.01) / v - 0.5 * logV - (m - 1.9) ** 2 / (2 * v);
        for (const y of WINGS) log -= 0.5 * logV + (y - m) ** 2 / (2 * v);
        const p = Math.exp(log);
        total += p;
        m1 += p * m;
        m2 += p * m * m;
        next += p * m;
        next2 += p * (m * m + v);
      }
    }
    const after = afterSeeing(prior, WINGS);
    const [mean, second] = [m1 / total, m2 / total];
    expect(after.mean).toBeCloseTo(mean, 4);
    expect(sdOf(meanOf(after))).toBeCloseTo(Math.sqrt(second - mean ** 2), 3);
    expect(sdOf(nextOf(after))).toBeCloseTo(Math.sqrt(next2 / total - (next / total) ** 2), 3);
  });

  it("LE1 seeing one after another comes to the same as seeing all at once", () => {
    const one = WINGS.reduce((belief, y) => afterSeeing(belief, [y]), prior);
    const all = afterSeeing(prior, WINGS);
    expect(one.mean).toBeCloseTo(all.mean, 12);
    expect(one.spread).toBeCloseTo(all.spread, 12);
  });
});
