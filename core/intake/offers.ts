import { Temporal } from "temporal-polyfill";
import { type Offer, OfferSchema } from "../purchasing/schema.ts";
import type { PriceRow } from "./price-list.ts";

/** A row of a price list that a person (or a sure link) has tied to an ingredient. */
export interface TiedRow {
  readonly row: PriceRow;
  readonly ingredient: string;
  readonly cut?: string;
}

/** True when the offer is sold in the pack of the row. */
export const samePack = (offer: Offer, row: PriceRow): boolean =>
  offer.innerPerPack === row.innerPerPack &&
  offer.inner.unit === row.inner.unit &&
  Number(offer.inner.value) === row.inner.value;

/**
 * Place of the offer that a row goes on from: the one of the supplier's own number, whatever its pack is now; without
 * a number that of the same ingredient, cut and pack. -1 without one that holds on the day.
 */
export function openOffer(offers: readonly Offer[], { row, ingredient, cut }: TiedRow, from: string): number {
  const holds = (offer: Offer) => (offer.from ?? "") <= from && (offer.until ?? "9999-12-31") >= from;
  if (row.code !== "") {
    const at = offers.findIndex(
      (offer) => offer.code === row.code && offer.ingredient === ingredient && holds(offer),
    );
    if (at >= 0) return at;
  }
  return offers.findIndex(
    (offer) =>
      offer.ingredient === ingredient &&
      offer.cut === cut &&
      // Two numbers are two articles: brands of one thing in one pack.
      (offer.code === undefined || row.code === "") &&
      samePack(offer, row) &&
      holds(offer),
  );
}

/**
 * Takes a price list into a supplier's offers from a date on. History is kept: an offer whose price or pack changed
 * ends the day before and the new one begins; one that is the same goes on; what the list does not name is left.
 * @param from ISO date from which the list is valid. @throws RangeError when it is none.
 */
export function takeList(offers: readonly Offer[], tied: readonly TiedRow[], from: string): Offer[] {
  const dayBefore = Temporal.PlainDate.from(from).subtract({ days: 1 }).toString();
  const next = [...offers];
  const ids = new Set(next.map((offer) => offer.id));
  const made = new Set<number>();
  for (const one of tied) {
    const { row, ingredient, cut } = one;
    const open = openOffer(next, one, from);
    // Two rows of one list are never the same offer.
    const old = made.has(open) ? undefined : next[open];
    const said = { ...(row.code ? { code: row.code } : {}), called: row.description.slice(0, 200) };
    if (old && Number(old.price) === Number(row.price) && samePack(old, row)) {
      made.add(open);
      next[open] = { ...old, ...said };
      continue;
    }
    const fresh = { inner: row.inner, innerPerPack: row.innerPerPack, price: row.price, ...said };
    if (old?.from === from) {
      // The same list taken in again, corrected.
      made.add(open);
      next[open] = OfferSchema.parse({ ...old, ...fresh });
      continue;
    }
    const wanted = `${ingredient}${cut ? `-${cut}` : ""}-${from}`;
    let id = wanted;
    for (let n = 2; ids.has(id); n++) id = `${wanted}-${n}`;
    ids.add(id);
    if (old) next[open] = { ...old, until: dayBefore };
    made.add(next.length);
    next.push(
      OfferSchema.parse({
        ...{ id, ingredient, ...(cut ? { cut } : {}), ...fresh },
        ...(old?.allergens ? { allergens: old.allergens } : {}),
        ...(row.catchWeight ? { catchWeight: true } : {}),
        from,
      }),
    );
  }
  return next;
}
