import type { Allergen } from "../pantry/schema.ts";
import type { Supplier } from "../purchasing/schema.ts";
import type { Declared } from "../safety/contents.ts";

/**
 * What suppliers declare beyond an ingredient's own allergens: of every offer that could be bought on that date,
 * since nobody knows before the order which one comes.
 * @param asOf ISO date
 */
export function declaredBy(
  suppliers: readonly Supplier[],
  asOf: string,
): (ingredient: string) => Declared | undefined {
  const found = new Map<string, { contains: Set<Allergen>; mayContain: Set<Allergen> }>();
  for (const offer of suppliers.flatMap((supplier) => supplier.offers)) {
    if (!offer.allergens || (offer.from && offer.from > asOf) || (offer.until && offer.until < asOf))
      continue;
    const known = found.get(offer.ingredient) ?? { contains: new Set(), mayContain: new Set() };
    for (const allergen of offer.allergens.contains) known.contains.add(allergen);
    for (const allergen of offer.allergens.mayContain) known.mayContain.add(allergen);
    found.set(offer.ingredient, known);
  }
  return (ingredient) => {
    const declared = found.get(ingredient);
    return declared && { contains: [...declared.contains], mayContain: [...declared.mayContain] };
  };
}
