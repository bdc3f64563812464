import { Temporal } from "temporal-polyfill";
import { type Offer, OfferSchema } from "../purchasing/schema.ts";
import type { PriceRow } from "./price-list.ts";

/** A row of a price list that a person (or a sure link) has tied to an ingredient. */
export interface TiedRow {
  readonly row: PriceRow;
  readonly ingredient: string;
  readonly cut?: string;
}

/**
 * Takes a price list into a supplier's offers from a date on. History is kept: an offer whose price changed ends the
 * day before and the new one begins; one with the same price goes on; what the list does not name is left as it is.
 * @param from ISO date from which the list is valid. @throws RangeError when it is none.
 */
export function takeList(offers: readonly Offer[], tied: readonly TiedRow[], from: string): Offer[] {
  const dayBefore = Temporal.PlainDate.from(from).subtract({ days: 1 }).toString();
  const next = [...offers];
  const ids = new Set(next.map((offer) => offer.id));
  for (const { row, ingredient, cut } of tied) {
    const open = next.findIndex(
      (offer) =>
        offer.ingredient === ingredient &&
        offer.cut === cut &&
        offer.innerPerPack === row.innerPerPack &&
        offer.inner.unit === row.inner.unit &&
        Number(offer.inner.value) === row.inner.value &&
        (offer.from ?? "") <= from &&
        (offer.until ?? "9999-12-31") >= from,
    );
    const old = next[open];
    if (old && Number(old.price) === Number(row.price)) continue;
    if (old?.from === from) {
      // The same list taken in again, corrected.
      next[open] = { ...old, price: row.price };
      continue;
    }
    if (old) next[open] = { ...old, until: dayBefore };
    const wanted = `${ingredient}${cut ? `-${cut}` : ""}-${from}`;
    let id = wanted;
    for (let n = 2; ids.has(id); n++) id = `${wanted}-${n}`;
    ids.add(id);
    next.push(
      OfferSchema.parse({
        ...{ id, ingredient, ...(cut ? { cut } : {}), inner: row.inner, innerPerPack: row.innerPerPack },
        ...{ price: row.price, ...(row.catchWeight ? { catchWeight: true } : {}), from },
      }),
    );
  }
  return next;
}
