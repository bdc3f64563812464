import type { FormulaCells } from "../formula/cells.ts";
import type { Cell } from "../ledger/ledger.ts";
import { gramsCell } from "../pantry/grams.ts";
import { purchasedFor } from "../pantry/rules.ts";
import type { Menu } from "./schema.ts";

/** An ingredient that goes with every cover and stands on no plate, g a cover. */
export interface BesideCells {
  /** Its place in the menu's list. */
  readonly place: number;
  readonly ingredient: string;
  readonly cut: string | undefined;
  readonly ep: Cell;
  readonly ap: Cell;
}

/** Where the grams a cover of an item of the menu's list stand, for cost and orders alike. */
export const besideG = (place: number) => `calc:/beside/${place}/g`;

/** The ingredients among what goes with every cover; what the menu tells only as a cost is nothing to order. */
export function besideCells(formula: FormulaCells, menu: Menu, menuAt: string): BesideCells[] {
  const { surround } = menu;
  if (!surround || !("items" in surround)) return [];
  return surround.items.flatMap(({ item, amount }, place): BesideCells[] => {
    if (!("ingredient" in item)) return [];
    const { ingredient, cut } = item;
    const at = `${menuAt}/surround/items/${place}/amount`;
    const matter = formula.matter(ingredient);
    const ep = gramsCell(formula.ledger, besideG(place), amount, at, matter, formula.problems);
    const trim = formula.trim(ingredient, cut);
    const ap =
      trim === undefined
        ? ep
        : formula.ledger.derive(`calc:/beside/${place}/ap`, "g", purchasedFor, [ep, trim]);
    return [{ place, ingredient, cut, ep, ap }];
  });
}
