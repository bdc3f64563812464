import { Ledger } from "../ledger/ledger.ts";
import { cutKey } from "../pantry/cuts.ts";
import { type Problem, Refusal } from "../pantry/refusal.ts";
import { FormulaCells } from "./cells.ts";
import { orderOfMaking, type Pointer } from "./graph.ts";
import type { Larder } from "./larder.ts";

/** What one written yield of a preparation takes, through all its parts, by ingredient and cut, g. */
export interface Use {
  readonly ingredient: string;
  readonly cut: string | undefined;
  readonly epG: number;
  readonly apG: number;
}

/** A preparation looked at alone: its yield and what it takes, to be scaled in any of three ways. */
export interface Scalable {
  readonly yieldG: number;
  readonly pieceG: number | undefined;
  readonly uses: ReadonlyMap<string, Use>;
}

/**
 * Reads a preparation with all its parts, each made exactly as much as is asked of it (no batches, no overage).
 * @throws Refusal when amounts cannot be weighed, parts are missing or turn in a circle.
 */
export function scalable(larder: Larder, preparation: string, pointer: Pointer): Scalable {
  const ledger = new Ledger();
  const cells = new FormulaCells(ledger, larder, pointer);
  const order = orderOfMaking(larder, [preparation], pointer);
  for (const each of order) cells.add(each);
  if (cells.problems.length > 0) throw new Refusal(cells.problems);
  const factors = new Map<string, number>([[preparation, 1]]);
  const uses = new Map<string, Use>();
  for (const part of order.reverse()) {
    const factor = factors.get(part.id) ?? 0;
    for (const { line, ep, ap } of cells.get(part.id)!.lines) {
      const [epG, apG] = [factor * ledger.value(ep), factor * ledger.value(ap)];
      if ("preparation" in line.item) {
        const id = line.item.preparation;
        factors.set(id, (factors.get(id) ?? 0) + epG / ledger.value(cells.get(id)!.yieldG));
        continue;
      }
      const { ingredient, cut } = line.item;
      const key = cutKey(ingredient, cut);
      const before = uses.get(key);
      uses.set(key, { ingredient, cut, epG: (before?.epG ?? 0) + epG, apG: (before?.apG ?? 0) + apG });
    }
  }
  const own = cells.get(preparation)!;
  return {
    yieldG: ledger.value(own.yieldG),
    pieceG: own.pieceG === undefined ? undefined : ledger.value(own.pieceG),
    uses,
  };
}

/** Working factor for a wanted mass, g: wanted / written yield. */
export function factorForGrams(of: Scalable, grams: number): number {
  return grams / of.yieldG;
}

/** Working factor for `portions` portions of `portionG` each (covers, when each gets one). */
export function factorForPortions(of: Scalable, portions: number, portionG: number): number {
  return factorForGrams(of, portions * portionG);
}

/** Whole portions of `portionG` in `factor` times the written yield. */
export function portionsAt(of: Scalable, factor: number, portionG: number): number {
  return Math.floor(((factor * of.yieldG) / portionG) * (1 + 1e-9));
}

/** What is on hand of an ingredient in a cut, g: as purchased unless `trimmed`. */
export interface OnHand {
  readonly ingredient: string;
  readonly cut?: string | undefined;
  readonly grams: number;
  readonly trimmed?: boolean | undefined;
}

/**
 * The largest working factor that what is on hand allows, and which of it gives out first.
 * Ingredients not listed are taken as no limit. @throws Refusal when none of those listed goes into it.
 */
export function factorOnHand(
  of: Scalable,
  onHand: readonly OnHand[],
): { readonly factor: number; readonly limit: OnHand } {
  let best: { factor: number; limit: OnHand } | undefined;
  for (const limit of onHand) {
    const use = of.uses.get(cutKey(limit.ingredient, limit.cut));
    const each = use && (limit.trimmed ? use.epG : use.apG);
    if (!each) continue;
    const factor = limit.grams / each;
    if (!best || factor < best.factor) best = { factor, limit };
  }
  if (best) return best;
  const problem: Problem = {
    path: "",
    what: `none of what is on hand goes into it: ${onHand.map((each) => cutKey(each.ingredient, each.cut)).join(", ")}`,
    mend: `name one of: ${[...of.uses.keys()].slice(0, 12).join(", ")}`,
  };
  throw new Refusal([problem]);
}
