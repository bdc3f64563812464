import { expect, test } from "vitest";
import { media } from "../core/heat/media-data.ts";
import { fourierFor } from "./conduction-series.ts";
import { piece, run, secondsOf } from "./heat-cases.ts";

/** F. P. Incropera and D. P. DeWitt, Fundamentals of Heat and Mass Transfer (published). */

test("hot dog in boiling water (5S.4): 416 s by the exact series, 453.5 read from a chart", () => {
  const sausage = { conductivity: 0.52, density: 880, specificHeat: 3350 };
  const seconds = secondsOf(
    run(piece("cylinder", 0.01), sausage, 6, { mediumC: 100, coefficient: 100, untilCoreC: 80 }),
  );
  const alpha = 0.52 / 880 / 3350;
  const exact = (fourierFor("cylinder", (100 * 0.01) / 0.52, 20 / 94, 0) * 0.01 ** 2) / alpha;
  expect(Math.abs(exact - 416)).toBeLessThan(1);
  expect(Math.abs(seconds - exact)).toBeLessThan(0.005 * exact);
  expect(Math.abs(453.5 / exact - 1.09)).toBeLessThan(0.01);
});

test("bar quenched and left to equalise (5S.5): its mean when taken out is where it comes to rest", () => {
  // 70 mm bar, 90 °C into water of 40 °C, h 20, to equalise at 55 °C; k 3.5, ρ 2600, c 1030.
  const bar = { conductivity: 3.5, density: 2600, specificHeat: 1030 };
  const result = run(
    piece("cylinder", 0.035),
    bar,
    90,
    { mediumC: 40, coefficient: 20, untilMeanC: 55 },
    { mediumC: 55, coefficient: 0.01, minutes: 60 },
  );
  expect(Math.abs(result.stages[1]!.coreC - 55)).toBeLessThan(0.05);
  expect(Math.abs(result.stages[1]!.surfaceC - 55)).toBeLessThan(0.05);
});

test("table 1.1: the media's ranges lie within those of their kind", () => {
  const kinds: Record<string, [number, number]> = {
    "still-air": [2, 25],
    "covered-rest": [2, 25],
    "hot-cabinet": [2, 25],
    "walk-in": [2, 25],
    freezer: [2, 25],
    "blast-chiller": [20, 250],
    "blast-freezer": [20, 250],
    "ice-bath": [50, 1000],
    "running-water": [50, 1000],
    "poaching-water": [50, 1000],
    "simmering-water": [50, 1000],
  };
  for (const [id, [low, high]] of Object.entries(kinds)) {
    const medium = media.find((m) => m.id === id)!;
    expect(medium.range[0], id).toBeGreaterThanOrEqual(low);
    expect(medium.range[1], id).toBeLessThanOrEqual(high);
  }
  for (const m of media) {
    expect(m.coefficient, m.id).toBeGreaterThanOrEqual(m.range[0]);
    expect(m.coefficient, m.id).toBeLessThanOrEqual(m.range[1]);
    expect(m.source.doc.length, m.id).toBeGreaterThan(10);
  }
});
