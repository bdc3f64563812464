import type { z } from "zod";
import type { OfferSchema } from "../../../core/purchasing/schema.ts";

type OfferInput = z.input<typeof OfferSchema>;
type More = Pick<OfferInput, "cut" | "breaks" | "catchWeight" | "from" | "until">;

/** One line of a price list: a pack of so many inner units of so much each, its price in euro, and what else is said. */
export function pack(
  id: string,
  ingredient: string,
  innerPerPack: number,
  value: number,
  unit: OfferInput["inner"]["unit"],
  price: string,
  more: More = {},
): OfferInput {
  return { id, ingredient, inner: { value, unit }, innerPerPack, price, ...more };
}
