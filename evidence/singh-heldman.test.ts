import { expect, test } from "vitest";
import { unaccomplished } from "./conduction-series.ts";
import { piece, run } from "./heat-cases.ts";

/** R. P. Singh and D. R. Heldman, Introduction to Food Engineering, 5th edition (published). */

test("apple in a water stream (example 4.26): 3 °C at Fourier 0.505, 3778 s; the book reads about 0.5", () => {
  const apple = { conductivity: 0.355, density: 820, specificHeat: 3600 };
  const { totalMinutes } = run(piece("sphere", 0.03), apple, 15, {
    mediumC: 2,
    coefficient: 50,
    untilCoreC: 3,
  });
  expect(Math.abs(totalMinutes * 60 - 3778)).toBeLessThan(0.005 * 3778);
  const fourier = ((0.355 / 820 / 3600) * totalMinutes * 60) / 0.03 ** 2;
  expect(Math.abs(fourier - 0.5)).toBeLessThan(0.01);
});

test("can 303 x 406 in boiling water: 49.6 °C by the exact product after half an hour, 48.4 by chart", () => {
  const food = { conductivity: 0.34, density: 900, specificHeat: 3500 };
  const { stages } = run({ kind: "finite-cylinder", diameterMm: 81, lengthMm: 110 }, food, 35, {
    mediumC: 100,
    coefficient: 2000,
    minutes: 30,
  });
  const alpha = 0.34 / 900 / 3500;
  const share =
    unaccomplished("cylinder", (2000 * 0.0405) / 0.34, (alpha * 1800) / 0.0405 ** 2, 0) *
    unaccomplished("slab", (2000 * 0.055) / 0.34, (alpha * 1800) / 0.055 ** 2, 0);
  expect(Math.abs(100 - 65 * share - 49.6)).toBeLessThan(0.1);
  expect(Math.abs(stages[0]!.coreC - (100 - 65 * share))).toBeLessThan(0.05);
  expect(Math.abs(stages[0]!.coreC - 48.4)).toBeLessThan(1.4);
});
