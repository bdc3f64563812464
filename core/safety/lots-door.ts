import { holding } from "../heat/limits-data.ts";
import type { CellSource } from "../ledger/ledger.ts";
import type { Ingredient } from "../pantry/schema.ts";
import type { Kitchen } from "../production/schema.ts";
import { localLimit } from "./local-limits.ts";

/** How warm goods may be at the door. */
export interface DoorLimit {
  readonly celsius: number;
  readonly source: CellSource;
}

/**
 * Goods that need the cold: 5 °C or less, as they are to be kept (Food Code 3-501.16; 3-202.11 asks the same at the door,
 * from memory), or a stricter local limit. Frozen goods:
 * −18 °C (EU quick-frozen foods, 89/108/EEC, from memory; the Food Code asks only that they arrive frozen, 3-202.11(F)).
 * Dry goods have none.
 */
export function doorLimit(
  ingredient: Pick<Ingredient, "storage">,
  kitchen: Pick<Kitchen, "localLimits"> | undefined,
): DoorLimit | undefined {
  const { state } = ingredient.storage;
  if (state === "frozen")
    return { celsius: -18, source: { doc: "Directive 89/108/EEC, quick-frozen foods", kind: "memory" } };
  if (state !== "cold") return undefined;
  const local = kitchen && localLimit(kitchen, "coldHoldC");
  if (local && local.value < holding.coldC)
    return { celsius: local.value, source: { doc: local.doc, kind: "published" } };
  return { celsius: holding.coldC, source: holding.source };
}
