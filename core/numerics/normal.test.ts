import { expect, test } from "vitest";
import { normalChance, normalQuantile } from "./normal.ts";

// Abramowitz and Stegun, Handbook of Mathematical Functions (1964), tables 26.1 and 26.5.
test.each([
  [0, 0.5],
  [0.5, 0.691462461274013],
  [1, 0.841344746068543],
  [2, 0.977249868051821],
  [3, 0.99865010196837],
  [-1, 0.158655253931457],
])("N7 Φ(%d) as printed", (z, chance) => {
  expect(normalChance(z)).toBeCloseTo(chance, 13);
});

test("N7 far tails keep their digits", () => {
  // Q(7) = 1.2798 × 10⁻¹², from the asymptotic series.
  expect(normalChance(-7) / 1.279812543885835e-12).toBeCloseTo(1, 8);
  expect(normalChance(-5.999999) / normalChance(-6.000001)).toBeCloseTo(1, 4);
});

test.each([
  [0.9, 1.28155],
  [0.95, 1.64485],
  [0.975, 1.95996],
  [0.99, 2.32635],
  [0.999, 3.09023],
])("N7 the quantile of %d as printed", (chance, z) => {
  expect(normalQuantile(chance)).toBeCloseTo(z, 5);
});

test("N7 the quantile is the inverse; what is no chance is refused", () => {
  for (const chance of [1e-9, 0.03, 0.5, 0.77, 1 - 1e-6])
    expect(normalChance(normalQuantile(chance)) / chance).toBeCloseTo(1, 7);
  for (const chance of [0, 1, -1, Number.NaN]) expect(() => normalQuantile(chance)).toThrow(RangeError);
});
