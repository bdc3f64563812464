import { describe, expect, test } from "vitest";
import {
  mixtureConductivity,
  mixtureDensity,
  mixtureSpecificHeat,
  partConductivity,
  partDensity,
  partSpecificHeat,
  wholeFractions,
} from "../core/heat/choi-okos.ts";
import { iceFraction } from "../core/heat/freezing.ts";

/**
 * Choi and Okos (1986) as printed in ASHRAE Handbook Refrigeration (2006), ch. 9 (published). Water's specific
 * heat above 0 °C is Singh and Heldman's, which steam tables bear out; ASHRAE's is 1.3 % lower.
 */
describe("Choi and Okos, pure parts", () => {
  test.each([
    [0, 0.57109, 997.18],
    [20, 0.60366, 995.74],
    [60, 0.65271, 983.842],
  ])("water at %d °C", (t, k, rho) => {
    expect(partConductivity("water", t)).toBeCloseTo(k, 5);
    expect(partDensity("water", t)).toBeCloseTo(rho, 2);
  });
  test("water's specific heat against steam tables (4.182, 4.180, 4.185, 4.197 kJ/(kg K)): within 0.2 %", () => {
    for (const [t, steam] of [
      [20, 4.182],
      [40, 4.18],
      [60, 4.185],
      [80, 4.197],
    ] as const)
      expect(Math.abs(partSpecificHeat("water", t) / 1000 - steam) / steam, `${t}`).toBeLessThan(0.002);
  });
  test("water's conductivity and density against steam tables (0.607 at 25, 0.644 at 50; 998.2 at 20, 983.2 at 60)", () => {
    expect(Math.abs(partConductivity("water", 25) - 0.607)).toBeLessThan(0.006);
    expect(Math.abs(partConductivity("water", 50) - 0.644)).toBeLessThan(0.006);
    expect(Math.abs(partDensity("water", 20) - 998.2)).toBeLessThan(3);
    expect(Math.abs(partDensity("water", 60) - 983.2)).toBeLessThan(1);
  });
  test("ice: 2.22 W/(m K), 917 kg/m³ and 2.06 kJ/(kg K) at 0 °C, 2.63 W/(m K) at -40", () => {
    expect(partConductivity("ice", 0)).toBeCloseTo(2.2196, 4);
    expect(Math.abs(partDensity("ice", 0) - 917)).toBeLessThan(0.2);
    expect(partSpecificHeat("ice", 0)).toBeCloseTo(2062.3, 1);
    expect(Math.abs(partConductivity("ice", -40) - 2.632)).toBeLessThan(0.01);
  });
});

describe("Choi and Okos, lean meat 75 % water, 22 protein, 2 fat, 1 ash (recomputed from the printed coefficients)", () => {
  const meat = wholeFractions({ water: 0.75, protein: 0.22, fat: 0.02, ash: 0.01 });
  test.each([
    [5, 1059.64, 0.5001, 3590.4],
    [20, 1057.22, 0.5218, 3595.5],
    [60, 1043.77, 0.5675, 3617.1],
  ])("at %d °C", (t, rho, k, c) => {
    expect(mixtureDensity(meat, t)).toBeCloseTo(rho, 1);
    expect(mixtureConductivity(meat, t)).toBeCloseTo(k, 3);
    // The figures were made with ASHRAE's water: ours is 0.0473 kJ higher a kg of water.
    expect(Math.abs(mixtureSpecificHeat(meat, t) - (c + 0.75 * 47.3))).toBeLessThan(0.5);
  });
  test("lean beef as tables print it, 3.52 kJ/(kg K) and 0.47 to 0.52 W/(m K): within 4 %", () => {
    expect(Math.abs(mixtureSpecificHeat(meat, 20) / 1000 - 3.52) / 3.52).toBeLessThan(0.04);
    expect(mixtureConductivity(meat, 5)).toBeGreaterThan(0.46);
    expect(mixtureConductivity(meat, 5)).toBeLessThan(0.53);
  });
});

describe("ASHRAE Handbook Refrigeration, ch. 9: ice", () => {
  // Example 1 of the chapter (from memory): lean beef, 71.48 % water, 21.04 protein, tf -1.7: at -40, ice 0.602.
  test("beef at -40 and -17.8 °C", () => {
    const beef = wholeFractions({ water: 0.7148, protein: 0.2104, fat: 0.0622, ash: 0.0126 });
    const free = 0.7148 - 0.4 * 0.2104;
    expect(iceFraction(beef, -1.7, -40)).toBeCloseTo(free * (1 - 1.7 / 40), 3);
    expect(Math.abs(iceFraction(beef, -1.7, -40) - 0.6)).toBeLessThan(0.01);
    expect(iceFraction(beef, -1.7, -1.7)).toBe(0);
  });
});
