import { add, compare, type Money, subtract, zero } from "../money/money.ts";
import type { Buying } from "./buying.ts";
import type { OrderChoice } from "./order.ts";
import type { ItemQuestion, OfferAt, OrderQuestion, Slot } from "./question.ts";
import { asSold, metBy, wholeNeed } from "./rules.ts";

/** Packs of one offer in one delivery. */
export interface OrderLine {
  readonly of: ItemQuestion;
  readonly at: OfferAt;
  /** Place of the ingredient in the question, and of the offer in the ingredient. */
  readonly item: number;
  readonly place: number;
  readonly packs: number;
  readonly boughtG: number;
  /** The part of the need this line meets, in what the offer sells (as purchased, or its cut), g. */
  readonly needG: number;
  /** What the stream it belongs to needs (whole goods, one cut, or what stands in), in g of the stream. */
  readonly streamG: number;
  /** Lines before this one that share its need. */
  readonly before: readonly OrderLine[];
  /** Price of one pack at this count, as written. */
  readonly price: string;
  readonly total: Money;
}

/** What one supplier is asked to bring in one delivery. */
export interface DeliveryLines {
  readonly slot: Slot;
  readonly lines: readonly OrderLine[];
  readonly goods: Money;
  readonly charge: Money;
  readonly total: Money;
  /** Missing to the minimum order; zero when met. */
  readonly short: Money;
}

/** The chosen packs as lines by delivery, money exact; what must be ordered first comes first. */
export function orderLines(buying: Buying, question: OrderQuestion, choice: OrderChoice): DeliveryLines[] {
  const { currency } = buying;
  const { clock } = question.when;
  const lines = question.items.flatMap((item, i) => linesOf(item, i, choice.packs[i]!, buying));
  return question.slots
    .flatMap((slot, s): DeliveryLines[] => {
      const mine = lines.filter((line) => line.at.slot === s);
      if (mine.length === 0) return [];
      const goods = mine.reduce((all, line) => add(all, line.total), zero(currency));
      const charge = buying.money(slot.supplier.deliveryCharge);
      const minimum = buying.money(slot.supplier.minimumOrder);
      const short = compare(goods, minimum) < 0 ? subtract(minimum, goods) : zero(currency);
      return [{ slot, lines: mine, goods, charge, total: add(goods, charge), short }];
    })
    .map((order) => ({ order, by: clock.minuteOf(order.slot.delivery.orderBy) }))
    .sort((a, b) => a.by - b.by)
    .map(({ order }) => order);
}

/** What one of the streams of an item shares: whole goods, one cut, or what stands in for it. */
export function streamOf({ offer, instead }: OfferAt): string {
  return instead ? "instead" : `cut ${offer.offer.cut ?? ""}`;
}

/** Lines of one item, larger packs first: those of one stream share its need in turn, cuts before whole goods. */
function linesOf(of: ItemQuestion, item: number, packs: readonly number[], buying: Buying): OrderLine[] {
  const { ledger } = buying;
  const rank = ({ offer, instead }: OfferAt) => (instead ? 2 : offer.offer.cut === undefined ? 1 : 0);
  const taken = of.offers
    .map((at, place) => ({ at, place, count: packs[place]!, packG: ledger.value(at.offer.packG) }))
    .filter((each) => each.count > 0)
    .sort((a, b) => rank(a.at) - rank(b.at) || b.packG - a.packG || a.place - b.place);
  const lines: OrderLine[] = [];
  for (const { at, place, count, packG } of taken) {
    const { cut, breaks } = at.offer.offer;
    const stream = streamOf(at);
    const before = lines.filter((line) => streamOf(line.at) === stream);
    const boughtG = count * packG;
    const streamG = at.instead
      ? restOfWhole(of, lines)
      : cut === undefined
        ? wholeNeed(...wholeNeeds(of, lines))
        : cutNeed(of, cut);
    const inStream = at.instead ? count * at.brings : boughtG;
    const brought = before.reduce((all, line) => all + broughtBy(line), 0);
    const met = metBy(inStream, streamG, brought);
    const price = breaks.reduce(
      (last, tier) => (count >= tier.fromPacks ? tier.price : last),
      at.offer.offer.price,
    );
    const each = buying.money(price);
    const total = { ...each, digits: each.digits * BigInt(count) };
    lines.push({
      ...{ of, at, item, place, packs: count, boughtG, before, price, total, streamG },
      needG: at.instead ? asSold(met, packG, at.brings) : met,
    });
  }
  return lines;
}

/** What a line brings to its stream, in the grams of the stream. */
export function broughtBy(line: OrderLine): number {
  return line.at.instead ? line.packs * line.at.brings : line.boughtG;
}

/** Still to be bought in a cut, g EP, over all times. */
export function cutNeed({ needs }: ItemQuestion, cut: string | undefined): number {
  return needs.reduce((sum, need) => (need.of.cut === cut ? sum + need.netG : sum), 0);
}

/** As purchased whole, for all needs in a cut. */
export function cutWhole({ needs }: ItemQuestion, cut: string | undefined): number {
  return needs.reduce((sum, need) => (need.of.cut === cut ? sum + need.wholeG : sum), 0);
}

/** (EP need, bought of the cut, trim) by cut, as `wholeNeed` takes them. */
export function wholeNeeds(of: ItemQuestion, lines: readonly OrderLine[]): number[] {
  return cutsOf(of).flatMap((cut) => {
    const bought = lines
      .filter((line) => !line.at.instead && cut !== undefined && line.at.offer.offer.cut === cut)
      .reduce((sum, line) => sum + line.boughtG, 0);
    const ep = cutNeed(of, cut);
    return [ep, bought, ep / cutWhole(of, cut)];
  });
}

/** The cuts in which something is to be bought. */
export function cutsOf({ needs }: ItemQuestion): (string | undefined)[] {
  return [...new Set(needs.map((need) => need.of.cut))];
}

/** What whole goods leave open for what stands in, g as purchased. */
function restOfWhole(of: ItemQuestion, lines: readonly OrderLine[]): number {
  const whole = lines.filter((line) => !line.at.instead && line.at.offer.offer.cut === undefined);
  const bought = whole.reduce((sum, line) => sum + line.boughtG, 0);
  return Math.max(0, wholeNeed(...wholeNeeds(of, lines)) - bought);
}
