import type { OrderTotal } from "./order.ts";
import { type CoverRow, CRUMB_G, coverRows, type PackOffer } from "./packs.ts";
import type { OfferAt, OrderQuestion } from "./question.ts";

/** Another way to cover what one ingredient is needed for, everything else ordered as it is. */
export interface Alternative {
  readonly at: OfferAt;
  readonly packs: number;
  /** How much dearer the whole order would be, in millionths of the currency; may be nought. */
  readonly dearer: number;
}

/** For each offer that could cover an ingredient alone: in its best delivery, what that would cost more. */
export function alternativesOf({ items }: OrderQuestion, order: OrderTotal, item: number): Alternative[] {
  const { offers, need } = items[item]!;
  const rows = coverRows(need);
  const best = new Map<string, Alternative>();
  const mine = new Array<number>(offers.length).fill(0);
  offers.forEach((at, place) => {
    if (!rows.every((row) => row.offers.includes(place))) return;
    for (const packs of countsFor(need.offers[place]!, rows, place)) {
      mine[place] = packs;
      const dearer = order.with(item, mine) - order.total;
      mine[place] = 0;
      const key = at.offer.offer.id;
      const known = best.get(key);
      // At the same cost the later delivery, fresher.
      if (!known || dearer <= known.dearer) best.set(key, { at, packs, dearer });
    }
  });
  return [...best.values()].sort((a, b) => a.dearer - b.dearer);
}

/** As many packs as cover all rows, or as reach a price break beyond. */
function countsFor({ brings, tiers }: PackOffer, rows: readonly CoverRow[], place: number): number[] {
  const enough = Math.max(
    1,
    ...rows
      .filter((row) => row.offers.includes(place))
      .map((row) => Math.ceil((row.needG - CRUMB_G) / brings)),
  );
  return [enough, ...tiers.map((tier) => tier.from).filter((from) => from > enough)];
}
