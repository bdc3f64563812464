import { describe, expect, test } from "vitest";
import { fillTarget } from "./fill-target.ts";
import { heat } from "./heat.ts";
import { prepare } from "./prepare.ts";
import type { Material, Piece, Spread, Stage, Target } from "./schema.ts";
import { bandOf } from "./spread.ts";
import { quantile, sampleSpread } from "./spread-sample.ts";

const lean: Material = { composition: { water: 0.75, protein: 0.22, fat: 0.02, ash: 0.01 } };
const slab: Piece = { kind: "slab", thicknessMm: 30 };
const tolerances: Spread = { thicknessMm: 2, startC: 2, mediumC: 1, coefficient: 0.2 };

function seeded(seed: number): () => number {
  let s = seed;
  return () => {
    s = (s * 48271) % 2147483647;
    return s / 2147483647;
  };
}
const ready = (stages: Stage[], startC = 5) =>
  prepare({ piece: slab, material: lean, startC, stages, place: {} });

describe("H14 a spread makes a band", () => {
  const bath: Stage = { mediumC: 62, coefficient: 100, untilCoreC: 57 };
  test("quick end, middle, slow end, in that order; the middle is the trial itself", () => {
    const band = bandOf(ready([bath]), tolerances, []);
    const { low, mid, high } = band.totalMinutes;
    expect(low).toBeLessThan(mid);
    expect(mid).toBeLessThan(high!);
    const plain = heat({ shape: slab, material: lean, startC: 5, stages: [bath] });
    if ("problems" in plain) throw new Error("refused");
    expect(Math.abs(mid / plain.totalMinutes - 1)).toBeLessThan(0.003);
  });
  test("every case drawn within the tolerances lies within the band", () => {
    for (const [stages, startC] of [
      [[bath], 5],
      [[{ mediumC: 2, coefficient: 25, untilCoreC: 10 }], 70],
      [[bath, { mediumC: 2, coefficient: 150, untilCoreC: 8 }], 5],
    ] as [Stage[], number][]) {
      const question = ready(stages, startC);
      const band = bandOf(question, tolerances, []);
      const sample = sampleSpread(question, tolerances, 150, seeded(4));
      expect(sample.reached).toBe(150);
      expect(sample.minutes[0]!).toBeGreaterThanOrEqual(band.totalMinutes.low - 0.05);
      expect(sample.minutes[149]!).toBeLessThanOrEqual(band.totalMinutes.high! + 0.05);
      expect(quantile(sample.minutes, 0.5) / band.totalMinutes.mid).toBeCloseTo(1, 1);
    }
  });
  test("the same seed gives the same sample", () => {
    const one = sampleSpread(ready([bath]), tolerances, 20, seeded(9));
    expect(sampleSpread(ready([bath]), tolerances, 20, seeded(9))).toEqual(one);
  });
  test("no tolerance, no band to speak of", () => {
    const band = bandOf(ready([bath]), {}, []);
    expect(band.totalMinutes.high).toBeCloseTo(band.totalMinutes.low, 9);
    expect(band.driver).toBe("none");
  });
  test("the input that matters most is named: thickness in water, the bath near its target", () => {
    const hot: Stage = { mediumC: 95, coefficient: 1000, untilCoreC: 60 };
    expect(bandOf(ready([hot]), tolerances, []).driver).toBe("thickness");
    const near: Stage = { mediumC: 59, coefficient: 100, untilCoreC: 57.5 };
    expect(bandOf(ready([near]), tolerances, []).driver).toBe("medium");
  });
  test("a slow end that never gets there is null, and said", () => {
    const notes: { code: string; text: string }[] = [];
    const band = bandOf(ready([{ ...bath, untilCoreC: 61.5 }]), tolerances, notes);
    expect(band.totalMinutes.high).toBeNull();
    expect(notes.some((n) => n.code === "slow-end-unreached")).toBe(true);
  });
});

describe("H14 a target fills the plan with its long end", () => {
  const fill = (target: Target, more: { previousC?: number; piece?: Piece | undefined } = {}) => {
    const result = fillTarget({
      piece: "piece" in more ? more.piece : slab,
      material: lean,
      target,
      place: { altitudeM: 1150 },
      previousC: more.previousC,
      paths: { piece: "/preparations/0/piece", target: "/preparations/0/steps/2/target" },
    });
    return result;
  };
  const ok = (target: Target, more = {}) => {
    const result = fill(target, more);
    if ("problems" in result) throw new Error(JSON.stringify(result.problems));
    return result;
  };
  test("what must be reached is reached by the slow piece in the plan's minutes; the quick one is judged for the rest", () => {
    const filled = ok({
      startC: 4,
      stages: [
        { medium: "water-bath", mediumC: 60, untilDonenessC: [56, 58] },
        { medium: "ice-bath", untilCoreC: 5 },
      ],
      spread: tolerances,
    });
    expect(filled.minutes.low).toBeLessThan(filled.minutes.mid);
    expect(filled.minutes.mid).toBeLessThan(filled.minutes.high);
    const [low, high, cold] = filled.limits;
    expect(low).toMatchObject({ what: "coreC", op: ">=", limit: 56, at: "slow", met: true });
    // In a bath of 60 ± 1 the quick piece goes past 58 by the time the slow one is done.
    expect(high).toMatchObject({ what: "peakCoreC", op: "<=", limit: 58, at: "quick", met: false });
    expect(high!.margin).toBeLessThan(0);
    expect(cold).toMatchObject({ what: "coreC", op: "<=", limit: 5, at: "slow", met: true });
    expect(filled.peakCoreC.slow).toBeLessThan(filled.peakCoreC.quick);
  });
  test("lethality of the plan is judged on the slow piece", () => {
    const filled = ok({
      startC: 4,
      stages: [{ medium: "water-bath", mediumC: 62, untilTable: { table: "fsis-poultry-7", fatPercent: 4 } }],
    });
    expect(filled.limits[0]).toMatchObject({ what: "log10", limit: 7, at: "slow", met: true });
    expect(filled.log10.slow).toBeLessThan(filled.log10.quick);
    expect(filled.notes.some((n) => n.code === "usual-spread")).toBe(true);
  });
  test("from previous: the core the step before left; without one it is refused with its path", () => {
    const target: Target = { startC: "from previous", stages: [{ medium: "blast-chiller", untilCoreC: 5 }] };
    const hot = ok(target, { previousC: 80 });
    const warm = ok(target, { previousC: 40 });
    expect(hot.minutes.mid).toBeGreaterThan(warm.minutes.mid);
    const refused = fill(target);
    if (!("problems" in refused)) throw new Error("was computed");
    expect(refused.problems[0]!.path).toBe("/preparations/0/steps/2/target/startC");
  });
  test("no piece, no target in °C; the path is the caller's", () => {
    const refused = fill(
      { startC: 4, stages: [{ medium: "fan-oven", mediumC: 160, untilCoreC: 60 }] },
      { piece: undefined },
    );
    expect("problems" in refused && refused.problems[0]!.path).toBe("/preparations/0/piece");
    const hot = fill({ startC: 4, stages: [{ medium: "boiling-water", untilCoreC: 98 }] });
    expect("problems" in hot && hot.problems[0]!.path).toBe(
      "/preparations/0/steps/2/target/stages/0/untilCoreC",
    );
  });
  test("a reduction is filled by power and mass, longer where less heat comes through", () => {
    const filled = ok(
      { startC: 20, stages: [{ untilMass: { fromKg: 4, toKg: 1, powerKW: 5 } }] },
      { piece: undefined },
    );
    expect(filled.minutes.high).toBeGreaterThan(filled.minutes.mid);
    // 3 kg × 2268 kJ/kg and 4 kg × 4.18 × 76 K at 2 kW.
    expect(Math.abs(filled.minutes.mid - (3 * 2268.3 + 4 * 4.18 * 76.2) / 2 / 60)).toBeLessThan(0.2);
    expect(filled.notes.map((n) => n.code)).toContain("weigh");
  });
});
