import type { Shown, ShownAs } from "./nutrition-types.ts";
import { nearest } from "./nutrition-us.ts";

/** Reference intakes of an average adult, 8400 kJ or 2000 kcal (Regulation (EU) 1169/2011, Annex XIII, Part B). */
export const REFERENCE_INTAKES = {
  energyKj: 8400,
  energyKcalEu: 2000,
  fat: 70,
  saturated: 20,
  availableCarbohydrate: 260,
  sugars: 90,
  protein: 50,
  salt: 6,
} as const;

// Rounding: Commission guidance on tolerances, December 2012, table 4 (restated from memory).

/** Energy: whole kJ or kcal. */
export function euEnergy(value: number): number {
  return nearest(value, 1);
}

/** Fat, carbohydrate, sugars, fibre, protein in g: whole from 10, tenths below, "<0.5 g" at 0.5 and less. */
export function euGrams(g: number): ShownAs {
  return euBy(g, 0.5, "<0.5 g");
}

/** Saturates in g: whole from 10, tenths below, "<0.1 g" at 0.1 and less. */
export function euSaturates(g: number): ShownAs {
  return euBy(g, 0.1, "<0.1 g");
}

/** Salt in g: tenths from 1, hundredths below, "<0.01 g" at 0.0125 and less. */
export function euSalt(g: number): ShownAs {
  if (g === 0) return "0 g";
  if (g <= 0.0125) return "<0.01 g";
  return g >= 1 ? `${nearest(g, 0.1)} g` : `${nearest(g, 0.01)} g`;
}

function euBy(g: number, least: number, little: ShownAs): ShownAs {
  if (g === 0) return "0 g";
  if (g <= least) return little;
  return g >= 10 ? `${nearest(g, 1)} g` : `${nearest(g, 0.1)} g`;
}

const percent = (of: keyof typeof REFERENCE_INTAKES) => (value: number) =>
  `${nearest((value / REFERENCE_INTAKES[of]) * 100, 1)} %`;

/** The lines of an EU nutrition declaration, in the order of Annex XV; fibre is voluntary. */
export const EU_LINES: readonly Shown[] = [
  { nutrient: "energyKj", shown: (v) => `${euEnergy(v)} kJ`, percent: percent("energyKj") },
  { nutrient: "energyKcalEu", shown: (v) => `${euEnergy(v)} kcal`, percent: percent("energyKcalEu") },
  { nutrient: "fat", shown: euGrams, percent: percent("fat") },
  { nutrient: "saturated", shown: euSaturates, percent: percent("saturated") },
  { nutrient: "availableCarbohydrate", shown: euGrams, percent: percent("availableCarbohydrate") },
  { nutrient: "sugars", shown: euGrams, percent: percent("sugars") },
  { nutrient: "fibre", shown: euGrams },
  { nutrient: "protein", shown: euGrams, percent: percent("protein") },
  { nutrient: "salt", shown: euSalt, percent: percent("salt") },
];
