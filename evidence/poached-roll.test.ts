import { expect, test } from "vitest";
import { heat } from "../core/heat/heat.ts";

/**
 * Common practice, no source: a poultry roll of 48 to 52 mm, poached in boiling water at sea level from 4 °C,
 * reaches 71 °C in about 20 minutes.
 */
test.each([48, 50, 52])("a roll of %d mm reaches 71 °C in about 20 minutes", (diameterMm) => {
  const result = heat({
    shape: { kind: "cylinder", diameterMm },
    material: { composition: { water: 0.74, protein: 0.21, fat: 0.04, ash: 0.01 } },
    startC: 4,
    stages: [{ medium: "boiling-water", untilCoreC: 71 }],
  });
  if ("problems" in result) throw new Error(result.problems[0]!.what);
  expect(Math.abs(result.totalMinutes - 20)).toBeLessThan(4);
});
