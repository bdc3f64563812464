import type { TraceNode } from "../ledger/ledger.ts";
import { Tracer } from "../ledger/tracer.ts";
import type { Amounts } from "../production/amounts.ts";
import { type Pricing, PricingSchema } from "../production/schema.ts";
import type { BuyingDocuments } from "../purchasing/documents.ts";
import { type Change, NotTriable, TRIED, triable, withChanged } from "./changes.ts";
import { plateCosts } from "./cost-result.ts";
import type { PlateCosts } from "./cost-types.ts";
import type { CostCells } from "./costs.ts";

/** What is tried: numbers of the book at other values, and how prices are made. */
export interface Trial {
  readonly changes: readonly Change[];
  readonly pricing?: Pricing | undefined;
}

/** What plates and menu cost as tried, with how each figure came; `/tried` stands before their pointers. */
export type TriedCost =
  | { readonly refused: string }
  | {
      readonly refused?: undefined;
      readonly cost: PlateCosts;
      readonly trace: Readonly<Record<string, TraceNode>>;
    };

/**
 * Computes plates and menu with some numbers changed, carried forward by the ledger; then everything is as before.
 * What cannot be tried is said in words.
 */
export function tryCost(
  amounts: Amounts,
  docs: BuyingDocuments,
  costs: CostCells,
  { changes, pricing }: Trial,
): TriedCost {
  const asked = PricingSchema.optional().safeParse(pricing);
  if (!asked.success) return { refused: "a wanted share is above 0 and at most 1" };
  try {
    const cells = changes.map((change) => [triable(amounts, change), change.value] as const);
    return withChanged(amounts, cells, () => {
      const tracer = new Tracer(amounts.ledger);
      const read = tracer.under(TRIED);
      const cost = plateCosts(costs, amounts, docs, read, TRIED, pricing ?? amounts.service.pricing);
      return { cost, trace: tracer.nodes() };
    });
  } catch (error) {
    if (error instanceof NotTriable) return { refused: error.message };
    if (error instanceof RangeError) return { refused: "the cost grows out of all bounds: check the number" };
    throw error;
  }
}
