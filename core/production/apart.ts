import type { Allergen } from "../pantry/schema.ts";

/**
 * Which foods must be kept apart where they share equipment, because a guest depends on it. Safety answers it from
 * what is in the food; the planner only keeps the order (README, P25).
 */
export interface Apart {
  /** Allergens in the food of a step, perhaps or not known included. */
  carried(preparation: string, step: string): ReadonlySet<Allergen>;
  /** Allergens of which no trace may come to a preparation: a guest who must not have them gets it. */
  keptFrom(preparation: string): ReadonlySet<Allergen>;
}
