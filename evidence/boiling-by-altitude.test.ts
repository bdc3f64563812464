import { describe, expect, test } from "vitest";
import { reductionTime } from "../core/heat/reduction.ts";
import { boilingAtAltitudeC, evaporationJPerKg, pressurePa, saturationPa } from "../core/heat/water.ts";

describe("boiling by altitude", () => {
  // A table of the NASA and NOAA kind that extension services print (published); tables differ by up to 0.3 K.
  test.each([
    [0, 100],
    [150, 99.5],
    [305, 99],
    [610, 98],
    [1524, 95],
    [1829, 94],
    [2438, 91.9],
    [3048, 89.8],
    [3658, 87.6],
    [4267, 85.5],
    [4572, 84.5],
  ])("%d m: %d °C", (metres, celsius) => {
    expect(Math.abs(boilingAtAltitudeC(metres) - celsius)).toBeLessThan(0.3);
  });
  // Another kitchen chart (published, by 500 to 1000 ft).
  test.each([
    [914, 96.8],
    [1219, 95.8],
    [2134, 92.6],
    [3810, 87.7],
  ])("%d m: %d °C in another chart, within 0.5", (metres, celsius) => {
    expect(Math.abs(boilingAtAltitudeC(metres) - celsius)).toBeLessThan(0.5);
  });
  test("an observatory at 1150 m: water boils near 96 °C", () => {
    expect(Math.abs(boilingAtAltitudeC(1150) - 96.2)).toBeLessThan(0.1);
  });
  test("pressure of the standard atmosphere (ICAO): 101.325, 95.461, 89.875, 79.495 kPa", () => {
    for (const [m, kPa] of [
      [0, 101.325],
      [500, 95.461],
      [1000, 89.875],
      [2000, 79.495],
    ] as const)
      expect(pressurePa(m) / 1000).toBeCloseTo(kPa, 2);
  });
});

describe("steam tables (Cengel, table A-4)", () => {
  test.each([
    [20, 2.3392],
    [40, 7.3851],
    [60, 19.947],
    [80, 47.416],
    [85, 57.868],
    [90, 70.183],
    [95, 84.609],
    [100, 101.42],
  ])("saturation at %d °C: %d kPa, within 0.3 %%", (t, kPa) => {
    expect(Math.abs(saturationPa(t) / 1000 - kPa) / kPa).toBeLessThan(0.003);
  });
  test.each([
    [0.01, 2500.9],
    [20, 2453.5],
    [40, 2406],
    [60, 2357.6],
    [80, 2308],
    [90, 2282.5],
    [100, 2256.4],
  ])("heat of evaporation at %d °C: %d kJ/kg, within 2.7", (t, kJ) => {
    expect(Math.abs(evaporationJPerKg(t) / 1000 - kJ)).toBeLessThan(2.7);
  });
  test("1 kg of water from 20 °C, a quarter boiled off: 898.5 kJ", () => {
    const { minutes } = reductionTime({
      fromKg: 1,
      toKg: 0.75,
      powerKW: 1,
      efficiency: 1,
      boilingC: 100,
      startC: 20,
    });
    expect(Math.abs(minutes * 60 - 898.5)).toBeLessThan(2);
  });
});
