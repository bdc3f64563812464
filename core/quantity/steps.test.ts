import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { roundToScoop, roundToStep } from "./index.ts";

const SEED = { seed: 20261125 };
const steps = fc.uniqueArray(fc.constantFrom(0.01, 0.1, 0.5, 1, 2, 5, 10, 50), { minLength: 1 });
const grams = fc.double({ min: 0, max: 50_000, noNaN: true });

describe("Q11 what a scale or a scoop can measure", () => {
  test("by hand, with scales of 0.1, 1 and 5 g", () => {
    const scales = [1, 0.1, 5];
    expect(roundToStep(1234, scales)).toMatchObject({ value: 1235, error: 1, step: 5 });
    expect(roundToStep(347.3, scales)).toMatchObject({ value: 345, error: -2.3, step: 5 });
    expect(roundToStep(62.4, scales)).toMatchObject({ value: 62, error: -0.4, step: 1 });
    expect(roundToStep(3.333, scales)).toMatchObject({ value: 3.3, error: -0.033, step: 0.1 });
    expect(roundToStep(0, scales)).toMatchObject({ value: 0, error: 0, ratio: 0 });
  });
  test("the value is on the step, off by half a step at most, and the error is what was said", () => {
    fc.assert(
      fc.property(grams, steps, (wanted, list) => {
        const { value, error, ratio, step } = roundToStep(wanted, list);
        if (step === null) {
          expect(wanted).toBeLessThan(Math.min(...list) / 2);
          expect([value, error, ratio]).toEqual([wanted, 0, 0]);
          return;
        }
        expect(list).toContain(step);
        expect(Math.abs(value / step - Math.round(value / step))).toBeLessThan(1e-6);
        expect(Math.abs(error)).toBeLessThanOrEqual(step / 2 + 1e-9 * wanted);
        expect(value - error).toBeCloseTo(wanted, 6);
        if (step > Math.min(...list)) expect(Math.abs(ratio)).toBeLessThanOrEqual(0.01 + 1e-9);
      }),
      { ...SEED, numRuns: 500 },
    );
  });
  test("a coarser scale at hand never makes a finer one worse than 1 %", () => {
    fc.assert(
      fc.property(grams, (wanted) => {
        const fine = roundToStep(wanted, [0.1]);
        const both = roundToStep(wanted, [0.1, 5]);
        expect(Math.abs(both.ratio)).toBeLessThanOrEqual(Math.max(0.01 + 1e-9, Math.abs(fine.ratio)));
      }),
      SEED,
    );
  });
  test("too little for any scale here is said, never rounded to nothing", () => {
    expect(roundToStep(0.02, [1, 0.1])).toEqual({ value: 0.02, error: 0, ratio: 0, step: null });
  });
  test("refusals", () => {
    expect(() => roundToStep(10, [])).toThrow("at least one is needed");
    expect(() => roundToStep(10, [1, 0])).toThrow("above zero");
    expect(() => roundToStep(-1, [1])).toThrow("cannot weigh -1 g");
    expect(() => roundToStep(Number.NaN, [1])).toThrow("cannot weigh NaN g");
    expect(() => roundToScoop(0, [60])).toThrow("cannot scoop 0 mL");
  });
  test("scoops: fewest fills within 5 %, else the nearest", () => {
    const sizes = [118.29, 59.15, 29.57];
    expect(roundToScoop(60, sizes)).toMatchObject({ sizeMl: 59.15, count: 1 });
    expect(roundToScoop(180, sizes)).toMatchObject({ sizeMl: 59.15, count: 3 });
    expect(roundToScoop(90, sizes)).toMatchObject({ sizeMl: 29.57, count: 3 });
    expect(roundToScoop(5, sizes)).toMatchObject({ sizeMl: 29.57, count: 1 });
    expect(roundToScoop(60, [])).toBeNull();
    const { value, error, ratio } = roundToScoop(60, sizes)!;
    expect([value, error]).toEqual([59.15, -0.85]);
    expect(ratio).toBeCloseTo(-0.85 / 60, 12);
  });
});
