import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { runHeat } from "./command.ts";

const good = {
  shape: { kind: "slab", thicknessMm: 25 },
  material: { conductivity: 0.5, density: 1050, specificHeat: 3500 },
  startC: 5,
  stages: [{ mediumC: 60, coefficient: 100, untilCoreC: 55 }],
};
// biome-ignore lint/suspicious/noExplicitAny: the tests break a good input on purpose
type Loose = any;
function broken(by: (input: Loose) => void) {
  const input = structuredClone(good) as Loose;
  by(input);
  const result = runHeat(input);
  if (result.ok) throw new Error("was computed");
  return result.problems;
}

describe("the heat command", () => {
  test("gives stages, total, curve and notes, and survives JSON", () => {
    const result = runHeat(JSON.parse(JSON.stringify(good)));
    if (!result.ok) throw new Error(JSON.stringify(result.problems));
    const { stages, totalMinutes, curve, notes } = JSON.parse(JSON.stringify(result.value));
    expect(stages).toHaveLength(1);
    for (const key of ["minutes", "coreC", "surfaceC", "meanC", "log10"])
      expect(typeof stages[0][key], key).toBe("number");
    expect(totalMinutes).toBe(stages[0].minutes);
    expect(curve.length).toBeGreaterThan(10);
    expect(curve[curve.length - 1].coreC).toBeCloseTo(55, 2);
    expect(curve.map((p: { minute: number }) => p.minute)).toEqual(
      curve.map((p: { minute: number }) => p.minute).toSorted((a: number, b: number) => a - b),
    );
    expect(notes.every((n: unknown) => typeof n === "string")).toBe(true);
  });
  test("layers may stand beside the shape or in it, their material nested or flat", () => {
    const crust = { conductivity: 0.1, density: 500, specificHeat: 2000 };
    const minutes = (change: object) => {
      const result = runHeat({ ...good, ...change });
      if (!result.ok) throw new Error(JSON.stringify(result.problems));
      return result.value.totalMinutes;
    };
    const beside = minutes({ layers: [{ thicknessMm: 2, material: crust }] });
    expect(minutes({ layers: [{ thicknessMm: 2, ...crust }] })).toBe(beside);
    expect(minutes({ shape: { ...good.shape, layers: [{ thicknessMm: 2, ...crust }] } })).toBe(beside);
    expect(beside).toBeGreaterThan(minutes({}));
  });
});

describe("H18 wrong input gets a place, a reason and a mend", () => {
  test.each<[string, (i: Loose) => void, string, RegExp]>([
    [
      "zero size",
      (i) => {
        i.shape.thicknessMm = 0;
      },
      "/shape/thicknessMm",
      /0\.001 mm/,
    ],
    [
      "negative size",
      (i) => {
        i.shape.thicknessMm = -3;
      },
      "/shape/thicknessMm",
      /0\.001 mm/,
    ],
    [
      "unknown shape",
      (i) => {
        i.shape = { kind: "cube" };
      },
      "/shape/kind",
      /slab/,
    ],
    [
      "no shape",
      (i) => {
        delete i.shape;
      },
      "/shape",
      /object/,
    ],
    [
      "no number",
      (i) => {
        i.startC = Number.NaN;
      },
      "/startC",
      /number/,
    ],
    [
      "a text",
      (i) => {
        i.startC = "5";
      },
      "/startC",
      /number/,
    ],
    [
      "fractions that do not sum",
      (i) => {
        i.material = { composition: { water: 0.5, protein: 0.2 } };
      },
      "/material/composition",
      /add to 1/,
    ],
    [
      "percentages",
      (i) => {
        i.material = { composition: { water: 75, protein: 25 } };
      },
      "/material/composition/water",
      /at most 1/,
    ],
    [
      "layers too thick",
      (i) => {
        i.layers = [{ thicknessMm: 13, material: i.material }];
      },
      "/layers",
      /thinner|bigger/,
    ],
    [
      "a layer of nothing",
      (i) => {
        i.layers = [{ thicknessMm: 3 }];
      },
      "/layers/0/material",
      /object/,
    ],
    [
      "no material",
      (i) => {
        delete i.material;
      },
      "/material",
      /material/,
    ],
    [
      "coefficient below 0",
      (i) => {
        i.stages[0].coefficient = -5;
      },
      "/stages/0/coefficient",
      /at least 0.01/,
    ],
    [
      "coefficient 0",
      (i) => {
        i.stages[0].coefficient = 0;
      },
      "/stages/0/coefficient",
      /at least 0.01/,
    ],
    [
      "absurd coefficient",
      (i) => {
        i.stages[0].coefficient = 1e12;
      },
      "/stages/0/coefficient",
      /at most/,
    ],
    [
      "two ends",
      (i) => {
        i.stages[0].minutes = 3;
      },
      "/stages/0",
      /exactly one/,
    ],
    [
      "no end",
      (i) => {
        delete i.stages[0].untilCoreC;
      },
      "/stages/0",
      /exactly one/,
    ],
    [
      "out of reach",
      (i) => {
        i.stages[0].untilCoreC = 75;
      },
      "/stages/0/untilCoreC",
      /above 75/,
    ],
    [
      "kilojoules",
      (i) => {
        i.material.specificHeat = 3.5;
      },
      "/material/specificHeat",
      /3500/,
    ],
    [
      "an unknown field",
      (i) => {
        i.colour = 1;
      },
      "/colour",
      /spelling/,
    ],
    [
      "no stages",
      (i) => {
        i.stages = [];
      },
      "/stages",
      /at least 1/,
    ],
    [
      "two sides of a brick",
      (i) => {
        i.shape = { kind: "brick", sidesMm: [1, 2] };
      },
      "/shape/sidesMm",
      /at least 3/,
    ],
    [
      "a 5 m slab",
      (i) => {
        i.shape.thicknessMm = 5000;
      },
      "/stages/0/untilCoreC",
      /thickness/,
    ],
    [
      "a tolerance as thick as the piece",
      (i) => {
        i.spread = { thicknessMm: 25 };
      },
      "/spread/thicknessMm",
      /less than half/,
    ],
    [
      "layers twice",
      (i) => {
        i.layers = [{ thicknessMm: 1, material: i.material }];
        i.shape.layers = i.layers;
      },
      "/layers",
      /one of the two/,
    ],
  ])("%s", (_, by, path, mend) => {
    const [first] = broken(by);
    expect(first!.path).toBe(path);
    expect(first!.mend).toMatch(mend);
    expect(first!.what.length).toBeGreaterThan(5);
  });
  test("nothing at all, lists and texts are refused as a whole", () => {
    for (const nothing of [null, undefined, [], "slab", 7, true]) expect(runHeat(nothing).ok).toBe(false);
  });
  test("any numbers within the schema are computed or refused: never thrown, never for ever", () => {
    const stage = fc.oneof(
      fc.record({
        mediumC: fc.double({ min: -200, max: 1000, noNaN: true }),
        coefficient: fc.double({ min: 0.01, max: 1e6, noNaN: true }),
        minutes: fc.double({ min: 1e-3, max: 43200, noNaN: true }),
      }),
      fc.record({
        mediumC: fc.double({ min: -200, max: 1000, noNaN: true }),
        coefficient: fc.double({ min: 0.01, max: 1e6, noNaN: true }),
        untilCoreC: fc.double({ min: -200, max: 1000, noNaN: true }),
      }),
      fc.record({
        medium: fc.constantFrom("boiling-water", "fan-oven", "frying-fat", "ice-bath", "griddle", "freezer"),
        mediumC: fc.integer({ min: -10, max: 250 }),
        untilLog10: fc.record({
          dMinutes: fc.double({ min: 1e-3, max: 1e3, noNaN: true }),
          referenceC: fc.integer({ min: 40, max: 121 }),
          zC: fc.integer({ min: 1, max: 20 }),
          log10: fc.integer({ min: 1, max: 12 }),
        }),
      }),
    );
    const material = fc.oneof(
      fc.record({
        conductivity: fc.double({ min: 0.005, max: 500, noNaN: true }),
        density: fc.double({ min: 1, max: 25000, noNaN: true }),
        specificHeat: fc.double({ min: 100, max: 20000, noNaN: true }),
      }),
      fc.double({ min: 0, max: 1, noNaN: true }).map((water) => ({
        composition: { water, protein: (1 - water) * 0.7, fat: (1 - water) * 0.3 },
      })),
    );
    const mm = fc.double({ min: 0.001, max: 3000, noNaN: true });
    const shape = fc.oneof(
      fc.record({ kind: fc.constant("slab"), thicknessMm: mm }),
      fc.record({ kind: fc.constant("sphere"), diameterMm: mm }),
      fc.record({ kind: fc.constant("finite-cylinder"), diameterMm: mm, lengthMm: mm }),
    );
    fc.assert(
      fc.property(
        shape,
        material,
        fc.double({ min: -200, max: 1000, noNaN: true }),
        fc.array(stage, { minLength: 1, maxLength: 2 }),
        (shape, material, startC, stages) => {
          const began = performance.now();
          const result = runHeat({ shape, material, startC, stages });
          expect(performance.now() - began).toBeLessThan(8000);
          if (result.ok) expect(JSON.stringify(result.value)).not.toMatch(/null/);
          else for (const p of result.problems) expect(p.what.length * p.mend.length).toBeGreaterThan(0);
        },
      ),
      { seed: 31, numRuns: 150 },
    );
  }, 120_000);
});
