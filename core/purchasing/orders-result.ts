import type { Tracer } from "../ledger/tracer.ts";
import { add, toDecimalString, zero } from "../money/money.ts";
import type { Problem } from "../pantry/refusal.ts";
import type { Amounts } from "../production/amounts.ts";
import type { Clock } from "../production/clock.ts";
import { writeAmount } from "../quantity/write.ts";
import type { Buying } from "./buying.ts";
import { type Delivery, deliveryFor } from "./delivery.ts";
import type { BuyingDocuments } from "./documents.ts";
import type { OfferCells } from "./offers.ts";
import type { OrderChoice } from "./order.ts";
import { type OrderLine, orderLines, type SupplierLines } from "./order-lines.ts";
import { noteOrders } from "./order-trace.ts";
import { leftoverValue, MILLION } from "./rules.ts";
import type { Offer } from "./schema.ts";

export interface OrdersOptions {
  readonly clock: Clock;
  /** Moment of the first use of an ingredient, "D-2 07:30"; the horizon of the service if not known. */
  readonly firstNeed?: ((ingredient: string) => string | undefined) | undefined;
}

/** What the orders come to beside the lines: for the cost, the summary and the doubts. */
export interface OrdersOutcome {
  /** Goods and charges of all suppliers, as a decimal in the kitchen's currency. */
  readonly total: string;
  /** Goods beyond the need, valued at the price paid (trace: `LEFTOVER`). */
  readonly leftover: number;
  /** How far the choice may be above the cheapest; 0 when proven best. */
  readonly gap: number;
  readonly warnings: readonly Problem[];
}

/** `orders` of the result for the newest amounts. */
export function ordersResult(
  buying: Buying,
  amounts: Amounts,
  docs: BuyingDocuments,
  options: OrdersOptions,
  tracer?: Tracer,
) {
  const { currency } = amounts.kitchen;
  const { ledger } = buying;
  const choice = buying.choose();
  const orders = orderLines(buying, choice, currency);
  const lines = orders.flatMap((order) => order.lines);
  const left = leftoverValue(
    ...lines.flatMap((line) => [
      line.boughtG,
      line.needG,
      Number(line.price),
      ledger.value(line.offer.packG),
    ]),
  );
  if (tracer) noteOrders(tracer, buying, choice, orders, currency, left);
  const gap = (choice.total - choice.bound) / MILLION;
  const warnings = [...buying.warnings, ...missing(buying, amounts, docs, choice)];
  if (gap > 0)
    warnings.push({
      path: docs.pointer("kitchens", amounts.kitchen.id),
      what: `the orders are not proven cheapest: others may cost up to ${gap.toFixed(2)} ${currency} less`,
      mend: "look at the suppliers whose order is under or near its minimum",
    });
  const result = orders.map((order) => {
    const delivery = firstDelivery(order, amounts, options);
    warnings.push(...doubts(order, delivery, docs, currency));
    return {
      supplier: order.supplier.id,
      name: order.supplier.name,
      orderBy: delivery?.orderBy ?? "",
      deliver: delivery?.deliver ?? "",
      lines: order.lines.map(lineResult),
      charge: order.supplier.deliveryCharge,
      goods: toDecimalString(order.goods),
      total: toDecimalString(order.total),
      belowMinimum: order.short.digits === 0n ? "0" : toDecimalString(order.short),
    };
  });
  const total = orders.reduce((all, order) => add(all, order.total), zero(currency));
  const outcome: OrdersOutcome = { total: toDecimalString(total), leftover: left, gap, warnings };
  return { orders: result, outcome };
}

function lineResult(line: OrderLine) {
  const { item, offer } = line;
  return {
    offer: offer.offer.id,
    ingredient: item.ingredient,
    name: offer.offer.cut === undefined ? item.name : `${item.name}, ${offer.offer.cut}`,
    packs: line.packs,
    pack: packText(offer),
    need: { value: line.needG, unit: "g" },
    bought: { value: line.boughtG, unit: "g" },
    price: line.price,
    total: toDecimalString(line.total),
  };
}

/** "5 kg", "6 × 1 L", "12 pieces": written once for an offer. */
function packText({ offer }: OfferCells): string {
  const known = written.get(offer);
  if (known !== undefined) return known;
  const { text } = writeAmount(offer.inner, { system: "given" });
  const inner = offer.inner.unit === "piece" ? `${text} ${text === "1" ? "piece" : "pieces"}` : text;
  const pack = offer.innerPerPack === 1 ? inner : `${offer.innerPerPack} × ${inner}`;
  written.set(offer, pack);
  return pack;
}

const written = new WeakMap<Offer, string>();

/** One delivery a supplier: the last that is there when the first of its goods is needed. */
function firstDelivery(order: SupplierLines, amounts: Amounts, options: OrdersOptions): Delivery | undefined {
  const { clock, firstNeed } = options;
  const moments = order.lines.map((line) => firstNeed?.(line.item.ingredient) ?? amounts.service.horizon);
  const first = moments.reduce((a, b) => (clock.minuteOf(b) < clock.minuteOf(a) ? b : a));
  return deliveryFor(order.supplier, first, clock);
}

function doubts(
  order: SupplierLines,
  delivery: Delivery | undefined,
  docs: BuyingDocuments,
  currency: string,
): Problem[] {
  const { supplier } = order;
  const at = docs.pointer("suppliers", supplier.id);
  const found: Problem[] = [];
  if (order.short.digits > 0n)
    found.push({
      path: `${at}/minimumOrder`,
      what: `the order from ${supplier.name} is ${toDecimalString(order.short)} ${currency} under its minimum`,
      mend: "add goods that keep, or agree it with the supplier",
    });
  if (!delivery)
    return [
      ...found,
      { path: `${at}/deliveryDays`, what: "no delivery comes in time", mend: "give the days it delivers" },
    ];
  for (const { item } of order.lines) {
    const { storage } = docs.ingredients.get(item.ingredient)!;
    if (-delivery.day > storage.days)
      found.push({
        path: `${docs.pointer("ingredients", item.ingredient)}/storage`,
        what: `${item.name} comes ${-delivery.day} days before the service and keeps ${storage.days}`,
        mend: "use it in time, or find a supplier with a later delivery",
      });
  }
  return found;
}

/** Ingredients that nobody sells, or not in a form that can be used. */
function missing(buying: Buying, amounts: Amounts, docs: BuyingDocuments, choice: OrderChoice): Problem[] {
  const { ledger } = buying;
  const notSold = buying.unsold.filter((each) => ledger.value(each.ap) > 0).map((each) => each.ingredient);
  const notCovered = choice.uncovered.map((i) => buying.items[i]!.ingredient);
  return [...new Set([...notSold, ...notCovered])].map((id) => ({
    path: docs.pointer("ingredients", id),
    what: `no supplier of ${amounts.kitchen.name} offers ${docs.ingredients.get(id)!.name} on ${amounts.service.priceAsOf}: it is neither ordered nor paid for`,
    mend: "add an offer, or mark the ingredient as free",
  }));
}
