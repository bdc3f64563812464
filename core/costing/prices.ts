import type { FormulaCells } from "../formula/cells.ts";
import type { LineCells } from "../formula/lines.ts";
import type { Cell } from "../ledger/ledger.ts";
import { smallest } from "../ledger/rules.ts";
import { nothing, stated } from "../ledger/stated.ts";
import { findCut } from "../pantry/cuts.ts";
import type { OfferBook } from "../purchasing/offers.ts";
import { usablePrice, usablePriceWithTrim } from "./rules.ts";

/**
 * Prices of usable grams: for an ingredient in a cut, the cheapest valid offer at its base price, goods bought
 * whole counted with what is trimmed off. Free ingredients and those nobody sells cost nothing; the latter are
 * named by the orders.
 */
export class UsablePrices {
  readonly #formula: FormulaCells;
  readonly #offers: OfferBook;
  readonly #currency: string;
  readonly #made = new Map<string, Cell>();

  constructor(formula: FormulaCells, offers: OfferBook, currency: string) {
    this.#formula = formula;
    this.#offers = offers;
    this.#currency = currency;
  }

  /** Price of a gram EP of an ingredient in a cut; `own` is a line with a trim yield of its own. */
  of(ingredient: string, cut: string | undefined, own?: LineCells): Cell {
    const override = own?.line.trimYield === undefined ? "" : `/${own.at.slice(1)}`;
    const key = `${ingredient}/${cut === undefined ? "whole" : `cuts/${cut}`}${override}`;
    const known = this.#made.get(key);
    if (known !== undefined) return known;
    const trim = override === "" ? this.#formula.trim(ingredient, cut) : own!.trim;
    const made = this.#make(`calc:/prices/${key}`, ingredient, cut, trim);
    this.#made.set(key, made);
    return made;
  }

  #make(path: string, id: string, cut: string | undefined, trim: Cell | undefined): Cell {
    const { ledger } = this.#formula;
    const { ingredient } = this.#formula.ingredient(id);
    if (ingredient.free) return nothing(ledger);
    const offers = this.#offers.of(id);
    const candidates = offers
      .filter((each) => cut !== undefined && each.offer.cut === cut)
      .map((each) => each.perG);
    const whole = offers.filter((each) => each.offer.cut === undefined).map((each) => each.perG);
    if (whole.length > 0) {
      const cheapest = this.#cheapest(`calc:/prices/${id}/as-purchased`, whole);
      candidates.push(trim === undefined ? cheapest : this.#trimmed(path, id, cut, cheapest, trim));
    }
    if (candidates.length === 0) return nothing(ledger);
    return this.#cheapest(path, candidates);
  }

  #trimmed(path: string, id: string, cut: string | undefined, perG: Cell, trim: Cell): Cell {
    const { ledger } = this.#formula;
    const { ingredient, pointer } = this.#formula.ingredient(id);
    const unit = `${this.#currency}/g`;
    const found = findCut(ingredient, cut);
    const usable = found?.cut.usableTrim;
    if (!usable) return ledger.derive(`${path}/trimmed`, unit, usablePrice, [perG, trim]);
    const at = `book:${pointer}/cuts/${found.index}/usableTrim`;
    return ledger.derive(`${path}/trimmed`, unit, usablePriceWithTrim, [
      perG,
      trim,
      stated(ledger, `${at}/share`, "ratio", usable.share),
      stated(ledger, `${at}/valuePerKg`, `${this.#currency}/kg`, Number(usable.valuePerKg)),
    ]);
  }

  #cheapest(path: string, cells: readonly Cell[]): Cell {
    if (cells.length === 1) return cells[0]!;
    const { ledger } = this.#formula;
    return ledger.find(path) ?? ledger.derive(path, `${this.#currency}/g`, smallest, cells);
  }
}
