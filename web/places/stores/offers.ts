import type { Offer, Supplier } from "../../../core/purchasing/schema.ts";

/** Offers of an ingredient with their supplier. */
export function offersOf(
  suppliers: readonly Supplier[],
  ingredient: string,
): { supplier: Supplier; offer: Offer }[] {
  return suppliers.flatMap((supplier) =>
    supplier.offers.filter((offer) => offer.ingredient === ingredient).map((offer) => ({ supplier, offer })),
  );
}

/** A pack as it is sold: "20 × 250 g". */
export function packText(offer: Offer): string {
  const inner = `${offer.inner.value} ${offer.inner.unit}`;
  return offer.innerPerPack === 1 ? inner : `${offer.innerPerPack} × ${inner}`;
}
