import { describe, expect, test } from "vitest";
import { heat } from "../core/heat/heat.ts";
import { meanUnaccomplished, type Solid, unaccomplished } from "./conduction-series.ts";
import { material, piece, run } from "./heat-cases.ts";

/**
 * Exact series (see conduction-series.ts), published in every heat-transfer textbook. The engine must be within
 * 0.05 °C of them for 95 °C of difference, at centre, surface and mean.
 */
const half = 0.02;
const of = material(0.5, 1.4e-7);
const solids: Solid[] = ["slab", "cylinder", "sphere"];
const biots = [0.1, 0.5, 1, 5, 10, 100];
const fouriers = [0.05, 0.2, 0.5, 1];

describe("exact series for slab, cylinder and sphere, Biot 0.1 to 100", () => {
  for (const solid of solids)
    test.each(biots)(`${solid}, Biot %d`, (biot) => {
      for (const fourier of fouriers) {
        const minutes = (fourier * half * half) / 1.4e-7 / 60;
        const { stages, error } = run(piece(solid, half), of, 5, {
          mediumC: 100,
          coefficient: (biot * 0.5) / half,
          minutes,
        });
        const exact = (share: number) => 100 - 95 * share;
        const at = (x: number) => exact(unaccomplished(solid, biot, fourier, x));
        expect(Math.abs(stages[0]!.coreC - at(0)), `core, Fo ${fourier}`).toBeLessThan(0.05);
        expect(Math.abs(stages[0]!.surfaceC - at(1)), `surface, Fo ${fourier}`).toBeLessThan(0.05);
        const mean = exact(meanUnaccomplished(solid, biot, fourier));
        expect(Math.abs(stages[0]!.meanC - mean), `mean, Fo ${fourier}`).toBeLessThan(0.05);
        expect(error.celsius).toBeLessThan(0.05);
      }
    });
});

describe("product solutions (Incropera and DeWitt, section 5.8)", () => {
  test.each([
    [0.5, 0.06, 0.5],
    [5, 0.05, 0.12],
    [50, 0.04, 0.1],
  ])("finite cylinder, Biot %d on the radius, %d by %d m", (biot, diameter, length) => {
    const radius = diameter / 2;
    const h = (biot * 0.5) / radius;
    for (const fourier of [0.1, 0.3, 0.6]) {
      const seconds = (fourier * radius * radius) / 1.4e-7;
      const along = (1.4e-7 * seconds) / (length / 2) ** 2;
      const biotAlong = (h * length) / 2 / 0.5;
      const share =
        unaccomplished("cylinder", biot, fourier, 0) * unaccomplished("slab", biotAlong, along, 0, 120);
      const shape = {
        kind: "finite-cylinder",
        diameterMm: diameter * 1000,
        lengthMm: length * 1000,
      } as const;
      const { stages } = run(shape, of, 5, { mediumC: 100, coefficient: h, minutes: seconds / 60 });
      expect(Math.abs(stages[0]!.coreC - (100 - 95 * share)), `Fo ${fourier}`).toBeLessThan(0.05);
      const side =
        unaccomplished("cylinder", biot, fourier, 1) * unaccomplished("slab", biotAlong, along, 0, 120);
      expect(Math.abs(stages[0]!.surfaceC - (100 - 95 * side)), `side, Fo ${fourier}`).toBeLessThan(0.08);
    }
  });
  test.each([
    [0.5, [0.04, 0.06, 0.08]],
    [10, [0.03, 0.05, 0.12]],
    [60, [0.05, 0.05, 0.05]],
  ] as const)("brick, Biot %d on the shortest side", (biot, sides) => {
    const h = (biot * 0.5) / (sides[0] / 2);
    for (const fourier of [0.15, 0.4]) {
      const seconds = (fourier * (sides[0] / 2) ** 2) / 1.4e-7;
      const share = sides.reduce((product, side) => {
        const L = side / 2;
        return product * unaccomplished("slab", (h * L) / 0.5, (1.4e-7 * seconds) / (L * L), 0, 120);
      }, 1);
      const sidesMm = sides.map((s) => s * 1000) as [number, number, number];
      const result = run({ kind: "brick", sidesMm }, of, 5, {
        mediumC: 100,
        coefficient: h,
        minutes: seconds / 60,
      });
      expect(Math.abs(result.stages[0]!.coreC - (100 - 95 * share)), `Fo ${fourier}`).toBeLessThan(0.1);
    }
  });
  test("a brick and a cylinder far longer than thick are a slab and a long cylinder", () => {
    const stage = { mediumC: 100, coefficient: 200, minutes: 15 };
    const long = run({ kind: "finite-cylinder", diameterMm: 40, lengthMm: 2000 }, of, 5, stage);
    const endless = run({ kind: "cylinder", diameterMm: 40 }, of, 5, stage);
    expect(Math.abs(long.stages[0]!.coreC - endless.stages[0]!.coreC)).toBeLessThan(0.1);
    const plate = run({ kind: "brick", sidesMm: [30, 1500, 1500] }, of, 5, stage);
    const slab = run({ kind: "slab", thicknessMm: 30 }, of, 5, stage);
    expect(Math.abs(plate.stages[0]!.coreC - slab.stages[0]!.coreC)).toBeLessThan(0.1);
  });
});

describe("limits with closed forms", () => {
  test("lumped: at Biot 0.002 the temperature falls as exp(-h A t / (ρ c V))", () => {
    const metal = { conductivity: 50, density: 1000, specificHeat: 500 };
    for (const [solid, areaPerVolume] of [
      ["slab", 1 / 0.01],
      ["cylinder", 2 / 0.01],
      ["sphere", 3 / 0.01],
    ] as const) {
      const { stages } = run(piece(solid, 0.01), metal, 90, { mediumC: 20, coefficient: 10, minutes: 6 });
      const exact = 20 + 70 * Math.exp((-10 * areaPerVolume * 360) / (1000 * 500));
      expect(Math.abs(stages[0]!.coreC - exact), solid).toBeLessThan(0.06);
    }
  });
  test("half space: a thick slab's surface goes as erf before the middle is touched", () => {
    // Fixed surface (Biot 2e4): flux k ΔT / sqrt(π α t) puts 2 k ΔT sqrt(t / (π α)) joules in each square metre.
    const { stages } = run(piece("slab", 0.2), of, 5, { mediumC: 100, coefficient: 5e4, minutes: 30 });
    const joules = 2 * 0.5 * 95 * Math.sqrt(1800 / (Math.PI * 1.4e-7));
    const rise = joules / (0.2 * of.density * of.specificHeat);
    expect(Math.abs(stages[0]!.meanC - 5 - rise) / rise).toBeLessThan(0.005);
    expect(stages[0]!.coreC).toBeCloseTo(5, 2);
  });
  test("steady: a wall between a hot and a cold side ends as resistances in series", () => {
    const result = heat({
      shape: { kind: "slab", thicknessMm: 30, stacked: true },
      layers: [
        { thicknessMm: 10, conductivity: 0.2, density: 800, specificHeat: 2000 },
        { thicknessMm: 20, conductivity: 0.5, density: 1000, specificHeat: 3500 },
      ],
      startC: 20,
      stages: [
        {
          mediumC: 100,
          coefficient: 50,
          underside: { mediumC: 10, coefficient: 20 },
          minutes: 1000,
        },
      ],
    });
    if ("problems" in result) throw new Error(result.problems[0]!.what);
    const resistances = [1 / 50, 0.01 / 0.2, 0.02 / 0.5, 1 / 20];
    const flux = 90 / resistances.reduce((a, b) => a + b, 0);
    expect(result.stages[0]!.surfaceC).toBeCloseTo(100 - flux / 50, 2);
    // The middle of 30 mm lies 5 mm into the lower layer.
    expect(result.stages[0]!.coreC).toBeCloseTo(100 - flux * (1 / 50 + 0.01 / 0.2 + 0.005 / 0.5), 1);
  });
});
