import { add, compare, type Money, subtract, zero } from "../money/money.ts";
import type { Buying, ItemCells } from "./buying.ts";
import type { OfferCells } from "./offers.ts";
import type { OrderChoice } from "./order.ts";
import { metBy, wholeNeed } from "./rules.ts";
import type { Supplier } from "./schema.ts";

/** Packs of one offer. */
export interface OrderLine {
  readonly item: ItemCells;
  readonly offer: OfferCells;
  /** Place of the offer in its item. */
  readonly place: number;
  readonly packs: number;
  readonly boughtG: number;
  /** The part of the need this line meets, in what the offer sells (as purchased, or its cut), g. */
  readonly needG: number;
  /** Lines before this one that share its need: the same ingredient in the same cut, or whole. */
  readonly before: readonly OrderLine[];
  /** Price of one pack at this count, as written. */
  readonly price: string;
  readonly total: Money;
}

/** What one supplier is asked for. */
export interface SupplierLines {
  readonly supplier: Supplier;
  /** Place of the supplier in the problem. */
  readonly place: number;
  readonly lines: readonly OrderLine[];
  readonly goods: Money;
  readonly charge: Money;
  readonly total: Money;
  /** Missing to the minimum order; zero when met. */
  readonly short: Money;
}

/** The chosen packs as lines by supplier, money exact. */
export function orderLines(buying: Buying, choice: OrderChoice, currency: string): SupplierLines[] {
  const lines = buying.items.flatMap((item, i) => linesOf(item, choice.packs[i]!, buying));
  return buying.suppliers.flatMap((supplier, place): SupplierLines[] => {
    const mine = lines.filter((line) => line.offer.supplier === supplier);
    if (mine.length === 0) return [];
    const goods = mine.reduce((all, line) => add(all, line.total), zero(currency));
    const charge = buying.money(supplier.deliveryCharge);
    const minimum = buying.money(supplier.minimumOrder);
    const short = compare(goods, minimum) < 0 ? subtract(minimum, goods) : zero(currency);
    return [{ supplier, place, lines: mine, goods, charge, total: add(goods, charge), short }];
  });
}

/** Lines of one item, larger packs first: those of one stream (whole, or one cut) share its need in turn. */
function linesOf(item: ItemCells, packs: readonly number[], buying: Buying): OrderLine[] {
  const { ledger } = buying;
  const taken = item.offers
    .map((offer, place) => ({ offer, place, count: packs[place]!, packG: ledger.value(offer.packG) }))
    .filter((each) => each.count > 0)
    .sort((a, b) => b.packG - a.packG || a.place - b.place);
  const boughtOf = (cut: string) =>
    taken
      .filter(({ offer }) => offer.offer.cut === cut)
      .reduce((all, { count, packG }) => all + count * packG, 0);
  const lines: OrderLine[] = [];
  for (const { offer, place, count, packG } of taken) {
    const { cut, breaks } = offer.offer;
    const need =
      cut === undefined
        ? wholeNeed(
            ledger.value(item.onHand),
            ...item.cuts.flatMap(({ cut: of, ep, trim }) => [
              ledger.value(ep),
              of === undefined ? 0 : boughtOf(of),
              ledger.value(trim),
            ]),
          )
        : ledger.value(item.cuts.find((each) => each.cut === cut)!.ep);
    const before = lines.filter((line) => line.offer.offer.cut === cut);
    const brought = before.reduce((all, line) => all + line.boughtG, 0);
    const boughtG = count * packG;
    const price = breaks.reduce(
      (last, tier) => (count >= tier.fromPacks ? tier.price : last),
      offer.offer.price,
    );
    const each = buying.money(price);
    const total = { ...each, digits: each.digits * BigInt(count) };
    lines.push({
      ...{ item, offer, place, packs: count, boughtG, before, price, total },
      needG: metBy(boughtG, need, brought),
    });
  }
  return lines;
}
