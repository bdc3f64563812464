import type { Allergen, Origin } from "../pantry/schema.ts";
import type { Need } from "../plating/schema.ts";

/** What a need forbids: food of some origins, food with some allergens, food that arrives raw. */
export interface NeedRule {
  /** Where the rule comes from. */
  readonly source: string;
  readonly origins: readonly Origin[];
  readonly allergens: readonly Allergen[];
  /** Nothing raw, cured without cooking, unpasteurised or cooked below the limits of `raw.ts`. */
  readonly cookedOnly?: boolean;
  /** An allergy or coeliac disease: traces of the allergens do harm, so equipment they shared speaks against it. */
  readonly traces?: boolean;
}

/** "raw-animal" alone still says that an animal died for it. */
const FLESH: readonly Origin[] = [
  "meat",
  "pork",
  "poultry",
  "fish",
  "shellfish",
  "gelatin",
  "insect",
  "raw-animal",
];

const DIET_RULES: Readonly<Record<string, NeedRule>> = {
  vegetarian: { source: "common practice, no source", origins: [...FLESH, "rennet"], allergens: [] },
  vegan: {
    source: "common practice, no source",
    origins: [...FLESH, "rennet", "egg", "raw-egg", "dairy", "unpasteurised", "honey"],
    allergens: ["milk", "egg"],
  },
  pescatarian: {
    source: "common practice, no source",
    origins: ["meat", "pork", "poultry", "gelatin", "rennet", "insect"],
    allergens: [],
  },
  // Gluten is wider than the US "wheat": barley and rye are in it (Regulation (EU) 1169/2011, Annex II, 1).
  coeliac: {
    source: "Regulation (EU) 1169/2011, Annex II, 1",
    origins: [],
    allergens: ["gluten", "wheat"],
    traces: true,
  },
  // Judged by ingredient, never by a computed residue.
  "no-alcohol": { source: "common practice, no source", origins: ["alcohol"], allergens: [] },
  pregnant: { source: "common practice, no source", origins: ["alcohol"], allergens: [], cookedOnly: true },
  "no-pork": { source: "common practice, no source", origins: ["pork", "gelatin"], allergens: [] },
  "no-shellfish": {
    source: "common practice, no source",
    origins: ["shellfish"],
    allergens: ["crustacean", "mollusc"],
    traces: true,
  },
};

/** The rule of a need; "no-" and an allergen forbids that allergen. */
export function ruleOf(need: Need): NeedRule {
  const diet = DIET_RULES[need];
  if (diet) return diet;
  const allergen = need.slice("no-".length) as Allergen;
  return { source: "the guest's own word", origins: [], allergens: [allergen], traces: true };
}
