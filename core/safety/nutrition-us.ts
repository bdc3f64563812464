import type { Shown, ShownAs } from "./nutrition-types.ts";

/** Daily values for adults and children from 4 years (21 CFR 101.9(c)(8)(iv) and (c)(9), 2016 final rule, 81 FR 33742). */
export const DAILY_VALUES = {
  fat: 78,
  saturated: 20,
  cholesterolMg: 300,
  sodiumMg: 2300,
  carbohydrate: 275,
  fibre: 28,
  addedSugars: 50,
  protein: 50,
  vitaminDUg: 20,
  calciumMg: 1300,
  ironMg: 18,
  potassiumMg: 4700,
} as const;

/** The nearest multiple, halves up; free of the dust of doubles. */
export function nearest(value: number, step: number): number {
  return Number((Math.floor(value / step + 0.5 + 1e-9) * step).toPrecision(12));
}

/** Calories: below 5 none, to the nearest 5 up to 50, to the nearest 10 above (21 CFR 101.9(c)(1)). */
export function usCalories(kcal: number): number {
  if (kcal < 5) return 0;
  return nearest(kcal, kcal <= 50 ? 5 : 10);
}

/** Fat, saturated and trans fat in g: below 0.5 none, by halves below 5, by ones above ((c)(2)). */
export function usFat(g: number): ShownAs {
  if (g < 0.5) return "0 g";
  return `${nearest(g, g < 5 ? 0.5 : 1)} g`;
}

/** Cholesterol in mg: below 2 none, 2 to 5 "less than 5 mg", above to the nearest 5 ((c)(3)). */
export function usCholesterol(mg: number): ShownAs {
  if (mg < 2) return "0 mg";
  return mg <= 5 ? "less than 5 mg" : `${nearest(mg, 5)} mg`;
}

/** Sodium in mg: below 5 none, to the nearest 5 up to 140, to the nearest 10 above ((c)(4)). */
export function usSodium(mg: number): ShownAs {
  if (mg < 5) return "0 mg";
  return `${nearest(mg, mg <= 140 ? 5 : 10)} mg`;
}

/** Carbohydrate, fibre, sugars and protein in g: below 0.5 none, below 1 "less than 1 g", by ones above ((c)(6), (7)). */
export function usGrams(g: number): ShownAs {
  if (g < 0.5) return "0 g";
  return g < 1 ? "less than 1 g" : `${nearest(g, 1)} g`;
}

/**
 * Vitamins and minerals: to a tenth where the daily value is below 25, to ten where it is 250 or more (FDA, questions
 * and answers on the 2016 rule, quoted at second hand); below 2 % of the daily value as none ((c)(8)(iii)).
 */
export function usMicro(amount: number, dailyValue: number, unit: "mg" | "mcg"): ShownAs {
  if (amount < 0.02 * dailyValue) return `0 ${unit}`;
  const step = dailyValue < 25 ? 0.1 : dailyValue < 250 ? 1 : 10;
  return `${nearest(amount, step)} ${unit}`;
}

/** Percent of a daily value of fat, carbohydrate and the like: whole percents of the amount itself ((d)(7)(ii)). */
export function usPercent(amount: number, dailyValue: number): string {
  return `${nearest((amount / dailyValue) * 100, 1)} %`;
}

/** Percent for vitamins and minerals: below 2 none, by 2 up to 10, by 5 up to 50, by 10 above ((c)(8)(iii)). */
export function usMicroPercent(amount: number, dailyValue: number): string {
  const percent = (amount / dailyValue) * 100;
  if (percent < 2) return "0 %";
  return `${nearest(percent, percent <= 10 ? 2 : percent <= 50 ? 5 : 10)} %`;
}

type Of = keyof typeof DAILY_VALUES;

/** The lines of a US label, in its order, with how each is written. */
export const US_LINES: readonly Shown[] = [
  { nutrient: "energyKcal", shown: (v) => `${usCalories(v)} kcal` },
  { nutrient: "fat", shown: usFat, percent: (v) => usPercent(v, DAILY_VALUES.fat) },
  { nutrient: "saturated", shown: usFat, percent: (v) => usPercent(v, DAILY_VALUES.saturated) },
  { nutrient: "trans", shown: usFat },
  {
    nutrient: "cholesterolMg",
    shown: usCholesterol,
    percent: (v) => usPercent(v, DAILY_VALUES.cholesterolMg),
  },
  { nutrient: "sodiumMg", shown: usSodium, percent: (v) => usPercent(v, DAILY_VALUES.sodiumMg) },
  { nutrient: "carbohydrate", shown: usGrams, percent: (v) => usPercent(v, DAILY_VALUES.carbohydrate) },
  { nutrient: "fibre", shown: usGrams, percent: (v) => usPercent(v, DAILY_VALUES.fibre) },
  { nutrient: "sugars", shown: usGrams },
  { nutrient: "addedSugars", shown: usGrams, percent: (v) => usPercent(v, DAILY_VALUES.addedSugars) },
  { nutrient: "protein", shown: usGrams },
  micro("vitaminDUg", "mcg"),
  micro("calciumMg", "mg"),
  micro("ironMg", "mg"),
  micro("potassiumMg", "mg"),
];

function micro(nutrient: Of, unit: "mg" | "mcg"): Shown {
  const dailyValue = DAILY_VALUES[nutrient];
  return {
    nutrient,
    shown: (v) => usMicro(v, dailyValue, unit),
    percent: (v) => usMicroPercent(v, dailyValue),
  };
}
