import type { Cell, Ledger } from "../ledger/ledger.ts";
import { stated } from "../ledger/stated.ts";
import type { Ingredient } from "./schema.ts";

/** A cut with its place in the ingredient. */
export interface CutAt {
  readonly cut: Ingredient["cuts"][number];
  readonly index: number;
}

/** The cut of that id, if the ingredient has it. */
export function findCut(ingredient: Ingredient, cut: string | undefined): CutAt | undefined {
  if (cut === undefined) return undefined;
  const index = ingredient.cuts.findIndex((each) => each.id === cut);
  return index < 0 ? undefined : { cut: ingredient.cuts[index]!, index };
}

/**
 * The cell of the share of what is bought that is left after the cut (EP / AP), or undefined when nothing is
 * trimmed: no cut is named.
 * @param pointer place of the ingredient in the book.
 */
export function trimCell(
  ledger: Ledger,
  ingredient: Ingredient,
  pointer: string,
  cut: string | undefined,
): Cell | undefined {
  const found = findCut(ingredient, cut);
  if (!found) return undefined;
  const at = `book:${pointer}/cuts/${found.index}/trimYield`;
  return stated(ledger, at, "ratio", found.cut.trimYield, found.cut.source);
}

/** One ingredient in one cut, as a key. */
export function cutKey(ingredient: string, cut: string | undefined): string {
  return cut === undefined ? ingredient : `${ingredient}/${cut}`;
}
