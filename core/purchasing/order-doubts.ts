import { toDecimalString } from "../money/money.ts";
import type { Problem } from "../pantry/refusal.ts";
import type { Amounts } from "../production/amounts.ts";
import { dayName } from "../production/clock.ts";
import type { Buying } from "./buying.ts";
import { deliveryFor } from "./delivery.ts";
import type { BuyingDocuments } from "./documents.ts";
import type { DeliveryLines } from "./order-lines.ts";
import { type OrderRun, PROVED } from "./order-run.ts";
import type { ItemQuestion } from "./question.ts";

/** What a chef should know about the orders, each with its mend. */
export function ordersDoubts(
  buying: Buying,
  amounts: Amounts,
  docs: BuyingDocuments,
  run: OrderRun,
): Problem[] {
  const { currency } = amounts.kitchen;
  const gap = run.value - run.bound;
  return [
    ...missing(buying, amounts, docs, run),
    ...(gap < PROVED
      ? []
      : [
          {
            path: docs.pointer("kitchens", amounts.kitchen.id),
            what: `the orders are not proven cheapest: others may cost up to ${gap.toFixed(2)} ${currency} less`,
            mend: "look at the suppliers whose order is under or near its minimum",
          },
        ]),
    ...run.orders.flatMap((order) => doubtsOf(order, docs, currency, run)),
  ];
}

function doubtsOf(
  { slot, lines, short }: DeliveryLines,
  docs: BuyingDocuments,
  currency: string,
  { question }: OrderRun,
): Problem[] {
  const { supplier, delivery } = slot;
  const found: Problem[] = [];
  if (short.digits > 0n)
    found.push({
      path: `${docs.pointer("suppliers", supplier.id)}/minimumOrder`,
      what: `the order from ${supplier.name} is ${toDecimalString(short)} ${currency} under its minimum`,
      mend: "add goods that keep, or agree it with the supplier",
    });
  // With a plan what would not keep is not ordered; without one nobody knows when it is used.
  if (question.when.spanOf) return found;
  for (const { of, at } of lines) {
    const { storage, id, name } = at.instead?.ingredient ?? of.item.ingredient;
    if (-delivery.day > storage.days)
      found.push({
        path: `${docs.pointer("ingredients", id)}/storage`,
        what: `${name} comes ${-delivery.day} days before the service and keeps ${storage.days}`,
        mend: "use it in time, or find a supplier with a later delivery",
      });
  }
  return found;
}

/** Ingredients that nobody sells, or not in a form or at a time in which they can be used. */
function missing(buying: Buying, amounts: Amounts, docs: BuyingDocuments, run: OrderRun): Problem[] {
  const { ledger } = buying;
  const { kitchen, service } = amounts;
  const notSold = buying.unsold.filter((each) => ledger.value(each.ap) > 0).map((each) => each.ingredient);
  const late = run.question.items.filter((one) => one.unserved.length > 0 && sellable(one));
  const notFit = run.question.items.filter((one) => one.unserved.length > 0 && !sellable(one));
  const notCovered = run.choice.uncovered.map((i) => run.question.items[i]!);
  const none = [...notSold, ...[...notFit, ...notCovered].map((one) => one.item.ingredient.id)];
  return [
    ...[...new Set(none)].map((id) => ({
      path: docs.pointer("ingredients", id),
      what: `no supplier of ${kitchen.name} offers ${docs.ingredients.get(id)!.name} on ${service.priceAsOf}: it is neither ordered nor paid for`,
      mend: "add an offer, or mark the ingredient as free",
    })),
    ...late.map((one) => tooEarly(one, docs, run)),
  ];
}

/** Whether an offer would serve the needs if only it came at the right time. */
function sellable({ item, unserved }: ItemQuestion): boolean {
  return unserved.every((need) =>
    item.offers.some(({ offer }) => offer.cut === undefined || offer.cut === need.of.cut),
  );
}

function tooEarly({ item, unserved }: ItemQuestion, docs: BuyingDocuments, { question }: OrderRun): Problem {
  const { ingredient } = item;
  const { clock } = question.when;
  const [need] = unserved;
  const moment = clock.textOf(need!.firstMin);
  const comes = item.offers
    .flatMap(({ supplier }) => deliveryFor(supplier, moment, clock) ?? [])
    .sort((a, b) => b.day - a.day)[0];
  const last = need!.last && need!.last.day !== comes?.day ? `, used until ${dayName(need!.last.day)}` : "";
  return {
    path: `${docs.pointer("ingredients", ingredient.id)}/storage`,
    what: comes
      ? `${ingredient.name} is needed at ${moment}${last}; its last delivery before that comes ${comes.deliver} and it keeps ${ingredient.storage.days} days: it is neither ordered nor paid for`
      : `no delivery of ${ingredient.name} comes before it is needed at ${moment}: it is neither ordered nor paid for`,
    mend: "find a supplier with a later delivery, use it sooner, or name what may stand in for it",
  };
}
