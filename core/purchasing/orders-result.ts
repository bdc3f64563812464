import type { Tracer } from "../ledger/tracer.ts";
import { add, toDecimalString, zero } from "../money/money.ts";
import type { Problem } from "../pantry/refusal.ts";
import type { Amounts } from "../production/amounts.ts";
import type { Clock } from "../production/clock.ts";
import type { UseSpan } from "../production/first-needs.ts";
import { writeAmount } from "../quantity/write.ts";
import { type Alternative, alternativesOf } from "./alternatives.ts";
import type { Buying } from "./buying.ts";
import type { BuyingDocuments } from "./documents.ts";
import type { MixedInteger } from "./mixed-integer.ts";
import type { OfferCells } from "./offers.ts";
import { ordersDoubts } from "./order-doubts.ts";
import type { OrderLine } from "./order-lines.ts";
import { type Left, type OrderRun, PROVED, runOrders } from "./order-run.ts";
import { noteOrders, type OrderedAgain } from "./order-trace.ts";
import { leftoverValue, MILLION } from "./rules.ts";
import type { Offer } from "./schema.ts";
import type { When } from "./timed-needs.ts";
import { type WhySoMuch, whySoMuch } from "./why-so-much.ts";

export interface OrdersOptions {
  readonly clock: Clock;
  /** When a use takes its ingredients; before there is a plan everything is needed at the horizon. */
  readonly spanOf?: ((use: string) => UseSpan | undefined) | undefined;
  readonly solver?: MixedInteger | undefined;
  /** Also works out what other chances of having enough would cost, where something is known to vary. */
  readonly surer?: boolean | undefined;
}

/** What the orders come to beside the lines: for the cost, the summary and the doubts. */
export interface OrdersOutcome {
  /** Goods and charges of all suppliers, as a decimal in the kitchen's currency. */
  readonly total: string;
  /** Goods beyond the need, valued at the price paid (trace: `LEFTOVER`). */
  readonly leftover: number;
  readonly warnings: readonly Problem[];
  readonly run: OrderRun;
}

/** Chances of having enough that are told beside the one wanted. */
const CHANCES = [0.9, 0.95, 0.99];

/** `orders` and `ordering` of the result for the newest amounts. */
export function ordersResult(
  buying: Buying,
  amounts: Amounts,
  docs: BuyingDocuments,
  options: OrdersOptions,
  tracer?: Tracer,
) {
  const { currency } = amounts.kitchen;
  const { ledger } = buying;
  const when = whenOf(amounts, options);
  const run = runOrders(buying, when, options.solver);
  const { orders, lines } = run;
  const left = leftoverValue(
    ...lines.flatMap((line) => [
      line.boughtG,
      line.needG,
      Number(line.price),
      ledger.value(line.at.offer.packG),
    ]),
  );
  const varies = knownToVary(buying);
  const surer =
    options.surer && varies
      ? [...new Set([...CHANCES, when.chance])]
          .sort((a, b) => a - b)
          .map((chance) => {
            const at = chance === when.chance ? run : runOrders(buying, { ...when, chance }, options.solver);
            return { chance, total: totalOf(at, currency), proved: provedOf(at) };
          })
      : [];
  const result = orders.map(({ slot, ...order }) => ({
    supplier: slot.supplier.id,
    name: slot.supplier.name,
    orderBy: slot.delivery.orderBy,
    deliver: slot.delivery.deliver,
    lines: order.lines.map((line) =>
      lineResult(line, run, whySoMuch(line, ledger.value(buying.worth), when.chance)),
    ),
    charge: slot.supplier.deliveryCharge,
    goods: toDecimalString(order.goods),
    total: toDecimalString(order.total),
    belowMinimum: order.short.digits === 0n ? "0" : toDecimalString(order.short),
  }));
  const ordering = {
    value: run.value,
    bound: run.bound,
    gap: run.value - run.bound,
    proved: provedOf(run),
    chance: when.chance,
    varies,
    surer,
    worthShare: ledger.value(buying.worth),
    keepsDays: buying.keepsDays,
    left: run.left.filter((each) => each.g > LEAST_LEFT_G || each.worth > 0).map(leftResult),
  };
  if (tracer) noteOrders(tracer, { buying, run, docs, amounts, result, ordering, leftover: left });
  const outcome: OrdersOutcome = {
    ...{ total: totalOf(run, currency), leftover: left, run },
    warnings: [...buying.warnings, ...ordersDoubts(buying, amounts, docs, run)],
  };
  return { orders: result, ordering, outcome };
}

/** Puts the same question and answers it anew, for replaying a trace (`orderedRules`). */
export function orderedAgain(buying: Buying, amounts: Amounts, options: OrdersOptions): OrderedAgain {
  const when = whenOf(amounts, options);
  const run = runOrders(buying, when, options.solver);
  return {
    ...{ buying, run },
    others: (line) => otherWays(line, run).map(({ packs, dearer }) => ({ packs, dearer: dearer / MILLION })),
    totalAt: (chance) =>
      Number(totalOf(runOrders(buying, { ...when, chance }, options.solver), buying.currency)),
  };
}

/** Less left over than this, worth nothing, is not told, g. */
const LEAST_LEFT_G = 0.5;

/** When things are needed in this service. */
function whenOf({ service }: Amounts, { clock, spanOf }: OrdersOptions): When {
  return { clock, spanOf, horizon: service.horizon, date: service.at.slice(0, 10), chance: service.chance };
}

/** Whether anything is known to vary: without it the chance wanted adds nothing. */
function knownToVary(buying: Buying): boolean {
  const { ledger } = buying;
  return (
    ledger.value(buying.coversSpread) > 0 ||
    buying.items.some(
      (item) =>
        item.cuts.some(
          (cut) => ledger.value(cut.spread) > 0 || cut.uses.some(({ through }) => through.length > 0),
        ) || item.offers.some((offer) => ledger.value(offer.spread) > 0),
    )
  );
}

const provedOf = (run: OrderRun) => run.value - run.bound < PROVED;

function totalOf({ orders }: OrderRun, currency: string): string {
  return toDecimalString(orders.reduce((all, order) => add(all, order.total), zero(currency)));
}

function leftResult({ of, g, worth }: Left) {
  const { ingredient } = of.item;
  const keeps = of.worthPerG > 0;
  return { ingredient: ingredient.id, name: ingredient.name, amount: { value: g, unit: "g" }, worth, keeps };
}

const g = (value: number) => ({ value, unit: "g" });

function lineResult(line: OrderLine, run: OrderRun, why: WhySoMuch) {
  const { of, at } = line;
  const { offer } = at.offer;
  const others = otherWays(line, run);
  return {
    offer: offer.id,
    ingredient: offer.ingredient,
    name: nameOf(line),
    ...(at.instead
      ? {
          insteadOf: {
            ingredient: of.item.ingredient.id,
            name: of.item.ingredient.name,
            when: at.instead.when,
            ...(at.instead.only ? { lines: at.instead.only.lines } : {}),
          },
        }
      : {}),
    packs: line.packs,
    pack: packText(at.offer),
    ...(offer.catchWeight ? { byWeight: true } : {}),
    need: { value: line.needG, unit: "g" },
    bought: { value: line.boughtG, unit: "g" },
    price: line.price,
    total: toDecimalString(line.total),
    why: {
      ...{ mean: g(why.meanG), surer: g(why.surerG), store: g(why.storeG) },
      ...{ left: why.left, short: why.short },
      ...(why.cooking > 0 ? { cooking: why.cooking } : {}),
    },
    alternatives: others.map((other) => ({
      offer: other.at.offer.offer.id,
      supplier: other.at.offer.supplier.name,
      packs: other.packs,
      pack: packText(other.at.offer),
      dearer: other.dearer / MILLION,
    })),
  };
}

/** Other ways to cover what a line is for, the cheapest first. */
function otherWays(line: OrderLine, run: OrderRun): Alternative[] {
  const chosen = run.linesOf[line.item]!;
  const same = ({ at }: Alternative) => chosen.length === 1 && at.offer === line.at.offer;
  return alternativesOf(run.question, run.total, line.item).filter((each) => !same(each));
}

function nameOf({ of, at }: OrderLine): string {
  const { cut } = at.offer.offer;
  const name = at.instead ? at.instead.ingredient.name : of.item.ingredient.name;
  return cut === undefined ? name : `${name}, ${cut}`;
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
