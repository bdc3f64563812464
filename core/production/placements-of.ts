import type { Dish, Placement } from "../plating/schema.ts";
import { formOf, nameOf } from "./variants.ts";

/**
 * What lies on a plate of a dish in a variant, in order of placing. The variant is a form's name: `STANDARD`, or names of
 * variants joined by "+"; a second one for the same need is "need-2", and the later named first means the earlier wins.
 */
export function placementsOf(dish: Dish, variant: string): readonly Placement[] {
  const names = variant.split("+");
  const picked = dish.variants
    .map((_, i) => i)
    .filter((i) => names.includes(nameOf(dish, i)))
    .sort((a, b) => a - b);
  const reversed = picked.length > 1 && names[0] === nameOf(dish, picked.at(-1)!);
  return formOf(dish, "", picked, reversed ? "earlier" : "later")
    .placed.map((each) => each.placement)
    .sort((a, b) => a.n - b.n);
}
