import type { Ingredient } from "../pantry/schema.ts";
import type { Offer } from "../purchasing/schema.ts";
import { openOffer, samePack, type TiedRow } from "./offers.ts";
import { type Usable, usableOf } from "./usable.ts";

/** What a row of a new list changes. */
export interface Compared {
  /** "same" and "changed" against the supplier's own offer that holds on the day; "new" without one. */
  readonly state: "new" | "same" | "changed";
  readonly old?: Offer;
  readonly usable?: Usable;
  readonly oldUsable?: Usable;
  /** Of the usable price, in per cent of the old one; missing when either is not known. */
  readonly changePercent?: number;
  readonly doubt: string;
}

/** A change beyond this share of the old price is asked: a mark or a pack may have been misread. */
const LARGE_CHANGE = 0.4;

/**
 * Sets the rows that are tied to an ingredient beside the supplier's offers on the day the list begins.
 * @param cutOf the cut in which the kitchen mostly uses an ingredient.
 */
export function compareRow(
  { row, ingredient, cut }: TiedRow,
  offers: readonly Offer[],
  from: string,
  of: Ingredient,
  cutOf: (ingredient: string) => string | undefined,
): Compared {
  const used = cutOf(ingredient);
  const fresh = {
    inner: row.inner,
    innerPerPack: row.innerPerPack,
    price: row.price,
    ...(cut ? { cut } : {}),
  };
  const usable = usableOf(fresh, of, used);
  const old = offers[openOffer(offers, { row, ingredient, ...(cut ? { cut } : {}) }, from)];
  const doubts: string[] = [];
  if (!usable)
    doubts.push(`a ${row.inner.unit} of ${of.name} cannot be weighed: give its density or piece weight`);
  if (!old) return { state: "new", ...(usable ? { usable } : {}), doubt: doubts.join("; ") };
  const oldUsable = usableOf(old, of, used);
  const change = usable && oldUsable && oldUsable.perKg > 0 ? usable.perKg / oldUsable.perKg - 1 : undefined;
  if (change !== undefined && Math.abs(change) > LARGE_CHANGE)
    doubts.push(`the price moves by ${Math.round(change * 100)} %: is the pack read right?`);
  if (old.breaks.length > 0 && Number(old.price) !== Number(row.price))
    doubts.push("the old price had breaks by quantity, which end with it: ask for the new ones");
  const same = Number(old.price) === Number(row.price) && samePack(old, row);
  return {
    ...{ state: same ? "same" : "changed", old },
    ...(usable ? { usable } : {}),
    ...(oldUsable ? { oldUsable } : {}),
    ...(change === undefined ? {} : { changePercent: change * 100 }),
    doubt: doubts.join("; "),
  };
}

/** Offers that hold on the day and that no row of the list names: they are left as they are, and told. */
export function missingOffers(offers: readonly Offer[], tied: readonly TiedRow[], from: string): Offer[] {
  const named = new Set(tied.map((one) => openOffer(offers, one, from)));
  return offers.filter(
    (offer, i) => !named.has(i) && (offer.from ?? "") <= from && (offer.until ?? "9999-12-31") >= from,
  );
}

/** The cut in which most lines and placements take each ingredient: the one its usable price is told in. */
export function usualCuts(book: {
  readonly preparations: readonly { readonly lines: readonly { readonly item: object }[] }[];
}): (ingredient: string) => string | undefined {
  const counts = new Map<string, Map<string, number>>();
  for (const { lines } of book.preparations)
    for (const { item } of lines) {
      const { ingredient, cut } = item as { ingredient?: string; cut?: string };
      if (ingredient === undefined) continue;
      const of = counts.get(ingredient) ?? new Map<string, number>();
      of.set(cut ?? "", (of.get(cut ?? "") ?? 0) + 1);
      counts.set(ingredient, of);
    }
  return (ingredient) => [...(counts.get(ingredient) ?? [])].sort((a, b) => b[1] - a[1])[0]?.[0] || undefined;
}
