import { chooseOrder, holds, type OrderChoice, type OrderProblem } from "./order.ts";
import { choosePacks, type ItemNeed, type PackOffer, type Tier, tierPrice } from "./packs.ts";

/**
 * Decisions of the order as functions of plain numbers, so that a trace can be replayed. An item is written as
 * [on hand, cuts, (EP need, trim) …, offers, (supplier, cut or −1, pack g, tiers, (from, price) …) …], an order as
 * [suppliers, (minimum, charge) …, items, item …]. Prices are in the currency, as in the book.
 */

/** Prices are compared in millionths, as whole numbers, so that sums of them are exact. */
export const MILLION = 1e6;
const exact = (price: number) => Math.round(price * MILLION);

function reader(numbers: readonly number[], from: number): () => number {
  let at = from;
  return () => numbers[at++]!;
}

function readItem(next: () => number): ItemNeed {
  const times = <T>(make: () => T): T[] => Array.from({ length: next() }, make);
  const onHandG = next();
  const cuts = times(() => ({ epG: next(), trim: next() }));
  const offers = times(
    (): PackOffer => ({
      supplier: next(),
      cut: next(),
      packG: next(),
      tiers: times((): Tier => ({ from: next(), price: exact(next()) })),
    }),
  );
  return { onHandG, cuts, offers };
}

/** Reads and solves an order written as numbers. */
export function orderOfNumbers(numbers: readonly number[]): OrderChoice {
  const next = reader(numbers, 0);
  const times = <T>(make: () => T): T[] => Array.from({ length: next() }, make);
  const suppliers = times(() => ({ minimum: exact(next()), charge: exact(next()) }));
  const problem: OrderProblem = { suppliers, items: times(() => readItem(next)) };
  return chooseOrder(problem);
}

/** The suppliers of the cheapest order, as bits: see `chooseOrder`. */
export function cheapestSuppliers(...order: number[]): number {
  return orderOfNumbers(order).suppliers;
}

/** What the prices of the supplier at `place` are weighted with in the cheapest order: see `chooseOrder`. */
export function supplierWeight(place: number, ...order: number[]): number {
  return orderOfNumbers(order).weights[place]!;
}

/**
 * Packs of the offer at `place` in the cheapest choice for one item, given the suppliers as bits and, for each
 * of `count` suppliers, the weight of its prices; the item follows.
 */
export function cheapestPacks(place: number, suppliers: number, count: number, ...rest: number[]): number {
  const item = readItem(reader(rest, count));
  const choice = choosePacks(
    item,
    (s) => holds(suppliers, s),
    (s) => rest[s]!,
  );
  return choice?.packs[place] ?? 0;
}

/** The mean share left over all uses of a cut; 1 when nothing is used. */
export function meanTrim(epG: number, apG: number): number {
  return apG > 0 ? epG / apG : 1;
}

/** Price of one pack when `packs` are taken, from tiers given as (from, price) pairs, rising. */
export function packPrice(packs: number, ...tiers: number[]): number {
  const pairs = Array.from({ length: tiers.length / 2 }, (_, i) => ({
    from: tiers[2 * i]!,
    price: tiers[2 * i + 1]!,
  }));
  return tierPrice(pairs, packs);
}

/** Grams as purchased still to be bought whole: (EP need, bought of the cut, trim) by cut, less what is on hand. */
export function wholeNeed(onHandG: number, ...cuts: number[]): number {
  let need = -onHandG;
  for (let i = 0; i + 2 < cuts.length; i += 3) need += Math.max(0, cuts[i]! - cuts[i + 1]!) / cuts[i + 2]!;
  return Math.max(0, need);
}

/** The part of a need that this line meets, after what other lines have brought. */
export function metBy(boughtG: number, needG: number, broughtG: number): number {
  return Math.min(boughtG, Math.max(0, needG - broughtG));
}

/** Value of what is bought beyond the need: (bought g, need g, price of a pack, pack g) by line. */
export function leftoverValue(...lines: number[]): number {
  let value = 0;
  for (let i = 0; i + 3 < lines.length; i += 4)
    value += ((lines[i]! - lines[i + 1]!) * lines[i + 2]!) / lines[i + 3]!;
  return value;
}
