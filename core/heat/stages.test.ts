import { describe, expect, test } from "vitest";
import { type HeatResult, heat } from "./heat.ts";
import { latestStart, mediumFor, thicknessFor } from "./inverse.ts";
import { killRateOf, reductionOver } from "./lethality.ts";
import type { Question } from "./prepare.ts";
import type { HeatInput, Material, Stage } from "./schema.ts";

const lean: Material = { composition: { water: 0.75, protein: 0.22, fat: 0.02, ash: 0.01 } };
const slab = { kind: "slab", thicknessMm: 30 } as const;
const bath = (mediumC: number): Pick<Stage, "mediumC" | "coefficient"> => ({ mediumC, coefficient: 100 });

function ask(stages: Stage[], more: Partial<HeatInput> = {}) {
  return heat({ shape: slab, material: lean, startC: 5, stages, ...more });
}
function trial(stages: Stage[], more: Partial<HeatInput> = {}): HeatResult {
  const result = ask(stages, more);
  if ("problems" in result) throw new Error(JSON.stringify(result.problems));
  return result;
}
function problem(stages: Stage[], more: Partial<HeatInput> = {}) {
  const result = ask(stages, more);
  if (!("problems" in result)) throw new Error("was computed");
  return result.problems[0]!;
}

describe("H8 a stage ends where it says", () => {
  test("by core, surface, mean, doneness, log10 and table", () => {
    expect(trial([{ ...bath(65), untilCoreC: 60 }]).stages[0]!.coreC).toBeCloseTo(60, 2);
    expect(trial([{ ...bath(65), untilSurfaceC: 60 }]).stages[0]!.surfaceC).toBeCloseTo(60, 2);
    expect(trial([{ ...bath(65), untilMeanC: 60 }]).stages[0]!.meanC).toBeCloseTo(60, 2);
    expect(trial([{ ...bath(65), untilDonenessC: [54, 58] }]).stages[0]!.coreC).toBeCloseTo(54, 2);
    const organism = { dMinutes: 5, referenceC: 60, zC: 5.6, log10: 6.5 };
    expect(trial([{ ...bath(62), untilLog10: organism }]).stages[0]!.worstLog10).toBeCloseTo(6.5, 3);
    const table = { table: "fsis-meat-6.5" } as const;
    expect(trial([{ ...bath(60), untilTable: table }]).stages[0]!.worstLog10).toBeCloseTo(6.5, 3);
  });
  test("cooling ends by the core falling", () => {
    const { stages } = trial([{ ...bath(2), untilCoreC: 5 }], { startC: 75 });
    expect(stages[0]!.coreC).toBeCloseTo(5, 2);
    expect(stages[0]!.hottestC).toBeLessThan(5.05);
  });
  test("carry-over can be waited for, and what it cannot reach is refused with how far it comes", () => {
    const sear = { mediumC: 180, coefficient: 40, minutes: 16 };
    const rest = { mediumC: 22, coefficient: 8 };
    const peak = trial([sear, { ...rest, minutes: 20 }]).stages[1]!.peakCoreC;
    const reached = trial([sear, { ...rest, untilCoreC: peak - 3 }]);
    expect(reached.stages[1]!.coreC).toBeCloseTo(peak - 3, 2);
    const p = problem([sear, { ...rest, untilCoreC: peak + 3 }]);
    expect(p.path).toBe("/stages/1/untilCoreC");
    expect(p.what).toContain("out of reach");
  });
  test("what is so already takes no time, and is said", () => {
    const result = trial([
      { ...bath(80), untilCoreC: 60 },
      { ...bath(90), untilCoreC: 50 },
    ]);
    expect(result.stages[1]!.minutes).toBe(0);
    expect(result.notes.some((n) => n.code === "already-there")).toBe(true);
  });
  test.each([
    [{ ...bath(55), untilCoreC: 60 }, {}, "/stages/0/untilCoreC", /out of reach/, /above 60/],
    [{ ...bath(60), untilCoreC: 60 }, {}, "/stages/0/untilCoreC", /out of reach/, /above 60/],
    [{ ...bath(7), untilCoreC: 5 }, { startC: 80 }, "/stages/0/untilCoreC", /never to 5/, /below 5/],
    [{ ...bath(55), untilSurfaceC: 58 }, {}, "/stages/0/untilSurfaceC", /out of reach/, /above 58/],
    [
      { ...bath(40), untilLog10: { dMinutes: 5, referenceC: 60, zC: 5.6, log10: 6.5 } },
      {},
      "/stages/0/untilLog10",
      /log10/,
      /medium of 5\d/,
    ],
    [
      { ...bath(53), untilTable: { table: "fsis-meat-6.5" as const } },
      {},
      "/stages/0/untilTable",
      /0 of 6.5/,
      /54/,
    ],
  ])("out of reach: %o", (stage, more, path, what, mend) => {
    const p = problem([stage as Stage], more as Partial<HeatInput>);
    expect(p.path).toBe(path);
    expect(p.what).toMatch(what);
    expect(p.mend).toMatch(mend);
  });
  test("a peak target leaves so early that carry-over lands on it", () => {
    const stages: Stage[] = [
      { mediumC: 180, coefficient: 35, untilPeakCoreC: 57 },
      { mediumC: 22, coefficient: 8, minutes: 25 },
    ];
    const result = trial(stages);
    expect(Math.abs(Math.max(...result.stages.map((s) => s.peakCoreC)) - 57)).toBeLessThan(0.1);
    expect(result.stages[0]!.coreC).toBeLessThan(54);
    expect(problem([stages[0]!]).path).toBe("/stages/0/untilPeakCoreC");
    expect(problem([{ ...bath(50), untilPeakCoreC: 57 }, stages[1]!]).mend).toMatch(/above 57/);
  });
  test("two organisms in one trial are refused, and so is a reduction with a piece", () => {
    const a = { dMinutes: 5, referenceC: 60, zC: 5.6, log10: 3 };
    const b = { ...a, dMinutes: 1 };
    expect(
      problem([
        { ...bath(62), untilLog10: a },
        { ...bath(70), untilLog10: b },
      ]).path,
    ).toBe("/stages/1/untilLog10");
    const mass = { fromKg: 2, toKg: 1, powerKW: 3 };
    expect(problem([{ ...bath(62), untilMass: mass }]).path).toBe("/stages/0/untilMass");
  });
});

describe("H10 lethality over the whole curve", () => {
  const organism = { dMinutes: 5, referenceC: 60, zC: 5.6 };
  test("the engine's figure is the integral of its own curve, heating, holding and cooling", () => {
    const result = trial(
      [
        { ...bath(63), minutes: 60 },
        { ...bath(2), minutes: 40 },
      ],
      { organism },
    );
    const again = reductionOver(
      result.curve.map((p) => ({ minute: p.minute, celsius: p.coreC })),
      killRateOf(organism),
    );
    expect(Math.abs(result.stages[1]!.log10 / again - 1)).toBeLessThan(0.02);
    expect(result.stages[1]!.log10).toBeGreaterThan(result.stages[0]!.log10);
  });
  test("the surface that cools first may have had least: the worst point is told apart", () => {
    const result = trial([{ ...bath(2), minutes: 60 }], { startC: 70, organism });
    expect(result.stages[0]!.worstLog10).toBeLessThan(result.stages[0]!.log10);
    expect(result.notes.some((n) => n.code === "worst-elsewhere")).toBe(true);
  });
  test("a reduction counted below 54.4 °C is computed, and said not to count in any table", () => {
    const untilLog10 = { dMinutes: 1, referenceC: 55, zC: 6, log10: 5 };
    const result = trial([{ ...bath(53), untilLog10 }]);
    expect(result.stages[0]!.worstLog10).toBeCloseTo(5, 3);
    expect(result.notes.some((n) => n.code === "low-temperature")).toBe(true);
  });
  test("a slow come-up is said", () => {
    const result = trial([{ mediumC: 58, coefficient: 30, untilCoreC: 56 }], {
      shape: { kind: "slab", thicknessMm: 120 },
    });
    expect(result.notes.some((n) => n.code === "slow-come-up")).toBe(true);
  });
  test("no note and no result calls anything safe", () => {
    const result = trial([{ ...bath(63), minutes: 60 }], { organism });
    expect(JSON.stringify(result)).not.toMatch(/\bsafe\b/i);
    expect(result.notes[result.notes.length - 1]!.text).toMatch(/calibrated thermometer decides/);
  });
});

describe("H9 inverse answers, put back, give what was asked", () => {
  const question = (stages: Stage[]): Question => ({
    piece: slab,
    material: lean,
    startC: 5,
    stages,
    place: {},
  });
  test("how thick for 45 minutes", () => {
    const found = thicknessFor(question([{ ...bath(60), untilCoreC: 55 }]), 45);
    if ("problems" in found) throw new Error("refused");
    const { totalMinutes } = trial([{ ...bath(60), untilCoreC: 55 }], {
      shape: { kind: "slab", thicknessMm: found.value },
    });
    expect(Math.abs(totalMinutes - 45)).toBeLessThan(0.2);
  });
  test("what bath for 45 minutes; by core and by log10", () => {
    const byCore = mediumFor(question([{ ...bath(60), untilCoreC: 55 }]), 0, 45);
    if ("problems" in byCore) throw new Error("refused");
    expect(Math.abs(trial([{ ...bath(byCore.value), untilCoreC: 55 }]).totalMinutes - 45)).toBeLessThan(0.2);
    const untilLog10 = { dMinutes: 5, referenceC: 60, zC: 5.6, log10: 6.5 };
    const byLog = mediumFor(question([{ ...bath(60), untilLog10 }]), 0, 60);
    if ("problems" in byLog) throw new Error("refused");
    expect(Math.abs(trial([{ ...bath(byLog.value), untilLog10 }]).totalMinutes - 60)).toBeLessThan(0.3);
  });
  test("what chiller for 90 minutes", () => {
    const warm = { ...question([{ mediumC: 2, coefficient: 25, untilCoreC: 10 }]), startC: 70 };
    const found = mediumFor(warm, 0, 120);
    if ("problems" in found) throw new Error("refused");
    expect(found.value).toBeLessThan(10);
    expect(Math.abs(found.minutes - 120)).toBeLessThan(0.5);
  });
  test("when it must start: the long end, rounded up, before it is wanted", () => {
    expect(latestStart(600, { high: 44.2 })).toBe(555);
  });
  test("what no piece or medium gives is refused with what they do give", () => {
    const found = mediumFor(question([{ ...bath(60), untilCoreC: 55 }]), 0, 1);
    if (!("problems" in found)) throw new Error("was computed");
    expect(found.problems[0]!.what).toMatch(/no medium from 55/);
    const fixed = mediumFor(question([{ ...bath(60), minutes: 9 }]), 0, 9);
    expect("problems" in fixed && fixed.problems[0]!.path).toBe("/stages/0");
  });
});
