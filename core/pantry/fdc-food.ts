import type { z } from "zod";
import { NAMED_PIECES, type Unit, unitFacts } from "../quantity/units.ts";
import { originOf } from "./fdc-origin.ts";
import { freeId } from "./import-rows.ts";
import type { Composition, IngredientSchema } from "./schema.ts";

/** An ingredient as it may be written: what the schema fills in may be left out. */
export type IngredientInput = z.input<typeof IngredientSchema>;

/** A household measure of a food: `amount` of `measure` weighs `grams`. */
export interface FdcPortion {
  readonly amount: number;
  readonly measure: string;
  readonly grams: number;
}

/** One food of FoodData Central, from either of its forms. */
export interface FdcFood {
  readonly id: string;
  readonly description: string;
  readonly group: string;
  /** Amount in 100 g by nutrient number of FoodData Central. */
  readonly nutrients: ReadonlyMap<string, number>;
  readonly portions: readonly FdcPortion[];
}

type Part = Exclude<keyof Composition, "source">;
/** Our word, the nutrient's id and its older number, and the factor from the unit there. Salt = sodium × 2.5. */
const PARTS: readonly (readonly [Part, readonly string[], number])[] = [
  ["water", ["1051", "255"], 1],
  ["protein", ["1003", "203"], 1],
  ["fat", ["1004", "204"], 1],
  ["saturated", ["1258", "606"], 1],
  ["carbohydrate", ["1005", "205"], 1],
  ["sugars", ["2000", "269", "1063", "269.3"], 1],
  ["fibre", ["1079", "291"], 1],
  ["ash", ["1007", "207"], 1],
  ["alcohol", ["1018", "221"], 1],
  ["salt", ["1093", "307"], 2.5 / 1000],
  ["cholesterolMg", ["1253", "601"], 1],
  // Where the plain figure is missing: by the food's own factors, then by the general ones.
  ["energyKcal", ["1008", "208", "2048", "958", "2047", "957"], 1],
];
const FILLING: readonly Part[] = ["water", "protein", "fat", "carbohydrate", "ash", "alcohol"];

/** Every nutrient that is read, by id and by number. */
export const READ_NUTRIENTS: ReadonlySet<string> = new Set(PARTS.flatMap(([, ids]) => ids));

const VOLUMES: readonly (readonly [RegExp, Unit])[] = [
  [/^(fl\.? ?oz|fluid ounces?)\b/i, "fl oz"],
  [/^cups?\b/i, "cup"],
  [/^(tbsp|tablespoons?)\b/i, "tbsp"],
  [/^(tsp|teaspoons?)\b/i, "tsp"],
  [/^(ml|milliliters?)\b/i, "mL"],
  [/^(l|liters?)\b/i, "L"],
  [/^(pt|pints?)\b/i, "pt"],
  [/^(qt|quarts?)\b/i, "qt"],
  [/^(gal|gallons?)\b/i, "gal"],
];

/** Groups whose foods keep dry; everything else is taken as cold and short-lived until somebody says. */
const DRY =
  /^(spices and herbs|legumes and legume products|cereal grains and pasta|nut and seed products|sweets)$/i;

/** Known fractions may pass 100 g by rounding and by parts from different samples, not by more. */
const MOST_IN_100_G = 105;
/** Pure fat has about 900 kcal in 100 g; dried yolk has about 2,300 mg of cholesterol. */
const MOST: Partial<Record<Part, number>> = { energyKcal: 950, cholesterolMg: 5000 };
/** Lighter than puffed grain or heavier than any food: the measure is not believed. kg/L. */
const DENSITY: readonly [number, number] = [0.005, 5];
/** The lightest and the heaviest piece believed, g. */
const PIECE: readonly [number, number] = [0.001, 200_000];

/**
 * A food as an ingredient: composition per 100 g of edible part, a density for each form that a measure of volume
 * is given in (the largest measure of that form), a piece for each counted measure. Allergens are unknown: the
 * download does not say them. Storage is a cautious guess by food group.
 * @returns the ingredient, and what is doubtful about it, in words.
 */
export function ingredientOf(food: FdcFood, taken: Set<string>): { of: IngredientInput; doubts: string[] } {
  const doubts: string[] = [];
  const doc = `USDA FoodData Central, FDC ID ${food.id}`;
  const source = { doc, kind: "published" as const };
  const known: Partial<Record<Part, number>> = {};
  for (const [part, ids, factor] of PARTS) {
    const found = ids.find((id) => food.nutrients.has(id));
    if (found !== undefined) known[part] = Number((food.nutrients.get(found)! * factor).toFixed(4));
  }
  const sum = FILLING.reduce((all, part) => all + (known[part] ?? 0), 0);
  const strange = PARTS.map(([part]) => part).filter(
    (part) => (known[part] ?? 0) > (MOST[part] ?? MOST_IN_100_G),
  );
  const fits = sum <= MOST_IN_100_G && strange.length === 0;
  if (!fits)
    doubts.push(
      strange.length > 0
        ? `${strange.join(", ")} is more than 100 g can hold: the composition is left out`
        : `its parts add up to ${sum.toFixed(1)} g in 100 g: the composition is left out`,
    );
  const { origin, sure } = originOf(food.description, food.group, known.alcohol);
  if (!sure)
    doubts.push(
      `its group ${food.group ? `"${food.group}" ` : ""}does not say what it is made of: every origin is counted`,
    );
  return {
    of: {
      id: freeId(food.description, taken),
      name: food.description,
      ...portionsOf(food, doc, doubts),
      ...(fits && Object.keys(known).length > 0 ? { composition: { ...known, source } } : {}),
      allergens: { status: "unknown" },
      origin,
      storage: DRY.test(food.group) ? { state: "ambient", days: 180 } : { state: "cold", days: 2 },
      notes:
        "Storage is a cautious guess by food group; allergens are not in the download. Weights are of the edible part.",
    },
    doubts,
  };
}

function portionsOf(
  food: FdcFood,
  doc: string,
  doubts: string[],
): Pick<IngredientInput, "densities" | "pieces"> {
  const forms = new Map<string, { mL: number; kgPerL: number; table: string }>();
  const pieces = new Map<string, { g: number; table: string }>();
  for (const { amount, measure, grams } of food.portions) {
    const table = `${amount} ${measure} = ${grams} g`;
    const volume = VOLUMES.find(([words]) => words.test(measure));
    if (volume) {
      const state = formOf(measure.replace(volume[0], ""));
      const mL = amount * unitFacts(volume[1]).factor;
      if (!believed(grams / mL, DENSITY))
        doubts.push(`${table} is no weight of a food: the measure is left out`);
      // Small spoons are coarse: the largest measure of a form stands.
      else if (mL > (forms.get(state)?.mL ?? 0))
        forms.set(state, { mL, kgPerL: Number((grams / mL).toFixed(4)), table });
    } else {
      const name = pieceNameOf(measure);
      if (name && !believed(grams / amount, PIECE))
        doubts.push(`${table} is no weight of a piece: it is left out`);
      else if (name && !pieces.has(name)) pieces.set(name, { g: Number((grams / amount).toFixed(3)), table });
    }
  }
  const from = (table: string) => ({ doc, table, kind: "published" as const });
  return {
    densities: [...forms].map(([state, { kgPerL, table }]) => ({ state, kgPerL, source: from(table) })),
    pieces: [...pieces].map(([name, { g, table }]) => ({ name, g, source: from(table) })),
  };
}

function believed(value: number, [least, most]: readonly [number, number]): boolean {
  return value >= least && value <= most;
}

/** The words behind a measure name the form: ", chopped" is "chopped"; none is "plain". */
function formOf(rest: string): string {
  const words = rest.replace(/\([^)]*\)/g, "").replace(/^[\s,]+|[\s,]+$/g, "");
  return words === "" ? "plain" : words.toLowerCase();
}

/** A named piece of the units, "piece" for one medium or whole one, nothing for servings and weights. */
function pieceNameOf(measure: string): string | undefined {
  const words = measure.toLowerCase();
  const named = NAMED_PIECES.find((name) => new RegExp(`^${name}(s|es)?\\b`).test(words));
  if (named) return named;
  return /\b(medium|whole|fruit|each|piece|unit|egg|large)\b/.test(words) && !/serving|slice|oz\b/.test(words)
    ? "piece"
    : undefined;
}
