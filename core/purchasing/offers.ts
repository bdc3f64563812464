import type { FormulaCells } from "../formula/cells.ts";
import type { Cell } from "../ledger/ledger.ts";
import { over, times } from "../ledger/rules.ts";
import { nothing, stated } from "../ledger/stated.ts";
import { gramsCell } from "../pantry/grams.ts";
import type { Problem } from "../pantry/refusal.ts";
import type { Kitchen } from "../production/schema.ts";
import type { BuyingDocuments } from "./documents.ts";
import type { Offer, Supplier } from "./schema.ts";

/** Less than this is no pack, g. */
const LEAST_PACK_G = 1e-3;

/** An offer that holds on a day, with its figures. */
export interface OfferCells {
  readonly supplier: Supplier;
  readonly offer: Offer;
  /** JSON Pointer of the offer in the book. */
  readonly at: string;
  /** One pack, g. */
  readonly packG: Cell;
  /** One pack without any break, in the kitchen's currency. */
  readonly price: Cell;
  /** Standard deviation of one pack's weight, as a ratio; nothing when none is known. */
  readonly spread: Cell;
  /** Price by gram as sold. */
  readonly perG: Cell;
}

/** Offers of a kitchen's suppliers on a day, by ingredient, looked up as they are asked for. */
export class OfferBook {
  /** Offers that cannot be compared, with the mend; they are left out. */
  readonly warnings: Problem[] = [];
  readonly #formula: FormulaCells;
  readonly #currency: string;
  readonly #offers = new Map<string, { supplier: Supplier; offer: Offer; at: string }[]>();
  readonly #made = new Map<string, readonly OfferCells[]>();

  /** @param asOf ISO date on which the prices must hold. */
  constructor(formula: FormulaCells, docs: BuyingDocuments, kitchen: Kitchen, asOf: string) {
    this.#formula = formula;
    this.#currency = kitchen.currency;
    for (const id of kitchen.suppliers) {
      const supplier = docs.suppliers.get(id);
      if (!supplier) continue;
      const supplierAt = docs.pointer("suppliers", id);
      // No rate of exchange is known here: to compare would be to guess.
      if (supplier.currency !== undefined && supplier.currency !== kitchen.currency) {
        this.warnings.push({
          path: `${supplierAt}/currency`,
          what: `${supplier.name} sells in ${supplier.currency}, ${kitchen.name} pays in ${kitchen.currency}: nothing is ordered there`,
          mend: `have its prices in ${kitchen.currency}, or take it off the suppliers of ${kitchen.name}`,
        });
        continue;
      }
      supplier.offers.forEach((offer, i) => {
        if ((offer.from ?? asOf) > asOf || (offer.until ?? asOf) < asOf) return;
        const list = this.#offers.get(offer.ingredient) ?? [];
        list.push({ supplier, offer, at: `${supplierAt}/offers/${i}` });
        this.#offers.set(offer.ingredient, list);
      });
    }
  }

  /** Offers of an ingredient in the order of the kitchen's suppliers. */
  of(ingredient: string): readonly OfferCells[] {
    const known = this.#made.get(ingredient);
    if (known) return known;
    const made = (this.#offers.get(ingredient) ?? []).flatMap((each) => this.#cells(each) ?? []);
    this.#made.set(ingredient, made);
    return made;
  }

  #cells(each: { supplier: Supplier; offer: Offer; at: string }): OfferCells | undefined {
    const { offer, at } = each;
    const { ledger } = this.#formula;
    const path = `calc:/offers/${offer.id}`;
    const problems: Problem[] = [];
    const matter = this.#formula.matter(offer.ingredient);
    const inner = gramsCell(ledger, `${path}/inner`, offer.inner, `${at}/inner`, matter, problems);
    if (problems.length > 0 || !(ledger.value(inner) >= LEAST_PACK_G)) {
      this.warnings.push(
        problems[0] ?? { path: `${at}/inner`, what: "the pack holds nothing", mend: "give what one holds" },
      );
      return undefined;
    }
    const inPack = stated(ledger, `book:${at}/innerPerPack`, "per pack", offer.innerPerPack);
    const packG =
      offer.innerPerPack === 1 ? inner : ledger.derive(`${path}/pack`, "g", times, [inner, inPack]);
    const price = stated(ledger, `book:${at}/price`, this.#currency, Number(offer.price));
    const perG = ledger.derive(`${path}/per-g`, `${this.#currency}/g`, over, [price, packG]);
    const spread =
      offer.catchWeight && offer.weightSpread !== undefined
        ? stated(ledger, `book:${at}/weightSpread`, "ratio", offer.weightSpread)
        : nothing(ledger);
    return { ...each, packG, price, spread, perG };
  }
}
