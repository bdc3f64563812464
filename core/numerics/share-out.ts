import { add, fromNumber, type Rational, ZERO } from "./rational.ts";

/**
 * Shares a whole out by weights in whole units, by largest remainder: each part is its exact share rounded
 * down, and the units left go one each to the largest remainders (the earlier of equals first).
 * Parts always add back to `total`; a part never differs from its exact share by a unit or more.
 * A negative total is shared as its opposite.
 *
 * @param weights not negative, at least one above zero unless `total` is 0.
 * @throws RangeError when a weight is negative or all are zero.
 */
export function shareOut(total: bigint, weights: readonly Rational[]): bigint[] {
  if (total < 0n) return shareOut(-total, weights).map((part) => -part);
  weights.forEach((weight, i) => {
    if (weight.n < 0n) throw new RangeError(`weight ${i} is negative`);
  });
  const sum = weights.reduce(add, ZERO);
  if (sum.n === 0n) {
    if (total === 0n) return weights.map(() => 0n);
    throw new RangeError("nothing to share by: every weight is zero");
  }
  const numerators = weights.map((weight) => total * weight.n * sum.d);
  const denominators = weights.map((weight) => weight.d * sum.n);
  const parts = numerators.map((n, i) => n / denominators[i]!);
  let left = total - parts.reduce((a, b) => a + b, 0n);
  const byRemainder = parts
    .map((part, i) => ({ i, n: numerators[i]! - part * denominators[i]!, d: denominators[i]! }))
    .sort((a, b) => {
      const [x, y] = [a.n * b.d, b.n * a.d];
      return x > y ? -1 : x < y ? 1 : a.i - b.i;
    });
  for (const { i } of byRemainder) {
    if (left === 0n) break;
    parts[i] = parts[i]! + 1n;
    left -= 1n;
  }
  return parts;
}

/**
 * As `shareOut` for plain numbers: covers, pieces, packs.
 * @param total a safe integer. @param weights finite; each counts as the decimal it prints as.
 */
export function shareOutInteger(total: number, weights: readonly number[]): number[] {
  if (!Number.isSafeInteger(total)) throw new RangeError(`${total} is no whole number to share out`);
  return shareOut(BigInt(total), weights.map(fromNumber)).map(Number);
}
