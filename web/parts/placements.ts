import type { Dish, Placement } from "../../core/plating/schema.ts";
import { formOf } from "../../core/production/variants.ts";

/** What lies on a plate of a dish in a variant ("standard", or needs joined by "+"), in order of placing. */
export function placementsOf(dish: Dish, variant: string): readonly Placement[] {
  const needs = new Set(variant.split("+"));
  const picked = dish.variants.flatMap((v, i) => (needs.has(v.need) ? [i] : []));
  return formOf(dish, "", picked).placed.map((each) => each.placement);
}
