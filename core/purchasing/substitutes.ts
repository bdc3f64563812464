import type { Allergen, Ingredient } from "../pantry/schema.ts";
import type { Offer } from "./schema.ts";

/** Allergens in the sense of the law: wheat is gluten. */
function withGluten(allergens: readonly Allergen[]): Set<Allergen> {
  return new Set(allergens.includes("wheat") ? [...allergens, "gluten"] : allergens);
}

/**
 * What speaks against one food in the place of another, in words; empty when nothing does. The allergens and origins of
 * every plate are told by what the chef wrote, so a substitute may bring none that the food itself does not have:
 * neither for sure nor perhaps. Unknown counts as contains.
 */
export function againstSubstitute(food: Ingredient, substitute: Ingredient): string[] {
  if (food.allergens.status === "unknown" && substitute.allergens.status === "unknown") return [];
  if (substitute.allergens.status === "unknown") return ["its allergens are not known"];
  const has = withGluten(food.allergens.contains);
  const may = new Set([...has, ...withGluten(food.allergens.mayContain)]);
  const all = food.allergens.status === "unknown";
  return [
    ...substitute.allergens.contains.filter((a) => !all && !has.has(a)).map((a) => `it contains ${a}`),
    ...substitute.allergens.mayContain.filter((a) => !all && !may.has(a)).map((a) => `it may contain ${a}`),
    ...substitute.origin.filter((word) => !food.origin.includes(word)).map((word) => `it is ${word}`),
  ];
}

/** Whether an offer of a substitute declares nothing that the food it stands in for does not have. */
export function mayStandIn(food: Ingredient, offer: Offer): boolean {
  if (!offer.allergens) return true;
  const has = withGluten(food.allergens.contains);
  const may = new Set([...has, ...withGluten(food.allergens.mayContain)]);
  if (food.allergens.status === "unknown") return true;
  return (
    offer.allergens.contains.every((a) => has.has(a)) && offer.allergens.mayContain.every((a) => may.has(a))
  );
}
