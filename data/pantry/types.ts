import type { z } from "zod";
import type { IngredientSchema } from "../../core/pantry/schema.ts";

/** An ingredient as it is written by hand: what the schema fills in by default may be left out. */
export type IngredientInput = z.input<typeof IngredientSchema>;
