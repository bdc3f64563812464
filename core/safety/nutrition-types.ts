import type { Allergen } from "../pantry/schema.ts";

/** What a label may speak of. */
export const LABEL_NUTRIENTS = [
  "energyKcal",
  "energyKj",
  "energyKcalEu",
  "fat",
  "saturated",
  "trans",
  "cholesterolMg",
  "carbohydrate",
  "availableCarbohydrate",
  "sugars",
  "addedSugars",
  "fibre",
  "protein",
  "alcohol",
  "salt",
  "sodiumMg",
  "vitaminDUg",
  "calciumMg",
  "ironMg",
  "potassiumMg",
] as const;
export type LabelNutrient = (typeof LABEL_NUTRIENTS)[number];

/** An amount as a label writes it: "4.5 g", "less than 5 mg". */
export type ShownAs = string;

/** How a nutrient is written on a label, and its share of the daily value or reference intake. */
export interface Shown {
  readonly nutrient: LabelNutrient;
  readonly shown: (value: number) => ShownAs;
  readonly percent?: (value: number) => string;
}

/** One nutrient before any rounding. `known` below 1: the amounts are what is known, the rest is not nothing. */
export interface NutrientAmount {
  readonly nutrient: LabelNutrient;
  readonly unit: string;
  readonly per100: number;
  /** On a plate. */
  readonly perPortion?: number;
  /** Share of the mass of which it is known. */
  readonly known: number;
}

/** A line of a label; `shown` is missing where the nutrient is not known. */
export interface LabelLine {
  readonly nutrient: LabelNutrient;
  readonly shown?: ShownAs;
  readonly percent?: string;
}

/** What a plate in one form, or 100 g of a preparation, holds: informational, to be checked before it is printed on a package. */
export interface NutritionLabel {
  readonly dish?: string;
  readonly variant?: string;
  readonly preparation?: string;
  readonly portionG?: number;
  readonly nutrients: readonly NutrientAmount[];
  /** 21 CFR 101.9, by portion; of a preparation by 100 g. */
  readonly us: readonly LabelLine[];
  /** Regulation (EU) 1169/2011, by 100 g, and by portion with reference intakes. */
  readonly eu: { readonly per100: readonly LabelLine[]; readonly perPortion?: readonly LabelLine[] };
  /** Nutrients that are not known in full. */
  readonly unknown: readonly LabelNutrient[];
  /** Descending by weight, compounds in brackets, allergens in capitals. */
  readonly ingredients: string;
  readonly contains: readonly Allergen[];
  /** What may be in it, and what nobody has spoken of. */
  readonly mayContain: readonly Allergen[];
}
