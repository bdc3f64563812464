import { everyOrigin } from "./fdc-origin.ts";
import { freeId } from "./import-rows.ts";
import { type Ingredient, IngredientSchema } from "./schema.ts";

/**
 * An ingredient of which nothing is known but its name: its allergens are unknown, it counts as of every origin, and
 * it keeps two days cold, until somebody says more. @param taken ids in use; the new one is added.
 */
export function unknownIngredient(name: string, taken: Set<string>): Ingredient {
  return IngredientSchema.parse({
    ...{ id: freeId(name, taken), name: name.trim().slice(0, 200) || "Unknown" },
    ...{ allergens: { status: "unknown" }, origin: [...everyOrigin], storage: { state: "cold", days: 2 } },
    notes: "Added in passing: allergens, origin and storage are not known yet.",
  });
}
