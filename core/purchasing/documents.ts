import type { Documents } from "../production/documents.ts";
import type { Supplier } from "./schema.ts";

/** Documents with the suppliers a kitchen buys from. */
export interface BuyingDocuments extends Documents {
  readonly suppliers: ReadonlyMap<string, Supplier>;
}
