import { perKilogram, usablePrice, usablePriceWithTrim } from "../costing/rules.ts";
import { findCut } from "../pantry/cuts.ts";
import type { Ingredient } from "../pantry/schema.ts";
import type { Offer } from "../purchasing/schema.ts";
import { gramsOf } from "./grams-of.ts";

/** The price of a usable kilogram of an offer, and all that it was computed from. */
export interface Usable {
  /** Of an edible kilogram in the cut, in the currency of the list. */
  readonly perKg: number;
  readonly price: number;
  /** One pack, g. */
  readonly packG: number;
  /** 1 when nothing is trimmed here. */
  readonly trimYield: number;
  /** Name of the cut, "" when nothing is trimmed here. */
  readonly cut: string;
}

/**
 * Price of a usable kilogram: price / pack in grams / trim yield (the rule of `costing/`, credit for usable trim
 * included). @param cut the way it is trimmed in this kitchen; what is sold in a cut is trimmed no more.
 * @returns undefined when the pack cannot be weighed
 */
export function usableOf(
  offer: Pick<Offer, "inner" | "innerPerPack" | "price" | "cut">,
  ingredient: Ingredient,
  cut: string | undefined,
): Usable | undefined {
  const inner = gramsOf(offer.inner, ingredient);
  const packG = inner === undefined ? 0 : inner * offer.innerPerPack;
  if (!(packG > 0)) return undefined;
  const price = Number(offer.price);
  const found = offer.cut === undefined ? findCut(ingredient, cut)?.cut : undefined;
  const trimYield = found?.trimYield ?? 1;
  const perG = found?.usableTrim
    ? usablePriceWithTrim(
        price / packG,
        trimYield,
        found.usableTrim.share,
        Number(found.usableTrim.valuePerKg),
      )
    : usablePrice(price / packG, trimYield);
  return { perKg: perKilogram(perG), price, packG, trimYield, cut: found?.name ?? "" };
}
