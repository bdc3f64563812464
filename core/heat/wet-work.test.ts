import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { alcoholLeft, boilDown } from "./alcohol.ts";
import { gelatinFor, gelatinOfBloom, hydrated, softeningWater } from "./gels.ts";
import { Refused } from "./problem.ts";
import { massAfter, reductionTime, surfaceLossKgPerHour } from "./reduction.ts";
import { equilibriumShare, saltForBrine, saltForEquilibrium, saltingHours } from "./salt.ts";
import { sugarAtDensity, syrupBoilsAtC, syrupDensity, waterToBoilOff } from "./sugar.ts";
import { pressurePa, saturationPa } from "./water.ts";

const positive = (max: number) => fc.double({ min: 0.05, max, noNaN: true });

describe("H16 boiling takes the heat of evaporation and masses close", () => {
  test("mass after the computed minutes is the mass asked for", () => {
    fc.assert(
      fc.property(positive(50), positive(1), positive(20), (fromKg, share, powerKW) => {
        const r = { fromKg, toKg: fromKg * share, powerKW, efficiency: 0.5, boilingC: 96, startC: 20 };
        const { minutes, waterKg } = reductionTime(r);
        expect(massAfter(r, minutes)).toBeCloseTo(r.toKg, 8);
        expect(waterKg + r.toKg).toBeCloseTo(fromKg, 10);
      }),
      { seed: 21 },
    );
  });
  test("twice the power, half the time; nothing boils off before the boil", () => {
    const r = { fromKg: 2, toKg: 1, powerKW: 3, efficiency: 0.5, boilingC: 100, startC: 20 };
    expect(reductionTime(r).minutes / reductionTime({ ...r, powerKW: 6 }).minutes).toBeCloseTo(2, 9);
    expect(massAfter(r, reductionTime(r).heatUpMinutes)).toBe(2);
    expect(massAfter(r, 1e6)).toBe(0);
  });
  test("a reduction that adds, or a cold fire, is refused", () => {
    const r = { fromKg: 1, toKg: 2, powerKW: 3, efficiency: 0.5, boilingC: 100 };
    expect(() => reductionTime(r)).toThrow(Refused);
    expect(() => reductionTime({ ...r, toKg: 0.5, efficiency: 0 })).toThrow(Refused);
  });
  test("warm liquid loses little by its surface; near boiling much more", () => {
    const loss = (t: number) => surfaceLossKgPerHour(0.07, saturationPa(t), 1000, pressurePa(0));
    expect(loss(60)).toBeGreaterThan(0.1);
    expect(loss(60)).toBeLessThan(1);
    expect(loss(90)).toBeGreaterThan(3 * loss(60));
    expect(loss(5)).toBe(0);
  });
  test("alcohol boiled down: never more than there was, in any number of steps the same", () => {
    fc.assert(
      fc.property(positive(1), fc.double({ min: 0.02, max: 0.95, noNaN: true }), (share, fraction) => {
        const once = boilDown(1, fraction, share);
        const half = boilDown(1, fraction, (1 + share) / 2);
        const twice = boilDown(half.massKg, half.fraction, share);
        expect(once.ethanolKg).toBeLessThanOrEqual(fraction + 1e-12);
        expect(Math.abs(twice.ethanolKg - once.ethanolKg)).toBeLessThan(1e-4);
      }),
      { seed: 22 },
    );
    expect(boilDown(1, 0.1, 0.3, 0.3).ethanolKg).toBe(0);
    expect(() => boilDown(1, 0.1, 2)).toThrow(Refused);
    expect(() => alcoholLeft("stirred-in-and-simmered", Number.NaN)).toThrow(Refused);
  });
});

describe("H17 estimates", () => {
  test("syrup: density there and back, more sugar boils higher, water to boil off closes the sugar", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 0.9, noNaN: true }), (sugar) => {
        expect(sugarAtDensity(syrupDensity(sugar))).toBeCloseTo(sugar, 9);
        expect(syrupBoilsAtC(sugar + 0.05)).toBeGreaterThan(syrupBoilsAtC(sugar));
      }),
      { seed: 23 },
    );
    const water = waterToBoilOff(3, 0.5, 0.75);
    expect((3 * 0.5) / (3 - water)).toBeCloseTo(0.75, 12);
    expect(() => waterToBoilOff(3, 0.75, 0.5)).toThrow(Refused);
    expect(() => syrupBoilsAtC(65)).toThrow(/mass fraction/);
  });
  test("salt at equilibrium: the brine and the piece come to the share asked for", () => {
    fc.assert(
      fc.property(
        positive(20),
        positive(20),
        fc.double({ min: 0.005, max: 0.2, noNaN: true }),
        (kg, water, share) => {
          expect(equilibriumShare(saltForBrine(kg, water, share), kg, water)).toBeCloseTo(share, 12);
        },
      ),
      { seed: 24 },
    );
    expect(saltForEquilibrium(1.2, 0.025)).toBeCloseTo(0.03, 12);
    expect(() => saltForEquilibrium(1, 2.5)).toThrow(/0\.02 for 2 %/);
  });
  test("salting time goes as the square of the thickness and has a five-fold spread", () => {
    const thin = saltingHours("slab", 20);
    const thick = saltingHours("slab", 40);
    expect(thick.mid / thin.mid).toBeCloseTo(4, 9);
    expect(thin.high / thin.low).toBeCloseTo(5, 9);
    expect(saltingHours("sphere", 40).mid).toBeLessThan(saltingHours("cylinder", 40).mid);
    expect(saltingHours("cylinder", 40).mid).toBeLessThan(thick.mid);
    expect(() => saltingHours("slab", 0)).toThrow(Refused);
  });
  test("gelatin by share of the whole and by bloom; soaked food by its ratio", () => {
    const g = gelatinFor(1000, 0.012);
    expect(g / (1000 + g)).toBeCloseTo(0.012, 12);
    expect(gelatinOfBloom(10, 160, 200)).toBeCloseTo(8.944, 3);
    expect(gelatinOfBloom(gelatinOfBloom(10, 160, 240), 240, 160)).toBeCloseTo(10, 12);
    expect(softeningWater(10)).toBe(50);
    expect(hydrated(0.5, 2.8)).toEqual({ wet: 1.4, water: 0.8999999999999999 });
    expect(() => hydrated(1, 0.5)).toThrow(Refused);
  });
});
