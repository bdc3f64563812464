import type { Cell } from "../ledger/ledger.ts";
import { sumOfProducts, times } from "../ledger/rules.ts";
import { stated } from "../ledger/stated.ts";
import { gramsCell } from "../pantry/grams.ts";
import { type Problem, Refusal } from "../pantry/refusal.ts";
import type { Item } from "../pantry/schema.ts";
import type { Amounts } from "../production/amounts.ts";
import { besideG } from "../production/beside.ts";
import type { BuyingDocuments } from "../purchasing/documents.ts";
import type { PreparationCosts } from "./preparation-costs.ts";
import { surroundByRatio } from "./rules.ts";

/** What goes with every cover beside the plates (Q-factor). */
export interface SurroundCells {
  readonly by: "amount" | "ratio" | "items";
  readonly perCover: Cell;
  readonly items: readonly { readonly item: Item; readonly g: Cell; readonly cost: Cell }[];
}

/**
 * The cost by cover of what stands on no plate, as the menu has it; undefined where it has none.
 * @throws Refusal when a listed amount cannot be weighed.
 */
export function surroundCells(
  amounts: Amounts,
  docs: BuyingDocuments,
  costs: PreparationCosts,
  menu: Cell,
): SurroundCells | undefined {
  const { ledger, kitchen } = amounts;
  const { surround } = amounts.menu;
  if (!surround) return undefined;
  const { currency } = kitchen;
  const at = `${docs.pointer("menus", amounts.menu.id)}/surround`;
  if ("perCover" in surround) {
    const value = Number(surround.perCover);
    const perCover = stated(ledger, `book:${at}/perCover`, currency, value, surround.source);
    return { by: "amount", perCover, items: [] };
  }
  if ("ratio" in surround) {
    const ratio = stated(ledger, `book:${at}/ratio`, "ratio", surround.ratio, surround.source);
    const perCover = ledger.derive("calc:/costs/surround", currency, surroundByRatio, [menu, ratio]);
    return { by: "ratio", perCover, items: [] };
  }
  const { formula } = amounts.cells;
  const problems: Problem[] = [];
  const items = surround.items.map(({ item, amount }, i) => {
    const path = `calc:/costs/surround/${i}`;
    const itemAt = `${at}/items/${i}/amount`;
    const g = gramsCell(ledger, besideG(i), amount, itemAt, formula.matterOf(item), problems);
    const perG =
      "preparation" in item ? costs.of(item.preparation) : costs.prices.of(item.ingredient, item.cut);
    return { item, g, perG, cost: ledger.derive(path, currency, times, [g, perG]) };
  });
  if (problems.length + formula.problems.length > 0) throw new Refusal([...formula.problems, ...problems]);
  const perCover = ledger.derive(
    "calc:/costs/surround",
    currency,
    sumOfProducts,
    items.flatMap(({ g, perG }) => [g, perG]),
  );
  return { by: "items", perCover, items };
}
