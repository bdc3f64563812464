import type { Cell, Ledger } from "../ledger/ledger.ts";
import { nothing, stated } from "../ledger/stated.ts";
import { type Money, money } from "../money/money.ts";
import { findCut, trimCell } from "../pantry/cuts.ts";
import { gramsCell } from "../pantry/grams.ts";
import type { Problem } from "../pantry/refusal.ts";
import type { Ingredient, Substitute } from "../pantry/schema.ts";
import type { Amounts } from "../production/amounts.ts";
import { besideUse, lineUse, plateUse } from "../production/first-needs.ts";
import type { IngredientCells, Through, UseCell } from "../production/needs.ts";
import type { BuyingDocuments } from "./documents.ts";
import { OfferBook, type OfferCells } from "./offers.ts";
import type { Supplier } from "./schema.ts";
import { againstSubstitute, mayStandIn } from "./substitutes.ts";

/** What is left over of goods that keep is worth half its price, counted on for a fortnight (common practice, no source). */
export const USUAL_LEFTOVER = { worth: 0.5, keepsDays: 14 } as const;

/** One use of an ingredient in one cut, and the key under which the plan says when. */
export interface UseOfCut {
  readonly key: string;
  readonly ep: Cell;
  ap(): Cell;
  /** The preparations whose yields stray that it goes through on its way to the plate. */
  readonly through: readonly Through[];
}

/** One cut of an ingredient that is to be bought. */
export interface CutCells {
  readonly cut: string | undefined;
  readonly uses: readonly UseOfCut[];
  /** Standard deviation of the trim yield of one lot; nothing when none is known. */
  readonly spread: Cell;
}

/** Some of an ingredient that is in the store. */
export interface StockLot {
  readonly cut: string | undefined;
  readonly useBy: string;
  readonly g: Cell;
}

/** What the chef lets stand in for an ingredient, as far as nothing speaks against it. */
export interface SubstituteCells {
  readonly ingredient: Ingredient;
  readonly offer: OfferCells;
  /** Share left when it is cut here. */
  readonly trim: Cell;
  /** Grams in place of one gram. */
  readonly factor: Cell;
  readonly when: "missing" | "cheaper";
  /** The lines in which alone it may, as the chef wrote it there; undefined: wherever the food is used. */
  readonly only: LinesAlone | undefined;
}

/** Some lines of preparations, and the keys of what they take. */
export interface LinesAlone {
  readonly lines: readonly { readonly preparation: string; readonly line: string }[];
  readonly uses: ReadonlySet<string>;
  /** Tells what may stand in at one ratio from the same goods at another. */
  readonly mark: string;
}

/** One ingredient to be bought: all its cuts compete for what is bought whole. */
export interface ItemCells {
  readonly ingredient: Ingredient;
  readonly cuts: readonly CutCells[];
  readonly lots: readonly StockLot[];
  readonly offers: readonly OfferCells[];
  readonly substitutes: readonly SubstituteCells[];
}

/** The buying of one service, as far as it is the same at any number of covers. Built once. */
export class Buying {
  readonly ledger: Ledger;
  readonly offers: OfferBook;
  /** Who could be asked, in the order of the kitchen. */
  readonly suppliers: readonly Supplier[];
  readonly items: readonly ItemCells[];
  /** Doubts that hold at any number of covers. */
  readonly warnings: readonly Problem[];
  /** Ingredients that somebody has to bring: no offer is valid, of theirs or of what may stand in. */
  readonly unsold: readonly IngredientCells[];
  readonly currency: string;
  readonly coversSpread: Cell;
  readonly worth: Cell;
  readonly keepsDays: number;
  readonly #money = new Map<string, Money>();
  readonly #docs: BuyingDocuments;
  readonly #ways: ReadonlyMap<string, readonly Through[]>;

  constructor(amounts: Amounts, docs: BuyingDocuments) {
    const { ledger, service, kitchen } = amounts;
    const { formula } = amounts.cells;
    this.ledger = ledger;
    this.#docs = docs;
    this.#ways = new Map(amounts.cells.preparations.map((need) => [need.cells.preparation.id, need.through]));
    this.currency = kitchen.currency;
    this.offers = new OfferBook(formula, docs, kitchen, service.priceAsOf);
    const problems: Problem[] = [];
    const at = `book:${docs.pointer("services", service.id)}`;
    const { coversSpread, leftover } = service;
    this.coversSpread =
      coversSpread === undefined
        ? nothing(ledger)
        : stated(ledger, `${at}/coversSpread`, "ratio", coversSpread);
    this.worth =
      leftover === undefined
        ? stated(ledger, "const:/leftover/worth", "ratio", USUAL_LEFTOVER.worth)
        : stated(ledger, `${at}/leftover/worth`, "ratio", leftover.worth);
    this.keepsDays = (leftover ?? USUAL_LEFTOVER).keepsDays;
    const lots = stockLots(amounts, docs, problems);
    const wanted = groupByIngredient(amounts.cells.ingredients, docs);
    const items = wanted.map(([id, cuts]) => this.#item(docs.ingredients.get(id)!, cuts, lots, problems));
    const sold = (item: ItemCells) => item.offers.length + item.substitutes.length > 0;
    this.items = items.filter(sold);
    this.unsold = wanted.flatMap(([, cuts], i) => (sold(items[i]!) ? [] : cuts));
    const used = new Set(
      this.items.flatMap((item) => [
        ...item.offers.map((each) => each.supplier.id),
        ...item.substitutes.map((each) => each.offer.supplier.id),
      ]),
    );
    this.suppliers = kitchen.suppliers.flatMap((id) => (used.has(id) ? docs.suppliers.get(id)! : []));
    this.warnings = [...problems, ...this.offers.warnings];
  }

  /** A price of the book as exact money, read once. */
  money(text: string): Money {
    const known = this.#money.get(text);
    if (known) return known;
    const read = money(text, this.currency);
    this.#money.set(text, read);
    return read;
  }

  /** Minimum order and delivery charge of a supplier. */
  readonly termsOf = (supplier: Supplier): { readonly minimum: Cell; readonly charge: Cell } => {
    const at = `book:${this.#docs.pointer("suppliers", supplier.id)}`;
    return {
      minimum: stated(this.ledger, `${at}/minimumOrder`, this.currency, Number(supplier.minimumOrder)),
      charge: stated(this.ledger, `${at}/deliveryCharge`, this.currency, Number(supplier.deliveryCharge)),
    };
  };

  #item(
    ingredient: Ingredient,
    uses: readonly IngredientCells[],
    lots: readonly (StockLot & { readonly ingredient: string })[],
    problems: Problem[],
  ): ItemCells {
    const { ledger } = this;
    const at = this.#docs.pointer("ingredients", ingredient.id);
    const cuts = uses.map((use): CutCells => {
      const found = findCut(ingredient, use.cut);
      const spread = found?.cut.spread;
      return {
        cut: use.cut,
        uses: use.uses.map(({ g, ...by }, i) => ({
          key: keyOf(by),
          ep: g,
          ap: () => use.apOf(i),
          through: (by.preparation !== undefined && this.#ways.get(by.preparation)) || [],
        })),
        spread:
          spread === undefined
            ? nothing(ledger)
            : stated(ledger, `book:${at}/cuts/${found!.index}/spread`, "ratio", spread),
      };
    });
    // An offer in a cut that nobody uses serves nothing.
    const fits = ({ offer }: OfferCells) =>
      offer.cut === undefined || cuts.some((need) => need.cut === offer.cut);
    return {
      ingredient,
      cuts,
      lots: lots.filter((lot) => lot.ingredient === ingredient.id),
      offers: this.offers.of(ingredient.id).filter(fits),
      substitutes: [
        ...this.#standIns(ingredient, ingredient.substitutes ?? [], `${at}/substitutes`, problems),
        ...this.#inLines(ingredient, uses, problems),
      ],
    };
  }

  /** What single lines let stand in: the same goods at the same ratio are one, for all lines that say so. */
  #inLines(food: Ingredient, uses: readonly IngredientCells[], problems: Problem[]): SubstituteCells[] {
    const lines = uses.flatMap((use) =>
      use.uses.flatMap(({ preparation, line }) =>
        preparation === undefined || line === undefined ? [] : [{ preparation, line }],
      ),
    );
    const alike = new Map<
      string,
      { readonly one: Substitute; readonly path: string; readonly in: typeof lines }
    >();
    for (const at of lines) {
      const { lines: written } = this.#docs.preparations.get(at.preparation)!;
      const place = written.findIndex(({ id }) => id === at.line);
      const path = `${this.#docs.pointer("preparations", at.preparation)}/lines/${place}/substitutes`;
      written[place]?.substitutes?.forEach((one, i) => {
        const key = [one.ingredient, one.cut, one.factor, one.when].join(" ");
        const known = alike.get(key);
        if (known) known.in.push(at);
        else alike.set(key, { one, path: `${path}/${i}`, in: [at] });
      });
    }
    return [...alike.values()].flatMap(({ one, path, in: where }, k) => {
      const only = {
        lines: where,
        uses: new Set(where.map((at) => lineUse(at.preparation, at.line))),
        mark: `/lines-${k}`,
      };
      return this.#standIn(food, one, path, problems, only);
    });
  }

  #standIns(
    food: Ingredient,
    said: readonly Substitute[],
    at: string,
    problems: Problem[],
  ): SubstituteCells[] {
    return said.flatMap((one, i) => this.#standIn(food, one, `${at}/${i}`, problems, undefined));
  }

  #standIn(
    food: Ingredient,
    { ingredient: id, cut, factor, when }: Substitute,
    path: string,
    problems: Problem[],
    only: LinesAlone | undefined,
  ): SubstituteCells[] {
    const { ledger } = this;
    const one = stated(ledger, "const:/number/1", "", 1);
    const ingredient = this.#docs.ingredients.get(id);
    if (!ingredient || id === food.id) return [];
    const against = againstSubstitute(food, ingredient);
    if (against.length > 0) {
      problems.push({
        path,
        what: `${ingredient.name} never stands in for ${food.name} by itself: ${against.join(", ")}`,
        mend: `write ${ingredient.name} into the preparation, so that every plate is judged with it`,
      });
      return [];
    }
    const trimmed = trimCell(ledger, ingredient, this.#docs.pointer("ingredients", id), cut) ?? one;
    const times = factor === 1 ? one : stated(ledger, `book:${path}/factor`, "ratio", factor);
    return this.offers
      .of(id)
      .filter(({ offer }) => (offer.cut === undefined || offer.cut === cut) && mayStandIn(food, offer))
      .map((offer) => ({
        ...{ ingredient, offer, factor: times, when, only },
        trim: offer.offer.cut === undefined ? trimmed : one,
      }));
  }
}

/** The key under which the plan says when a use takes its ingredients. */
function keyOf({ course, dish, preparation, line, beside }: Omit<UseCell, "g">): string {
  if (beside !== undefined) return besideUse(beside);
  return line === undefined ? plateUse(course!, dish!) : lineUse(preparation!, line);
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

/** Ingredients in the store, those that end first foremost. */
function stockLots(
  amounts: Amounts,
  docs: BuyingDocuments,
  problems: Problem[],
): (StockLot & { readonly ingredient: string })[] {
  const { ledger, service } = amounts;
  const at = docs.pointer("services", service.id);
  return service.stock
    .flatMap((lot, i) => {
      if (!("ingredient" in lot.item) || !docs.ingredients.has(lot.item.ingredient)) return [];
      const { ingredient, cut } = lot.item;
      const matter = amounts.cells.formula.matter(ingredient);
      const path = `calc:/stock/${i}`;
      const g = gramsCell(ledger, path, lot.amount, `${at}/stock/${i}/amount`, matter, problems);
      return [{ ingredient, cut, useBy: lot.useBy, g }];
    })
    .sort((a, b) => (a.useBy < b.useBy ? -1 : a.useBy > b.useBy ? 1 : 0));
}
