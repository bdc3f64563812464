import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Faces, meanOf, temperatures, uniform } from "./body.ts";
import { type HeatResult, heat } from "./heat.ts";
import { march } from "./march.ts";
import { cut, substancesOf, wholeOf } from "./piece.ts";
import { prepare } from "./prepare.ts";
import { runStages } from "./run-stages.ts";
import type { HeatInput, Material, Piece } from "./schema.ts";
import { heatAt, substanceOf, temperatureAt } from "./substance.ts";

const given: Material = { conductivity: 0.5, density: 1050, specificHeat: 3500 };
const lean: Material = { composition: { water: 0.75, protein: 0.22, fat: 0.02, ash: 0.01 } };

function ok(input: HeatInput): HeatResult {
  const result = heat(input);
  if ("problems" in result) throw new Error(JSON.stringify(result.problems));
  return result;
}

const anyPiece: fc.Arbitrary<Piece> = fc.oneof(
  fc.record({ kind: fc.constant("slab" as const), thicknessMm: fc.integer({ min: 5, max: 120 }) }),
  fc.record({ kind: fc.constant("cylinder" as const), diameterMm: fc.integer({ min: 5, max: 120 }) }),
  fc.record({ kind: fc.constant("sphere" as const), diameterMm: fc.integer({ min: 5, max: 120 }) }),
  fc.record({
    kind: fc.constant("finite-cylinder" as const),
    diameterMm: fc.integer({ min: 10, max: 90 }),
    lengthMm: fc.integer({ min: 10, max: 200 }),
  }),
  fc.record({
    kind: fc.constant("brick" as const),
    sidesMm: fc.tuple(
      fc.integer({ min: 10, max: 60 }),
      fc.integer({ min: 10, max: 60 }),
      fc.integer({ min: 10, max: 60 }),
    ),
  }),
);

describe("H2 heat is neither made nor lost", () => {
  test("for any shape, given or composed, frozen or not", () => {
    fc.assert(
      fc.property(
        anyPiece,
        fc.constantFrom(given, lean),
        fc.integer({ min: -25, max: 90 }),
        fc.integer({ min: -20, max: 120 }),
        fc.constantFrom(8, 100, 1000),
        fc.integer({ min: 1, max: 60 }),
        (piece, material, startC, mediumC, coefficient, minutes) => {
          const whole = wholeOf(piece, material, [], "/layers", "/material");
          const body = cut(whole, substancesOf(whole, startC), 6, false);
          const start = uniform(body, startC);
          const faces: Faces[] = body.axes.map(() => ({ outer: { coefficient, ambientC: () => mediumC } }));
          const held = (heatOf: Float64Array) => heatOf.reduce((sum, h, i) => sum + h * body.volume[i]!, 0);
          const before = held(start.heat);
          const { progress } = march(
            body,
            { state: start, killed: new Float64Array(body.cells), killedAtCore: 0 },
            faces,
            { limitS: minutes * 60, killRate: () => 0, stepToleranceK: 0.05 },
          );
          const gained = held(progress.state.heat) - before;
          const scale = Math.max(
            Math.abs(gained),
            1e-3 * held(uniform(body, startC + 1).heat) - 1e-3 * before,
          );
          expect(Math.abs(gained - progress.state.heatIn) / scale).toBeLessThan(1e-6);
        },
      ),
      { seed: 11, numRuns: 60 },
    );
  });
  test("a piece warmed to its medium has taken its own heat content", () => {
    const s = substanceOf(lean, -20);
    const whole = wholeOf({ kind: "slab", thicknessMm: 10 }, lean, [], "", "");
    const body = cut(whole, [s], 8, false);
    const faces: Faces[] = [{ outer: { coefficient: 500, ambientC: () => 20 } }];
    const start = { state: uniform(body, -20), killed: new Float64Array(body.cells), killedAtCore: 0 };
    const { progress } = march(body, start, faces, {
      limitS: 86400,
      killRate: () => 0,
      stepToleranceK: 0.02,
    });
    expect(progress.state.heatIn / 0.005 / (heatAt(s, 20) - heatAt(s, -20))).toBeCloseTo(1, 5);
  });
});

describe("H3 mesh and steps", () => {
  test("the error falls as the square of the cell: order 2 within a tenth, in plane, round and ball", () => {
    for (const piece of [
      { kind: "slab", thicknessMm: 40 },
      { kind: "cylinder", diameterMm: 40 },
      { kind: "sphere", diameterMm: 40 },
    ] as const) {
      const ready = prepare({
        piece,
        material: given,
        startC: 5,
        stages: [{ mediumC: 100, coefficient: 250, minutes: 8 }],
        place: {},
      });
      const at = (cells: number) => runStages(ready, { cells, stepToleranceK: 1e-5 }).stages[0]!.end.meanC;
      const [a, b, c] = [at(12), at(24), at(48)];
      const order = Math.log2((a - b) / (b - c));
      expect(order, piece.kind).toBeGreaterThan(1.9);
      expect(order, piece.kind).toBeLessThan(2.1);
    }
  });
  test("a tighter step tolerance converges: the error falls with it", () => {
    const ready = prepare({
      piece: { kind: "slab", thicknessMm: 40 },
      material: lean,
      startC: 5,
      stages: [{ mediumC: 100, coefficient: 250, minutes: 8 }],
      place: {},
    });
    const at = (stepToleranceK: number) =>
      runStages(ready, { cells: 20, stepToleranceK }).stages[0]!.end.coreC;
    const exact = at(1e-6);
    expect(Math.abs(at(0.02) - exact)).toBeLessThan(0.04);
    expect(Math.abs(at(0.0005) - exact)).toBeLessThan(0.002);
  });
  test("no point passes what it has met; heating a piece warms its centre steadily", () => {
    fc.assert(
      fc.property(
        anyPiece,
        fc.constantFrom(given, lean),
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: 61, max: 130 }),
        fc.constantFrom(10, 200, 5000),
        (shape, material, startC, mediumC, coefficient) => {
          const { stages, curve } = ok({
            shape,
            material,
            startC,
            stages: [{ mediumC, coefficient, minutes: 20 }],
          });
          expect(stages[0]!.coldestC).toBeGreaterThan(startC - 0.2);
          expect(stages[0]!.hottestC).toBeLessThan(mediumC + 0.2);
          for (let i = 1; i < curve.length; i++)
            expect(curve[i]!.coreC).toBeGreaterThan(curve[i - 1]!.coreC - 0.05);
        },
      ),
      { seed: 12, numRuns: 40 },
    );
  });
  test("thicker takes longer, a better coefficient takes shorter", () => {
    const minutes = (thicknessMm: number, coefficient: number) =>
      ok({
        shape: { kind: "slab", thicknessMm },
        material: lean,
        startC: 5,
        stages: [{ mediumC: 70, coefficient, untilCoreC: 60 }],
      }).totalMinutes;
    expect(minutes(30, 100)).toBeGreaterThan(minutes(29, 100));
    expect(minutes(30, 100)).toBeGreaterThan(minutes(30, 110));
  });
});

describe("H4 shapes, layers, faces", () => {
  const stage = { mediumC: 90, coefficient: 120, minutes: 10 };
  test("the order of a brick's sides does not matter", () => {
    const at = (sidesMm: [number, number, number]) =>
      ok({ shape: { kind: "brick", sidesMm }, material: given, startC: 5, stages: [stage] }).stages[0]!;
    const a = at([30, 40, 70]);
    for (const other of [at([70, 30, 40]), at([40, 70, 30])]) {
      expect(other.coreC).toBeCloseTo(a.coreC, 6);
      expect(other.surfaceC).toBeCloseTo(a.surfaceC, 6);
    }
  });
  test("layers of the core's own material are no layers at all", () => {
    for (const shape of [
      { kind: "slab", thicknessMm: 40 },
      { kind: "cylinder", diameterMm: 40 },
      { kind: "sphere", diameterMm: 40 },
      { kind: "finite-cylinder", diameterMm: 40, lengthMm: 60 },
    ] as const) {
      const plain = ok({ shape, material: given, startC: 5, stages: [stage] });
      const layered = ok({
        shape,
        material: given,
        layers: [{ thicknessMm: 3, material: given }],
        startC: 5,
        stages: [stage],
      });
      expect(Math.abs(layered.stages[0]!.coreC - plain.stages[0]!.coreC), shape.kind).toBeLessThan(0.08);
    }
  });
  test("a slab with the same medium underneath is the symmetric slab; insulated below it is one twice as thick", () => {
    const slab = (thicknessMm: number) => ({ kind: "slab" as const, thicknessMm });
    const half = ok({ shape: slab(40), material: given, startC: 5, stages: [stage] });
    const same = ok({
      shape: slab(40),
      material: given,
      startC: 5,
      stages: [{ ...stage, underside: { mediumC: 90, coefficient: 120 } }],
    });
    expect(Math.abs(same.stages[0]!.coreC - half.stages[0]!.coreC)).toBeLessThan(0.05);
    const closed = ok({
      shape: slab(20),
      material: given,
      startC: 5,
      stages: [{ ...stage, underside: "insulated" }],
    });
    expect(Math.abs(closed.stages[0]!.meanC - half.stages[0]!.meanC)).toBeLessThan(0.05);
  });
  test("a film of plastic or a wall of copper hardly matters; a crust of crumb does", () => {
    const minutes = (layer: Material, thicknessMm: number) =>
      ok({
        shape: { kind: "cylinder", diameterMm: 50 },
        material: lean,
        layers: [{ thicknessMm, material: layer }],
        startC: 4,
        stages: [{ mediumC: 95, coefficient: 800, untilCoreC: 65 }],
      }).totalMinutes;
    const bare = minutes(lean as Material, 1);
    const film = minutes({ conductivity: 0.2, density: 950, specificHeat: 2200 }, 0.05);
    const copper = minutes({ conductivity: 380, density: 8900, specificHeat: 385 }, 1);
    const crumb = minutes({ conductivity: 0.05, density: 250, specificHeat: 2000 }, 3);
    expect(film / bare).toBeGreaterThan(1);
    expect(film / bare).toBeLessThan(1.03);
    expect(copper / bare).toBeLessThan(1.02);
    expect(crumb / bare).toBeGreaterThan(1.3);
  });
  test("on a griddle the underside is hotter than the top, and the centre between", () => {
    const result = ok({
      shape: { kind: "slab", thicknessMm: 20 },
      material: given,
      startC: 5,
      stages: [{ mediumC: 25, coefficient: 8, underside: { mediumC: 180, coefficient: 400 }, minutes: 6 }],
    });
    const { coreC, surfaceC, hottestC } = result.stages[0]!;
    expect(surfaceC).toBeLessThan(coreC);
    expect(coreC).toBeLessThan(hottestC);
    expect(hottestC).toBeGreaterThan(120);
    expect(result.stages[0]!.worstLog10).toBeLessThanOrEqual(result.stages[0]!.log10);
  });
});

describe("H5 stages go on where the last ended", () => {
  test("a stage cut in two changes nothing", () => {
    const of = (...minutes: number[]) =>
      ok({
        shape: { kind: "finite-cylinder", diameterMm: 45, lengthMm: 80 },
        material: lean,
        startC: 5,
        stages: minutes.map((m) => ({ mediumC: 85, coefficient: 200, minutes: m })),
      });
    const one = of(20);
    const two = of(7, 13);
    expect(Math.abs(two.stages[1]!.coreC - one.stages[0]!.coreC)).toBeLessThan(0.05);
    expect(Math.abs(two.stages[1]!.meanC - one.stages[0]!.meanC)).toBeLessThan(0.05);
    expect(Math.abs(two.stages[1]!.log10 / one.stages[0]!.log10 - 1)).toBeLessThan(0.02);
  });
  test("the core goes on rising in air after a hot stage: carry-over", () => {
    const { stages } = ok({
      shape: { kind: "slab", thicknessMm: 50 },
      material: lean,
      startC: 5,
      stages: [
        { mediumC: 150, coefficient: 30, untilCoreC: 50 },
        { mediumC: 22, coefficient: 8, minutes: 20 },
      ],
    });
    expect(stages[1]!.peakCoreC).toBeGreaterThan(53);
    expect(stages[1]!.peakCoreC).toBeLessThan(stages[0]!.meanC);
  });
});

describe("H6 freezing and thawing", () => {
  const s = substanceOf(lean, 20);
  test("heat content rises with temperature and is read back", () => {
    fc.assert(
      fc.property(fc.double({ min: -50, max: 250, noNaN: true }), (t) => {
        // Between nodes the freezing knee is a chord: a few hundredths.
        expect(Math.abs(temperatureAt(s, heatAt(s, t)) - t)).toBeLessThan(1e-6);
      }),
      { seed: 13 },
    );
    for (let t = -50; t < 250; t++) expect(heatAt(s, t + 1)).toBeGreaterThan(heatAt(s, t));
  });
  test("thawing from -20 to 20 °C takes the heat of its ice on top of the sensible heat", () => {
    const perKg = (heatAt(s, 20) - heatAt(s, -20)) / s.density / 1000;
    // 0.66 kg of free water, 95 % frozen at -20, 333 kJ/kg; sensible about 40 + 75.
    expect(perKg).toBeGreaterThan(270);
    expect(perKg).toBeLessThan(330);
  });
  test("a frozen piece lingers below its freezing point and takes far longer than a thawed one", () => {
    const of = (startC: number) =>
      ok({
        shape: { kind: "slab", thicknessMm: 30 },
        material: lean,
        startC,
        stages: [{ mediumC: 5, coefficient: 20, untilCoreC: 2 }],
      });
    expect(of(-18).totalMinutes).toBeGreaterThan(3 * of(-0.5).totalMinutes);
    const low = of(-18).curve.filter((p) => p.coreC > -3 && p.coreC < -0.9);
    expect(low[low.length - 1]!.minute - low[0]!.minute).toBeGreaterThan(0.5 * of(-18).totalMinutes);
  });
  test("frozen and thawed again it is what it was", () => {
    const { stages } = ok({
      shape: { kind: "slab", thicknessMm: 20 },
      material: lean,
      startC: 4,
      stages: [
        { mediumC: -30, coefficient: 30, minutes: 600 },
        { mediumC: 4, coefficient: 30, minutes: 6000 },
      ],
    });
    expect(stages[0]!.coreC).toBeLessThan(-25);
    expect(Math.abs(stages[1]!.meanC - 4)).toBeLessThan(0.05);
  });
  test("a food that holds air conducts less and holds less", () => {
    const bread = { composition: { water: 0.4, carbohydrate: 0.5, protein: 0.1 }, bulkDensity: 300 };
    const dense = substanceOf({ composition: bread.composition }, 20);
    const airy = substanceOf(bread, 20);
    expect(airy.density).toBe(300);
    expect(airy.conductivity[800]! / dense.conductivity[800]!).toBeLessThan(0.4);
    const body = cut(wholeOf({ kind: "sphere", diameterMm: 50 }, bread, [], "", ""), [airy], 8, false);
    expect(meanOf(body, temperatures(body, uniform(body, 33), new Float64Array(8)))).toBeCloseTo(33, 6);
  });
});
