/** One part of what a yield test cuts from a piece: its mass and what it is worth a kilogram. */
export interface TrimPart {
  readonly name: string;
  readonly kg: number;
  /** In the currency of the price; 0 for what is thrown away. */
  readonly valuePerKg: number;
}

export interface YieldTest {
  /** Usable mass over mass as purchased. */
  readonly trimYield: number;
  /** Lost in cutting: what the parts and the usable mass do not account for, kg. */
  readonly lostKg: number;
  /** (cost as purchased − value of the usable trim) / usable mass. */
  readonly usablePerKg: number;
  /** usablePerKg / price as purchased: what a changed price is multiplied with. */
  readonly costFactor: number;
  /** Share of what is bought that is used elsewhere, and its mean value a kilogram, as an ingredient's cut has it. */
  readonly usableTrim: { readonly share: number; readonly valuePerKg: number } | undefined;
}

/**
 * A yield test (butcher's test): what a kilogram of the main part costs when the other parts are credited at
 * their own value.
 * @param apKg as purchased. @param perKg price as purchased. @param usableKg the part the test is for.
 * @throws RangeError when masses are not positive or the parts outweigh the whole.
 */
export function yieldTest(
  apKg: number,
  perKg: number,
  usableKg: number,
  parts: readonly TrimPart[],
): YieldTest {
  if (!(apKg > 0) || !(usableKg > 0))
    throw new RangeError("a yield test needs a mass bought and a usable mass");
  const partsKg = parts.reduce((total, part) => total + part.kg, 0);
  const lostKg = apKg - usableKg - partsKg;
  if (lostKg < -1e-9 * apKg)
    throw new RangeError(`the parts weigh ${usableKg + partsKg} kg, more than the ${apKg} kg bought`);
  const worth = parts.filter((part) => part.valuePerKg > 0);
  const value = worth.reduce((total, part) => total + part.kg * part.valuePerKg, 0);
  const worthKg = worth.reduce((total, part) => total + part.kg, 0);
  const usablePerKg = Math.max(0, apKg * perKg - value) / usableKg;
  return {
    trimYield: usableKg / apKg,
    lostKg: Math.max(0, lostKg),
    usablePerKg,
    costFactor: usablePerKg / perKg,
    usableTrim: worthKg > 0 ? { share: worthKg / apKg, valuePerKg: value / worthKg } : undefined,
  };
}
