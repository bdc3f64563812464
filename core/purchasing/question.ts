import type { Ingredient } from "../pantry/schema.ts";
import type { Buying, ItemCells, SubstituteCells } from "./buying.ts";
import { type Delivery, deliveryFor } from "./delivery.ts";
import type { OfferCells } from "./offers.ts";
import type { OrderProblem } from "./order.ts";
import { CRUMB_G, type ItemNeed, type PackOffer, type Tier } from "./packs.ts";
import { catchShare, leastPacks, MILLION, standsFor, worthPerGram } from "./rules.ts";
import type { Supplier } from "./schema.ts";
import { cutsVary, type TimedNeed, timedNeeds, type When } from "./timed-needs.ts";

/** A delivery that a supplier could make. */
export interface Slot {
  readonly supplier: Supplier;
  readonly delivery: Delivery;
  readonly arrivesMin: number;
}

/** An offer in a delivery, as an answer to the need of one ingredient. */
export interface OfferAt {
  readonly offer: OfferCells;
  /** Place of the delivery. */
  readonly slot: number;
  /** Where the goods stand in for what was asked for. */
  readonly instead: SubstituteCells | undefined;
  /** What one pack covers, g as purchased of what was asked for, with the chance wanted. */
  readonly brings: number;
  /** Share of its nominal weight that is counted on; 1 where its weight does not vary. */
  readonly counted: number;
  /** Packs over which its weight is taken to even out. */
  readonly evens: number;
}

/** One ingredient with its needs in time and all that could cover them. */
export interface ItemQuestion {
  readonly item: ItemCells;
  /** All its needs, those too that the store covers, and those a delivery can serve. */
  readonly all: readonly TimedNeed[];
  readonly needs: readonly TimedNeed[];
  readonly offers: readonly OfferAt[];
  readonly need: ItemNeed;
  /** What a gram left over is worth, in the currency. */
  readonly worthPerG: number;
  /** Needs that no delivery can serve: it comes too late, or would not keep so long. */
  readonly unserved: readonly TimedNeed[];
}

/** What to order, with the documents behind the numbers of the problem. */
export interface OrderQuestion {
  readonly when: When;
  readonly slots: readonly Slot[];
  readonly items: readonly ItemQuestion[];
  readonly problem: OrderProblem;
}

/** Needs are counted in bits of a whole number. */
const LAST_BIT = 29;

const exact = (price: string) => Math.round(Number(price) * MILLION);

/**
 * Puts the question for the newest amounts.
 * @param apart places of items whose packs are counted on one by one, as if each were bought alone.
 */
export function questionOf(
  buying: Buying,
  when: When,
  apart: ReadonlySet<number> = new Set(),
): OrderQuestion {
  const slots = slotsOf(buying, when);
  const arrivals = slots.map((slot) => slot.arrivesMin).sort((a, b) => a - b);
  const sameTime = (minute: number) => {
    let come = 0;
    while (come < arrivals.length && arrivals[come]! <= minute) come++;
    return come;
  };
  const bySupplier = new Map<string, number[]>();
  slots.forEach(({ supplier }, s) => {
    bySupplier.set(supplier.id, [...(bySupplier.get(supplier.id) ?? []), s]);
  });
  const items = buying.items.map((item, i) =>
    itemQuestion(
      buying,
      item,
      timedNeeds(buying, item, when, sameTime),
      slots,
      bySupplier,
      (needs, packG) => (apart.has(i) ? 1 : leastPacks(needs, packG)),
      when.chance,
    ),
  );
  const problem: OrderProblem = {
    slots: slots.map(({ supplier }) => ({
      minimum: exact(supplier.minimumOrder),
      charge: exact(supplier.deliveryCharge),
    })),
    items: items.map((one) => one.need),
  };
  return { when, slots, items, problem };
}

/**
 * Deliveries worth a thought: of each supplier the last before each moment at which something it sells is needed. An
 * earlier one could be put off to one of these: it serves the same needs, fresher.
 */
function slotsOf(buying: Buying, when: When): Slot[] {
  const moments = new Map<string, Set<number>>();
  const horizonMin = when.clock.minuteOf(when.horizon);
  for (const item of buying.items) {
    const firsts = item.cuts.flatMap((cut) =>
      cut.uses.map((use) => when.spanOf?.(use.key)?.first ?? horizonMin),
    );
    const sellers = [...item.offers, ...item.substitutes.map((each) => each.offer)];
    for (const { supplier } of sellers) {
      const known = moments.get(supplier.id) ?? new Set();
      for (const first of firsts) known.add(first);
      moments.set(supplier.id, known);
    }
  }
  return buying.suppliers.flatMap((supplier) => {
    const found = new Map<string, Slot>();
    for (const minute of [...(moments.get(supplier.id) ?? [])].sort((a, b) => a - b)) {
      const delivery = deliveryFor(supplier, when.clock.textOf(minute), when.clock);
      if (!delivery || found.has(delivery.date)) continue;
      found.set(delivery.date, { supplier, delivery, arrivesMin: when.clock.minuteOf(delivery.deliver) });
    }
    return [...found.values()];
  });
}

function itemQuestion(
  buying: Buying,
  item: ItemCells,
  all: readonly TimedNeed[],
  slots: readonly Slot[],
  bySupplier: ReadonlyMap<string, readonly number[]>,
  evensOver: (needG: number, packG: number) => number,
  chance: number,
): ItemQuestion {
  const { ledger } = buying;
  // Whatever is asked for in less than a crumb is there already.
  const needs = all.filter((need) => need.wholeG > CRUMB_G);
  const inTime = (need: TimedNeed, { delivery, arrivesMin }: Slot, goods: Ingredient) =>
    arrivesMin <= need.firstMin &&
    (need.last === undefined || need.last.day - delivery.day <= goods.storage.days);
  const totals = new Map<string | undefined, { ep: number; whole: number }>();
  for (const need of needs) {
    const sum = totals.get(need.of.cut) ?? { ep: 0, whole: 0 };
    totals.set(need.of.cut, { ep: sum.ep + need.netG, whole: sum.whole + need.wholeG });
  }
  const trimOf = (cut: string | undefined) => {
    const sum = totals.get(cut);
    return sum ? sum.ep / sum.whole : 1;
  };
  const offersAt = (offer: OfferCells, brings: number, instead?: SubstituteCells): OfferAt[] =>
    (bySupplier.get(offer.supplier.id) ?? []).map((slot) => ({
      ...{ offer, slot, instead, brings },
      ...{ counted: 1, evens: 1 },
    }));
  const own = item.offers.flatMap((offer) => {
    const { cut } = offer.offer;
    if (cut !== undefined && !totals.has(cut)) return [];
    const packG = ledger.value(offer.packG);
    return offersAt(offer, cut === undefined ? packG : packG / trimOf(cut));
  });
  const serves = ({ offer, slot, instead }: OfferAt, need: TimedNeed) =>
    inTime(need, slots[slot]!, instead?.ingredient ?? item.ingredient) &&
    (instead !== undefined || offer.offer.cut === undefined || offer.offer.cut === need.of.cut);
  const lacking = new Set(needs.filter((need) => !own.some((each) => serves(each, need))));
  const others = item.substitutes.flatMap((each) => {
    // In several cuts the one that asks for the most whole goods is reckoned with.
    const insteadTrim = Math.max(...[...totals.keys()].map(trimOf), 0) || 1;
    const packG = ledger.value(each.offer.packG);
    const brings = standsFor(packG, ledger.value(each.trim), ledger.value(each.factor), insteadTrim);
    return offersAt(each.offer, brings, each);
  });
  const may = (each: OfferAt, need: TimedNeed) =>
    serves(each, need) &&
    (each.instead?.only === undefined || need.allows.has(each.instead.only.mark)) &&
    (each.instead?.when !== "missing" || lacking.has(need));
  const fitting = [...own, ...others].filter((each) => needs.some((need) => may(each, need)));
  const unserved = needs.filter((need) => !fitting.some((each) => may(each, need)));
  const served = needs.filter((need) => !unserved.includes(need));
  const wholeG = served.reduce((sum, each) => sum + each.wholeG, 0);
  const vary = cutsVary(ledger, served);
  const coversSpread = ledger.value(buying.coversSpread);
  const offers = fitting.map((each): OfferAt => {
    const spread = ledger.value(each.offer.spread);
    if (spread === 0) return each;
    const evens = evensOver(wholeG, each.brings);
    const counted = catchShare(chance, coversSpread, spread, evens, ...vary);
    return { ...each, evens, counted, brings: each.brings * counted };
  });
  const keeps = item.ingredient.storage.days >= buying.keepsDays;
  const mine = offers.filter((each) => each.instead === undefined);
  const worthPerG = keeps ? worthOfGram(buying, mine) : 0;
  // Needs past the last bit are one: what serves it must serve them all.
  const grouped = [...served.slice(0, LAST_BIT).map((one) => [one]), served.slice(LAST_BIT)].filter(
    (group) => group.length > 0,
  );
  const need: ItemNeed = {
    needs: grouped.map((group) => group.reduce((sum, each) => sum + each.wholeG, 0)),
    offers: offers.map(
      (each): PackOffer => ({
        ...{ slot: each.slot, brings: each.brings, tiers: tiersOf(each.offer) },
        serves: grouped.reduce(
          (bits, group, k) => (group.every((one) => may(each, one)) ? bits | (1 << k) : bits),
          0,
        ),
      }),
    ),
    worth: worthPerG * MILLION,
    worthMostG: wholeG,
  };
  return { item, all, needs: served, offers, need, worthPerG, unserved };
}

function worthOfGram(buying: Buying, own: readonly OfferAt[]): number {
  const share = buying.ledger.value(buying.worth);
  if (share === 0 || own.length === 0) return 0;
  const grams: number[] = [];
  for (const { offer, brings } of own)
    for (const { price } of tiersOf(offer)) grams.push(price / MILLION, brings);
  return worthPerGram(share, ...grams);
}

const tiers = new WeakMap<OfferCells, readonly Tier[]>();

function tiersOf(cells: OfferCells): readonly Tier[] {
  const known = tiers.get(cells);
  if (known) return known;
  const { offer } = cells;
  const first = { from: 1, price: exact(offer.price) };
  const made = [first, ...offer.breaks.map((each) => ({ from: each.fromPacks, price: exact(each.price) }))];
  // A break from the first pack on is the price.
  const read = made.filter((tier, k) => made[k + 1]?.from !== tier.from);
  tiers.set(cells, read);
  return read;
}
