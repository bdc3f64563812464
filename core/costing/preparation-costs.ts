import type { FormulaCells, PreparationCells } from "../formula/cells.ts";
import type { Cell } from "../ledger/ledger.ts";
import type { OfferBook } from "../purchasing/offers.ts";
import { UsablePrices } from "./prices.ts";
import { preparedPrice } from "./rules.ts";

/** Cost by gram of preparations, made in the order of making. */
export class PreparationCosts {
  readonly prices: UsablePrices;
  readonly #formula: FormulaCells;
  readonly #currency: string;
  readonly #perG = new Map<string, Cell>();

  constructor(formula: FormulaCells, offers: OfferBook, currency: string) {
    this.prices = new UsablePrices(formula, offers, currency);
    this.#formula = formula;
    this.#currency = currency;
  }

  /** Cost of a gram of the preparation at its written yield. Its parts must have been added before. */
  add(cells: PreparationCells): Cell {
    const { id } = cells.preparation;
    const pairs = cells.lines.flatMap((each): Cell[] => {
      const { item } = each.line;
      const perG =
        "preparation" in item ? this.of(item.preparation) : this.prices.of(item.ingredient, item.cut, each);
      return [each.ep, perG];
    });
    const path = `calc:/costs/preparations/${id}`;
    const made = this.#formula.ledger.derive(path, `${this.#currency}/g`, preparedPrice, [
      cells.yieldG,
      ...pairs,
    ]);
    this.#perG.set(id, made);
    return made;
  }

  /** Cost of a gram of a preparation added before. */
  of(preparation: string): Cell {
    const found = this.#perG.get(preparation);
    if (found === undefined)
      throw new Error(`costs: "${preparation}" was not added before what is made of it`);
    return found;
  }
}
