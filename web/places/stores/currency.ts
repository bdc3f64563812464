import type { Kitchen } from "../../../core/production/schema.ts";
import type { Supplier } from "../../../core/purchasing/schema.ts";

/** What a supplier's prices are in: its own word, else that of the first kitchen that buys there, else the one in hand. */
export function currencyOf(kitchens: readonly Kitchen[], supplier: Supplier, here?: Kitchen): string {
  const buys = kitchens.find((one) => one.suppliers.includes(supplier.id));
  return supplier.currency ?? (buys ?? here ?? kitchens[0])?.currency ?? "EUR";
}
