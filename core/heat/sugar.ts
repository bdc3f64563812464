import { refuse } from "./problem.ts";

/** Points of a curve, x rising; read by straight lines. */
type Points = readonly (readonly [number, number])[];

/**
 * Rise of the boiling point of sucrose in water above that of water, K, by mass fraction of sugar.
 * To 0.7 from memory of sugar-technology tables (± 0.5 K); above from the stages printed in confectionery
 * charts (80 % thread 110 to 112 °C, 85 % soft ball 112 to 116, 87 % firm ball 118 to 120, 92 % hard ball 121
 * to 130, 95 % soft crack 132 to 143, 99 % hard crack 146 to 154), smoothed (± 3 K).
 */
const rise: Points = [
  [0, 0],
  [0.1, 0.1],
  [0.2, 0.3],
  [0.3, 0.6],
  [0.4, 1],
  [0.5, 1.8],
  [0.6, 3],
  [0.65, 3.9],
  [0.7, 5.4],
  [0.75, 7.6],
  [0.8, 10.8],
  [0.85, 15],
  [0.87, 18],
  [0.9, 22.5],
  [0.92, 26.5],
  [0.95, 37],
  [0.99, 50],
];

/** Density of sucrose in water at 20 °C, kg/m³, by mass fraction (ICUMSA tables, from memory to 0.1 %). */
const density: Points = [
  [0, 998.2],
  [0.1, 1038.1],
  [0.2, 1080.9],
  [0.3, 1127],
  [0.4, 1176.4],
  [0.5, 1229.6],
  [0.6, 1286.5],
  [0.7, 1347.2],
  [0.8, 1411.7],
  [0.9, 1480],
];

/** Temperature at which a syrup of a mass fraction of sugar boils, °C, where water boils at `boilingC`. */
export function syrupBoilsAtC(sugar: number, boilingC = 100): number {
  return boilingC + read(rise, fractionOf(sugar, 0.99));
}

/** Mass fraction of sugar in a syrup that boils at a temperature; the inverse of `syrupBoilsAtC`. */
export function sugarAtBoil(celsius: number, boilingC = 100): number {
  const up = celsius - boilingC;
  if (up < 0) refuse("/celsius", `syrup does not boil below ${boilingC} °C here`, "give a boiling syrup");
  if (up > 50)
    refuse("/celsius", "above hard crack the sugar itself breaks down", "give at most 50 K above water");
  return read(
    rise.map(([x, y]) => [y, x] as const),
    up,
  );
}

/** Density of a syrup at 20 °C in kg/m³ by its mass fraction of sugar (degrees Brix / 100). */
export function syrupDensity(sugar: number): number {
  return read(density, fractionOf(sugar, 0.9));
}

/** Mass fraction of sugar of a syrup of a density at 20 °C in kg/m³. */
export function sugarAtDensity(kgPerM3: number): number {
  if (!(kgPerM3 >= 998 && kgPerM3 <= 1480))
    refuse("/density", `${kgPerM3} kg/m³ is no syrup at 20 °C`, "give 998 to 1480 kg/m³");
  return read(
    density.map(([x, y]) => [y, x] as const),
    kgPerM3,
  );
}

/** Water to boil off, kg, to bring a syrup of a mass and mass fraction of sugar to another. */
export function waterToBoilOff(massKg: number, from: number, to: number): number {
  fractionOf(from, 1);
  fractionOf(to, 1);
  if (to < from) refuse("/to", "boiling only makes a syrup stronger", "add water to thin it");
  return massKg * (1 - from / to);
}

/** Names of the stages of cooked sugar, by how far the syrup boils above water, K (confectionery charts). */
export const sugarStages = [
  { name: "thread", from: 10, to: 12 },
  { name: "soft ball", from: 12, to: 16 },
  { name: "firm ball", from: 18, to: 20 },
  { name: "hard ball", from: 21, to: 30 },
  { name: "soft crack", from: 32, to: 43 },
  { name: "hard crack", from: 46, to: 54 },
] as const;

function fractionOf(sugar: number, most: number): number {
  if (!(sugar >= 0 && sugar <= most))
    refuse("/sugar", `${sugar} is not a mass fraction of sugar from 0 to ${most}`, "give 0.65 for 65 %");
  return sugar;
}

function read(points: Points, x: number): number {
  for (let i = 1; i < points.length; i++) {
    const [x0, y0] = points[i - 1]!;
    const [x1, y1] = points[i]!;
    if (x <= x1) return y0 + ((x - x0) / (x1 - x0)) * (y1 - y0);
  }
  return points[points.length - 1]![1];
}
