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
