import { expect, test } from "vitest";
import { dMinutesAt, killRateOf, reductionOver } from "../core/heat/lethality.ts";
import { organismNamed } from "../core/heat/organisms.ts";

/** Osaili et al. 2006 and 2007 (published, abstracts): D at 55 and 70 °C and z by regression through all. */
test.each([
  ["stec-beef-patties", 27.62, 0.04],
  ["salmonella-beef-patties", 67.68, 0.22],
  ["listeria-beef-patties", 81.37, 0.31],
  ["listeria-pork-patties", 150.46, 0.43],
] as const)("%s: D %d min at 55 °C, and near %d at 70 by the printed z", (id, first, last) => {
  const organism = organismNamed(id)!;
  expect(dMinutesAt(organism, 55)).toBeCloseTo(first, 9);
  // z is a regression through all temperatures: the far end comes within a third.
  expect(Math.abs(dMinutesAt(organism, 70) / last - 1)).toBeLessThan(0.35);
});

test("2 minutes at 70 °C are 6 log10 of Listeria (NZ MPI Technical Paper 2016/05)", () => {
  const rate = killRateOf(organismNamed("listeria-2-min-70")!);
  const held = [
    { minute: 0, celsius: 70 },
    { minute: 2, celsius: 70 },
  ];
  expect(reductionOver(held, rate)).toBeCloseTo(6, 9);
});

test("z is what moves D tenfold, and 71.7 °C holds raw milk's Listeria to 0.9 s a log (Bradshaw et al. 1985)", () => {
  const milk = { dMinutes: 0.015, referenceC: 71.7, zC: 6.3 };
  expect(dMinutesAt(milk, 71.7 - 6.3)).toBeCloseTo(0.15, 9);
  expect(dMinutesAt(milk, 71.7) * 60).toBeCloseTo(0.9, 9);
  // 1683.7 s at 52.2 °C and 0.7 s at 74.4 °C are printed for the ends of the range.
  expect(Math.abs((dMinutesAt(milk, 52.2) * 60) / 1683.7 - 1)).toBeLessThan(0.35);
  expect(Math.abs((dMinutesAt(milk, 74.4) * 60) / 0.7 - 1)).toBeLessThan(0.55);
});
