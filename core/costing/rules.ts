import { divideRounded, type Rounding } from "../numerics/round.ts";

/**
 * Sums of costing. Money in the kitchen's currency, by gram unless named otherwise.
 */

/** Price of a usable gram when goods are trimmed here: price by gram as purchased / trim yield. */
export function usablePrice(perG: number, trimYield: number): number {
  return perG / trimYield;
}

/**
 * The same when part of the trim is used elsewhere and credited (yield test): (cost as purchased − value of the
 * usable trim) / edible portion, for one gram as purchased; never less than nothing.
 */
export function usablePriceWithTrim(
  perG: number,
  trimYield: number,
  trimShare: number,
  trimPerKg: number,
): number {
  return Math.max(0, perG - (trimShare * trimPerKg) / 1000) / trimYield;
}

/** Cost by gram of a preparation: (grams, price by gram) of its lines in pairs, over its yield. */
export function preparedPrice(yieldG: number, ...pairs: number[]): number {
  let cost = 0;
  for (let i = 0; i + 1 < pairs.length; i += 2) cost += pairs[i]! * pairs[i + 1]!;
  return cost / yieldG;
}

/** Price of a kilogram from the price of a gram. */
export function perKilogram(perG: number): number {
  return perG * 1000;
}

/** The part of a cost that goes with every cover, as a share of the plates' cost. */
export function surroundByRatio(plates: number, ratio: number): number {
  return plates * ratio;
}

/** The mean of what an hour costs over those who can do the work. */
export function meanRate(...rates: number[]): number {
  let total = 0;
  for (const rate of rates) total += rate;
  return total / rates.length;
}

/** What hands cost: elapsed minutes × hands × what an hour of one pair costs. */
export function wageOf(minutes: number, hands: number, perHour: number): number {
  return (minutes * hands * perHour) / 60;
}

/** What hands cost over spans of time: (end, start, what an hour costs), all in minutes, one after another. */
export function wagesOfSpans(...spans: number[]): number {
  let total = 0;
  for (let i = 0; i + 2 < spans.length; i += 3) total += ((spans[i]! - spans[i + 1]!) * spans[i + 2]!) / 60;
  return total;
}

/** A price at which `cost` is the wanted share, before tax and service charge: cost / share. */
export function priceAtShare(cost: number, share: number): number {
  return cost / share;
}

/** A price with a charge on it: × (1 + ratio). */
export function withCharge(price: number, ratio: number): number {
  return price * (1 + ratio);
}

/** A printed price without the charges in it: / (1 + tax) / (1 + service charge). */
export function withoutCharges(printed: number, tax: number, service: number): number {
  return printed / (1 + tax) / (1 + service);
}

/** Prices are compared as decimals of so many places: a sum of doubles must not push a price a step up. */
const PRICE_PLACES = 9;

function onPriceStep(price: number, step: number, rounding: Rounding): number {
  const exact = BigInt(Math.round(price * 10 ** PRICE_PLACES));
  const unit = BigInt(Math.round(step * 10 ** PRICE_PLACES));
  return Number((Number(divideRounded(exact, unit, rounding)) * step).toPrecision(15));
}

/** The least multiple of `step` that is not below the price: the wanted share is kept. */
export function priceUp(price: number, step: number): number {
  return onPriceStep(price, step, "ceiling");
}

/** The multiple of `step` nearest to the price, halves up. */
export function priceNearest(price: number, step: number): number {
  return onPriceStep(price, step, "half-up");
}

/** The greatest multiple of `step` that is not above the price. */
export function priceDown(price: number, step: number): number {
  return onPriceStep(price, step, "floor");
}

/** A price that rises by a share of itself. */
export function raisedBy(value: number, share: number): number {
  return value * (1 + share);
}

/** How a menu moves in percent for one percent of what was changed: (change / menu) / share of the change. */
export function elasticity(change: number, menu: number, by: number): number {
  return menu === 0 ? 0 : change / menu / by;
}
