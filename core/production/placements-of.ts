import type { Dish, Placement } from "../plating/schema.ts";
import { formOf } from "./variants.ts";

/** What lies on a plate of a dish in a variant (`STANDARD`, or needs joined by "+"), in order of placing. */
export function placementsOf(dish: Dish, variant: string): readonly Placement[] {
  const needs = new Set(variant.split("+"));
  const picked = dish.variants.flatMap((each, i) => (needs.has(each.need) ? [i] : []));
  return formOf(dish, "", picked)
    .placed.map((each) => each.placement)
    .sort((a, b) => a.n - b.n);
}
