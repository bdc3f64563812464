import type { Cell, Ledger } from "../ledger/ledger.ts";
import { shortOf, sum } from "../ledger/rules.ts";
import { nothing, stated } from "../ledger/stated.ts";
import { type Money, money } from "../money/money.ts";
import { gramsCell } from "../pantry/grams.ts";
import type { Problem } from "../pantry/refusal.ts";
import type { Amounts } from "../production/amounts.ts";
import type { IngredientCells } from "../production/needs.ts";
import type { BuyingDocuments } from "./documents.ts";
import { OfferBook, type OfferCells } from "./offers.ts";
import type { OrderChoice } from "./order.ts";
import { meanTrim, orderOfNumbers } from "./rules.ts";
import type { Supplier } from "./schema.ts";

/** One cut of an ingredient that is to be bought. */
interface CutNeed {
  readonly cut: string | undefined;
  /** Still needed after stock in this cut, g EP. */
  readonly ep: Cell;
  /** Share left when it is cut here. */
  readonly trim: Cell;
}

/** One ingredient to be bought: all its cuts compete for what is bought whole. */
export interface ItemCells {
  readonly ingredient: string;
  readonly name: string;
  /** Whole, from stock, g. */
  readonly onHand: Cell;
  readonly cuts: readonly CutNeed[];
  readonly offers: readonly OfferCells[];
  /** The numbers by which `cheapestPacks` knows the item. */
  readonly numbers: readonly Cell[];
}

export interface BuyingOptions {
  /** ISO date of the last use of an ingredient; stock must be good until then. The service's date if not known. */
  readonly lastUse?: ((ingredient: string) => string | undefined) | undefined;
}

/**
 * The buying of one service: net needs as cells that follow the amounts, and the order chosen from them.
 * Built once; `choose` reads the newest amounts.
 */
export class Buying {
  readonly ledger: Ledger;
  readonly offers: OfferBook;
  /** In the order of the numbers of a problem. */
  readonly suppliers: readonly Supplier[];
  readonly supplierTerms: readonly Cell[];
  readonly items: readonly ItemCells[];
  /** The whole problem as cells, by which `cheapestSuppliers` knows it. */
  readonly problem: readonly Cell[];
  /** Doubts that hold at any number of covers. */
  readonly warnings: readonly Problem[];
  /** Ingredients that somebody has to bring: no offer is valid. */
  readonly unsold: readonly IngredientCells[];
  readonly #currency: string;
  readonly #money = new Map<string, Money>();

  constructor(amounts: Amounts, docs: BuyingDocuments, options: BuyingOptions = {}) {
    const { ledger, service, kitchen } = amounts;
    const { formula } = amounts.cells;
    this.ledger = ledger;
    this.#currency = kitchen.currency;
    this.offers = new OfferBook(formula, docs, kitchen, service.priceAsOf);
    const wanted = groupByIngredient(amounts.cells.ingredients, docs);
    const sold = wanted.filter(([id]) => this.offers.of(id).length > 0);
    this.unsold = wanted.filter(([id]) => this.offers.of(id).length === 0).flatMap(([, cuts]) => cuts);
    const used = new Set(sold.flatMap(([id]) => this.offers.of(id).map((each) => each.supplier.id)));
    this.suppliers = kitchen.suppliers.flatMap((id) => (used.has(id) ? docs.suppliers.get(id)! : []));
    this.supplierTerms = this.suppliers.flatMap((supplier) => {
      const at = `book:${docs.pointer("suppliers", supplier.id)}`;
      return [
        stated(ledger, `${at}/minimumOrder`, kitchen.currency, Number(supplier.minimumOrder)),
        stated(ledger, `${at}/deliveryCharge`, kitchen.currency, Number(supplier.deliveryCharge)),
      ];
    });
    const problems: Problem[] = [];
    const stock = stockByCut(amounts, docs, options, problems);
    this.items = sold.map(([id, cuts]) => this.#item(id, docs.ingredients.get(id)!.name, cuts, stock));
    this.problem = [
      number(ledger, this.suppliers.length),
      ...this.supplierTerms,
      number(ledger, this.items.length),
      ...this.items.flatMap((item) => item.numbers),
    ];
    this.warnings = [...problems, ...this.offers.warnings];
  }

  /** A price of the book as exact money, read once. */
  money(text: string): Money {
    const known = this.#money.get(text);
    if (known) return known;
    const read = money(text, this.#currency);
    this.#money.set(text, read);
    return read;
  }

  /** The cheapest order for the newest amounts. */
  choose(): OrderChoice {
    return orderOfNumbers(this.problem.map((cell) => this.ledger.value(cell)));
  }

  #item(
    ingredient: string,
    name: string,
    uses: readonly IngredientCells[],
    stock: Map<string, Cell>,
  ): ItemCells {
    const { ledger } = this;
    const cuts = uses.map((use): CutNeed => {
      const path = `calc:/orders/items/${ingredient}/${use.cut === undefined ? "whole" : `cuts/${use.cut}`}`;
      const had = use.cut === undefined ? undefined : stock.get(`${ingredient}/${use.cut}`);
      const ep = had === undefined ? use.ep : ledger.derive(`${path}/net`, "g", shortOf, [use.ep, had]);
      const trim =
        use.ap === use.ep
          ? number(ledger, 1)
          : ledger.derive(`${path}/trim`, "ratio", meanTrim, [use.ep, use.ap]);
      return { cut: use.cut, ep, trim };
    });
    const offers = this.offers.of(ingredient);
    const onHand = stock.get(ingredient) ?? nothing(ledger);
    const placeOf = (offer: OfferCells): number => {
      if (offer.offer.cut === undefined) return -1;
      return cuts.findIndex((need) => need.cut === offer.offer.cut);
    };
    // An offer in a cut that nobody uses serves nothing.
    const fitting = offers.filter((offer) => offer.offer.cut === undefined || placeOf(offer) >= 0);
    const numbers = [
      onHand,
      number(ledger, cuts.length),
      ...cuts.flatMap((need) => [need.ep, need.trim]),
      number(ledger, fitting.length),
      ...fitting.flatMap((each) => {
        const tiers = tierCells(ledger, each);
        const place = this.suppliers.indexOf(each.supplier);
        return [
          number(ledger, place),
          number(ledger, placeOf(each)),
          each.packG,
          number(ledger, tiers.length / 2),
          ...tiers,
        ];
      }),
    ];
    return { ingredient, name, onHand, cuts, offers: fitting, numbers };
  }
}

/** The cell of a small whole number that only says how many or which. */
export function number(ledger: Ledger, value: number): Cell {
  return stated(ledger, `const:/number/${value}`, "", value);
}

/** (from, price) of an offer's tiers, rising. */
export function tierCells(ledger: Ledger, { offer, at, price }: OfferCells): Cell[] {
  return [
    number(ledger, 1),
    price,
    ...offer.breaks.flatMap((each, k) => [
      stated(ledger, `book:${at}/breaks/${k}/fromPacks`, "pack", each.fromPacks),
      stated(ledger, `book:${at}/breaks/${k}/price`, "", Number(each.price)),
    ]),
  ];
}

function groupByIngredient(
  ingredients: readonly IngredientCells[],
  docs: BuyingDocuments,
): [string, IngredientCells[]][] {
  const groups = new Map<string, IngredientCells[]>();
  for (const each of ingredients) {
    if (docs.ingredients.get(each.ingredient)?.free) continue;
    groups.set(each.ingredient, [...(groups.get(each.ingredient) ?? []), each]);
  }
  return [...groups];
}

/** Ingredients on hand that are good until their last use, by ingredient and cut. */
function stockByCut(
  amounts: Amounts,
  docs: BuyingDocuments,
  options: BuyingOptions,
  problems: Problem[],
): Map<string, Cell> {
  const { ledger, service } = amounts;
  const at = docs.pointer("services", service.id);
  const lots = new Map<string, Cell[]>();
  service.stock.forEach((lot, i) => {
    if (!("ingredient" in lot.item) || !docs.ingredients.has(lot.item.ingredient)) return;
    const { ingredient, cut } = lot.item;
    if (lot.useBy < (options.lastUse?.(ingredient) ?? service.at.slice(0, 10))) return;
    const key = cut === undefined ? ingredient : `${ingredient}/${cut}`;
    const matter = amounts.cells.formula.matter(ingredient);
    const path = `calc:/stock/${i}`;
    const g = gramsCell(ledger, path, lot.amount, `${at}/stock/${i}/amount`, matter, problems);
    lots.set(key, [...(lots.get(key) ?? []), g]);
  });
  return new Map(
    [...lots].map(([key, cells]) => [key, ledger.derive(`calc:/stock/of/${key}`, "g", sum, cells)]),
  );
}
