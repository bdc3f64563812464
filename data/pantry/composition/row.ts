import type { Composition } from "../../../core/pantry/schema.ts";
import type { Source } from "../../../core/quantity/schema.ts";

/** The columns of a row, in order: g in 100 g of edible part; cholesterol mg, energy kcal. */
export const COLUMNS = [
  "water",
  "protein",
  "fat",
  "saturated",
  "carbohydrate",
  "sugars",
  "fibre",
  "ash",
  "alcohol",
  "salt",
  "cholesterolMg",
  "energyKcal",
] as const;

type Figure = number | null;
/** One food: the figures of COLUMNS, null where nothing is recorded (not known, not zero). */
export type Row = readonly [
  ...[Figure, Figure, Figure, Figure, Figure, Figure],
  ...[Figure, Figure, Figure, Figure, Figure, Figure],
];

/** A row as a composition; what is null is left out. */
export function composed(row: Row, source: Source): Composition {
  const known = COLUMNS.flatMap((column, at) => {
    const figure = row[at] ?? null;
    return figure === null ? [] : [[column, figure] as const];
  });
  return { ...Object.fromEntries(known), source };
}

/** A composition as remembered: the figures of COLUMNS in their order. @param doc what more is known of it. */
export function recalled(row: Row, doc = "from memory"): Composition {
  return composed(row, { doc, kind: "memory" });
}
