import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { besselJ0, besselJ1 } from "./bessel.ts";
import { findRoot } from "./root.ts";
import { solveTridiagonal } from "./tridiagonal.ts";

describe("tridiagonal", () => {
  test("the answer, put back, gives the right-hand side", () => {
    const row = fc.record({
      low: fc.double({ min: -1, max: 1, noNaN: true }),
      up: fc.double({ min: -1, max: 1, noNaN: true }),
      more: fc.double({ min: 0.1, max: 5, noNaN: true }),
      right: fc.double({ min: -100, max: 100, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 40 }), (rows) => {
        const n = rows.length;
        const lower = Float64Array.from(rows, (r) => r.low);
        const upper = Float64Array.from(rows, (r) => r.up);
        const diagonal = Float64Array.from(rows, (r) => Math.abs(r.low) + Math.abs(r.up) + r.more);
        const x = Float64Array.from(rows, (r) => r.right);
        solveTridiagonal(lower, diagonal, Float64Array.from(upper), x, n);
        for (let i = 0; i < n; i++) {
          const left = i > 0 ? lower[i]! * x[i - 1]! : 0;
          const back = left + diagonal[i]! * x[i]! + (i < n - 1 ? upper[i]! * x[i + 1]! : 0);
          expect(back).toBeCloseTo(rows[i]!.right, 8);
        }
      }),
      { seed: 3 },
    );
  });
  test("a zero pivot is refused", () => {
    const zero = new Float64Array(2);
    expect(() => solveTridiagonal(zero, zero, new Float64Array(2), new Float64Array(2), 2)).toThrow(/pivot/);
  });
});

describe("root", () => {
  test("finds the root of any cubic with one", () => {
    fc.assert(
      fc.property(fc.double({ min: -9, max: 9, noNaN: true }), (r) => {
        const found = findRoot((x) => (x - r) * (x * x + 1), -10, 10, 1e-10);
        expect(Math.abs(found.x - r)).toBeLessThan(1e-9);
        expect(found.evaluations).toBeLessThan(60);
      }),
      { seed: 5 },
    );
  });
  test("a step is found as well as a slope", () => {
    expect(findRoot((x) => (x < 0.3 ? -1 : 1), 0, 1, 1e-9).x).toBeCloseTo(0.3, 8);
  });
  test("ends of one sign and values that are no number are refused", () => {
    expect(() => findRoot((x) => x * x + 1, -1, 1)).toThrow(/same sign/);
    expect(() => findRoot(() => Number.NaN, -1, 1)).toThrow(/not a number/);
  });
});

describe("Bessel functions", () => {
  // Abramowitz and Stegun (1964), Table 9.1, and zeros from Table 9.5.
  test.each([
    [0, 1, 0],
    [1, 0.7651976865579666, 0.4400505857449335],
    [2.4, 0.0025076832972, 0.5201852681819],
    [5, -0.1775967713143383, -0.3275791375914652],
    [10, -0.2459357644513483, 0.04347274616886144],
    [17.5, -0.1031103982, -0.1634199694],
  ])("J0(%d) and J1", (x, j0, j1) => {
    expect(besselJ0(x)).toBeCloseTo(j0, 9);
    expect(besselJ1(x)).toBeCloseTo(j1, 9);
    expect(besselJ0(-x)).toBeCloseTo(j0, 9);
    expect(besselJ1(-x)).toBeCloseTo(x === 0 ? 0 : -j1, 9);
  });
  test.each([
    [2.404825557695773, besselJ0],
    [30.634606468431976, besselJ0],
    [3.8317059702075125, besselJ1],
    [25.903672087618382, besselJ1],
  ])("has its zero at %d", (zero, f) => expect(Math.abs(f(zero))).toBeLessThan(1e-11));
  test("the series and the expansion agree where they meet", () => {
    for (const f of [besselJ0, besselJ1]) expect(f(12 - 1e-9)).toBeCloseTo(f(12 + 1e-9), 8);
  });
});
