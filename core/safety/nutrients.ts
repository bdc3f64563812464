import type { Composition, Ingredient } from "../pantry/schema.ts";

/** How something goes with a mass that is lost: with the liquid, with the fat, or not at all. */
export type Goes = "solid" | "dissolved" | "fat" | "alcohol";

/** What is carried through the steps, in 100 g: unit and how it goes. */
export const CARRIED = {
  protein: { unit: "g", goes: "solid" },
  fat: { unit: "g", goes: "fat" },
  saturated: { unit: "g", goes: "fat" },
  trans: { unit: "g", goes: "fat" },
  cholesterolMg: { unit: "mg", goes: "fat" },
  starch: { unit: "g", goes: "solid" },
  dissolvedCarbohydrate: { unit: "g", goes: "dissolved" },
  sugars: { unit: "g", goes: "dissolved" },
  addedSugars: { unit: "g", goes: "dissolved" },
  fibre: { unit: "g", goes: "solid" },
  alcohol: { unit: "g", goes: "alcohol" },
  salt: { unit: "g", goes: "dissolved" },
  vitaminDUg: { unit: "µg", goes: "fat" },
  calciumMg: { unit: "mg", goes: "solid" },
  ironMg: { unit: "mg", goes: "solid" },
  potassiumMg: { unit: "mg", goes: "dissolved" },
} as const satisfies Record<string, { readonly unit: string; readonly goes: Goes }>;
export type Carried = keyof typeof CARRIED;
export const CARRIED_KEYS = Object.keys(CARRIED) as Carried[];

/** A figure in 100 g, and the figures of the composition it was read or made from; undefined when not known. */
export interface Figure {
  readonly value: number;
  readonly from: readonly (keyof Composition)[];
  readonly rule?: "starchOf" | "sugarsWithin";
}

/** So little of the whole that all of it may count as the part, g in 100 g. */
const LITTLE = 1;
/** Food that is water and no more. */
const ALL_WATER = 99.9;
const ANIMAL = new Set([
  "meat",
  "poultry",
  "fish",
  "shellfish",
  "egg",
  "dairy",
  "gelatin",
  "insect",
  "pork",
  "raw-animal",
  "raw-egg",
  "unpasteurised",
]);

/**
 * What an ingredient holds in 100 g of its edible part, by its composition or that of a finished preparation. What is
 * not written is not known, except what follows from what is: water is nothing but water; where the whole is under
 * 1 g in 100 g the part not written counts as all of it (saturates and trans of fat, sugars of carbohydrate) or, of
 * fibre, as none: the cautious end; without sugars none are added; what comes of no animal has no cholesterol; what is not alcohol
 * and says nothing of it has none.
 */
export function figureOf(
  composition: Composition | undefined,
  origin: Ingredient["origin"] | undefined,
  nutrient: Carried,
): Figure | undefined {
  const c = composition;
  if (!c) return undefined;
  const nil: Figure = { value: 0, from: [] };
  const read = (key: Exclude<keyof Composition, "source">): Figure | undefined => {
    const value = c[key];
    return value === undefined ? undefined : { value, from: [key] };
  };
  const within = (key: "saturated" | "trans" | "sugars", whole: "fat" | "carbohydrate") => {
    const known = read(key);
    if (known) return known;
    const all = c[whole];
    return all !== undefined && all < LITTLE ? { value: all, from: [whole] } : undefined;
  };
  if ((c.water ?? 0) >= ALL_WATER && c[nutrient as "protein"] === undefined) return nil;
  switch (nutrient) {
    case "saturated":
    case "trans":
      return within(nutrient, "fat");
    case "sugars":
      return within(nutrient, "carbohydrate");
    case "fibre":
      return read(nutrient) ?? ((c.carbohydrate ?? LITTLE) < LITTLE ? nil : undefined);
    case "starch":
    case "dissolvedCarbohydrate": {
      if (c.carbohydrate === undefined) return undefined;
      const dissolved = nutrient === "dissolvedCarbohydrate";
      if (c.sugars === undefined) return dissolved ? nil : read("carbohydrate");
      const value = dissolved ? Math.min(c.carbohydrate, c.sugars) : Math.max(0, c.carbohydrate - c.sugars);
      return { value, from: ["carbohydrate", "sugars"], rule: dissolved ? "sugarsWithin" : "starchOf" };
    }
    case "addedSugars":
      return read("addedSugars") ?? (figureOf(c, origin, "sugars")?.value === 0 ? nil : undefined);
    case "cholesterolMg":
      return read(nutrient) ?? (origin && !origin.some((word) => ANIMAL.has(word)) ? nil : undefined);
    case "alcohol":
      return read(nutrient) ?? (origin?.includes("alcohol") ? undefined : nil);
    default:
      return read(nutrient);
  }
}

/** Of what a part can at most be: saturates of fat, sugars and fibre of carbohydrate, minerals of ash. */
const PART_OF: Partial<Record<Carried, "fat" | "carbohydrate" | "ash">> = {
  saturated: "fat",
  trans: "fat",
  sugars: "carbohydrate",
  addedSugars: "carbohydrate",
  fibre: "carbohydrate",
  salt: "ash",
  calciumMg: "ash",
  ironMg: "ash",
  potassiumMg: "ash",
};

/**
 * The most of a nutrient that 100 g can hold where it is not known: all of what it is part of, else all of the food;
 * without bound for what is counted in µg.
 */
export function mostOf(composition: Composition | undefined, nutrient: Carried): number {
  const { unit } = CARRIED[nutrient];
  if (unit === "µg") return Number.POSITIVE_INFINITY;
  const whole = PART_OF[nutrient];
  const all = (whole && composition?.[whole]) ?? 100;
  return unit === "mg" ? all * 1000 : all;
}
