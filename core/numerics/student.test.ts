import { describe, expect, it } from "vitest";
import { incompleteBeta, logGamma } from "./special.ts";
import { studentCdf, studentQuantile } from "./student.ts";

describe("functions of chance", () => {
  it("N6 ln Γ is that of factorials and of one half", () => {
    let factorial = 0;
    for (let n = 1; n <= 30; n++) {
      expect(logGamma(n)).toBeCloseTo(factorial, 11);
      factorial += Math.log(n);
    }
    expect(logGamma(0.5)).toBeCloseTo(0.5 * Math.log(Math.PI), 12);
    expect(logGamma(2.5)).toBeCloseTo(Math.log(0.75 * Math.sqrt(Math.PI)), 12);
  });
  it("N6 the incomplete beta function is a binomial tail", () => {
    // I_p(k, n - k + 1) = P(at least k of n) (Abramowitz and Stegun 26.5.24), summed here term by term.
    for (const [n, k, p] of [
      [10, 3, 0.2],
      [25, 20, 0.7],
      [60, 1, 0.01],
    ] as const) {
      let sum = 0;
      let choose = 1;
      for (let i = 0; i <= n; i++) {
        if (i >= k) sum += choose * p ** i * (1 - p) ** (n - i);
        choose = (choose * (n - i)) / (i + 1);
      }
      expect(incompleteBeta(p, k, n - k + 1)).toBeCloseTo(sum, 12);
    }
  });
  it("N6 Student's t has the printed critical values (NIST/SEMATECH e-Handbook 1.3.6.7.2)", () => {
    for (const [nu, p, t] of [
      [1, 0.975, 12.706],
      [3, 0.995, 5.841],
      [4, 0.975, 2.776],
      [5, 0.95, 2.015],
      [10, 0.975, 2.228],
      [30, 0.9, 1.31],
      [100, 0.999, 3.174],
    ] as const) {
      expect(studentQuantile(p, nu)).toBeCloseTo(t, 3);
      // The table is printed to three places.
      expect(studentCdf(t, nu)).toBeCloseTo(p, 3);
      expect(studentQuantile(1 - p, nu)).toBeCloseTo(-t, 3);
    }
  });
});
