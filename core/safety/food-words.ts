import type { Ingredient } from "../pantry/schema.ts";

/**
 * What a name says that no field says: minced meat, curing salt, grains, species. English words; a food they do not
 * know is judged by its origin alone, which asks for no less than its kind.
 */
const WORDS = {
  minced: /\b(mince|minced|ground (beef|veal|pork|lamb|meat|chicken|turkey)|burger|sausage ?meat)\b/i,
  nitrite: /\b(nitrite|nitrate|curing salt|pink salt)\b/i,
  grain:
    /\b(rice|barley|buckwheat|bulgur|couscous|quinoa|millet|spelt|farro|groats|polenta|oats|noodles|pasta)\b/i,
} as const;

/** Equipment in which whole meat becomes minced. */
export const MINCERS: ReadonlySet<string> = new Set(["mincer", "grinder", "cutter"]);

/** Whether the name or an alias of an ingredient, or the cut it comes in, says so. */
export function named(what: keyof typeof WORDS, ingredient: Ingredient, cut?: string): boolean {
  const cutName = ingredient.cuts.find((one) => one.id === cut)?.name ?? "";
  return [ingredient.name, ...ingredient.aliases, cutName].some((text) => WORDS[what].test(text));
}

/** "chicken" and "turkey" where the name says so: the two birds that have a table; else the name itself. */
export function speciesOf(ingredient: Ingredient): string {
  const known = ["chicken", "turkey"].find((bird) => ingredient.name.toLowerCase().includes(bird));
  return known ?? ingredient.name.split(",")[0]!.toLowerCase();
}

const HEATERS = new Set([
  "combi",
  "deck",
  "oven",
  "range-oven",
  "burner",
  "induction",
  "kettle",
  "bath",
  "steamer",
  "salamander",
  "grill",
  "griddle",
  "plancha",
  "fryer",
  "bratt-pan",
  "pressure-cooker",
  "smoker",
]);

/** Whether a kind of equipment at a set temperature heats: what is set below 40 °C proves or dries. */
export function isHeater(kind: string, setC: number | undefined): boolean {
  return setC === undefined ? HEATERS.has(kind) : setC >= 50 || (setC >= 40 && HEATERS.has(kind));
}

/** What a kind of chilling equipment is as a medium of heat, by its words; undefined when it does not chill. */
export function chillMedium(kind: string): string | undefined {
  const by: Readonly<Record<string, string>> = {
    chiller: "blast-chiller",
    "blast-chiller": "blast-chiller",
    "ice-sink": "ice-bath",
    "ice-bath": "ice-bath",
    "cold-room": "walk-in",
    "walk-in": "walk-in",
    fridge: "walk-in",
    freezer: "freezer",
    "freezer-room": "freezer",
    "blast-freezer": "blast-freezer",
  };
  return Object.hasOwn(by, kind) ? by[kind] : undefined;
}
