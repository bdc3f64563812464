import { expect, test } from "vitest";
import { sugarAtBoil, sugarStages, syrupBoilsAtC, syrupDensity } from "../core/heat/sugar.ts";

test("density of syrups: Asadi, Beet-Sugar Handbook (2006), table A.1 (published, relative to water at 20 °C)", () => {
  for (const [share, relative] of [
    [0.1, 1.03998],
    [0.2, 1.08287],
  ] as const)
    expect(Math.abs(syrupDensity(share) / 998.2 - relative)).toBeLessThan(0.0005);
});

test("density of saturated syrup at 20 °C, 203.9 g in 100 g of water: 1332.7 kg/m³ (Mohos 2010, table A2.2)", () => {
  expect(Math.abs(syrupDensity(203.9 / 303.9) - 1332.7) / 1332.7).toBeLessThan(0.005);
});

// Confectionery charts (published in many copies), °C at sea level.
test.each([
  [0.8, 110, 112],
  [0.85, 112, 116],
  [0.87, 118, 120],
  [0.92, 121, 130],
  [0.95, 132, 143],
  [0.99, 146, 154],
])("%d of sugar boils between %d and %d °C", (share, low, high) => {
  const boils = syrupBoilsAtC(share);
  expect(boils).toBeGreaterThanOrEqual(low - 0.5);
  expect(boils).toBeLessThanOrEqual(high + 0.5);
  expect(sugarAtBoil(boils)).toBeCloseTo(share, 9);
});

test("at altitude every stage comes as much lower as water boils lower", () => {
  expect(syrupBoilsAtC(0.85, 96.2)).toBeCloseTo(syrupBoilsAtC(0.85) - 3.8, 9);
  expect(sugarAtBoil(96.2 + sugarStages[1].from, 96.2)).toBeCloseTo(
    sugarAtBoil(100 + sugarStages[1].from),
    9,
  );
});
