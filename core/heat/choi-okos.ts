import type { Composition } from "./schema.ts";

/**
 * Properties of the pure parts of food, as polynomials a0 + a1 T + a2 T² with T in °C, for -40 to 150 °C.
 * Source: Y. Choi and M. R. Okos, Effects of temperature and composition on the thermal properties of foods
 * (1986), as printed in ASHRAE Handbook Refrigeration (2006), ch. 9, tables 1 and 2. The specific heat of
 * water above 0 °C has a0 4.1762 (Singh and Heldman, Introduction to Food Engineering, table A.2.9), which
 * agrees with steam tables; ASHRAE prints 4.1289, 1.3 % low.
 */
export const parts = ["water", "protein", "fat", "carbohydrate", "fibre", "ash"] as const;
export type Part = (typeof parts)[number];
type Polynomial = readonly [number, number, number];

/** W/(m K). */
const conductivityOf: Record<Part | "ice", Polynomial> = {
  water: [0.57109, 0.0017625, -6.7036e-6],
  protein: [0.17881, 0.0011958, -2.7178e-6],
  fat: [0.18071, -0.00027604, -1.7749e-7],
  carbohydrate: [0.20141, 0.0013874, -4.3312e-6],
  fibre: [0.18331, 0.0012497, -3.1683e-6],
  ash: [0.32962, 0.0014011, -2.9069e-6],
  ice: [2.2196, -0.0062489, 0.00010154],
};
/** kg/m³. */
const densityOf: Record<Part | "ice", Polynomial> = {
  water: [997.18, 0.0031439, -0.0037574],
  protein: [1329.9, -0.5184, 0],
  fat: [925.59, -0.41757, 0],
  carbohydrate: [1599.1, -0.31046, 0],
  fibre: [1311.5, -0.36589, 0],
  ash: [2423.8, -0.28063, 0],
  ice: [916.89, -0.13071, 0],
};
/** kJ/(kg K). */
const specificHeatOf: Record<Part | "ice" | "coldWater", Polynomial> = {
  water: [4.1762, -9.0864e-5, 5.4731e-6],
  coldWater: [4.1289, -0.0053062, 0.00099516],
  protein: [2.0082, 0.0012089, -1.3129e-6],
  fat: [1.9842, 0.0014733, -4.8008e-6],
  carbohydrate: [1.5488, 0.0019625, -5.9399e-6],
  fibre: [1.8459, 0.0018306, -4.6509e-6],
  ash: [1.0926, 0.0018896, -3.6817e-6],
  ice: [2.0623, 0.0060769, 0],
};
export const choiOkosRangeC: readonly [number, number] = [-40, 150];

function at([a0, a1, a2]: Polynomial, celsius: number): number {
  const t = Math.min(150, Math.max(-40, celsius));
  return a0 + t * (a1 + t * a2);
}

/** Density of a part in kg/m³ at a temperature in °C. Outside the range the end of the range is taken. */
export function partDensity(part: Part | "ice", celsius: number): number {
  return at(densityOf[part], celsius);
}

/** Conductivity of a part in W/(m K) at a temperature in °C. */
export function partConductivity(part: Part | "ice", celsius: number): number {
  return at(conductivityOf[part], celsius);
}

/** Specific heat of a part in J/(kg K) at a temperature in °C; water below 0 °C is unfrozen water. */
export function partSpecificHeat(part: Part | "ice", celsius: number): number {
  const which = part === "water" && celsius < 0 ? "coldWater" : part;
  return 1000 * at(specificHeatOf[which], celsius);
}

export type Fractions = Record<Part | "ice", number>;

/** Every part named, and the sum brought to exactly 1 (the schema lets it miss by 0.01). */
export function wholeFractions(composition: Composition): Fractions {
  const total = parts.reduce((sum, part) => sum + (composition[part] ?? 0), 0);
  const whole = { ice: 0 } as Fractions;
  for (const part of parts) whole[part] = (composition[part] ?? 0) / total;
  return whole;
}

/** Density of the mixture in kg/m³: 1 / Σ(x / ρ), no air. */
export function mixtureDensity(x: Fractions, celsius: number): number {
  let volume = 0;
  for (const part of mixed) if (x[part] > 0) volume += x[part] / partDensity(part, celsius);
  return 1 / volume;
}

/** Conductivity of the mixture in W/(m K): parallel, by volume, the highest of the structures in use. */
export function mixtureConductivity(x: Fractions, celsius: number): number {
  const density = mixtureDensity(x, celsius);
  let sum = 0;
  for (const part of mixed)
    if (x[part] > 0)
      sum += (x[part] * density * partConductivity(part, celsius)) / partDensity(part, celsius);
  return sum;
}

/** Specific heat of the mixture in J/(kg K) without the heat of freezing: Σ(x c). */
export function mixtureSpecificHeat(x: Fractions, celsius: number): number {
  let sum = 0;
  for (const part of mixed) if (x[part] > 0) sum += x[part] * partSpecificHeat(part, celsius);
  return sum;
}

const mixed = [...parts, "ice"] as const;
