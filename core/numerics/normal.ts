/** The standard normal distribution: how likely a value stays below z, and which z is reached with a chance. */

/**
 * Φ(z), the chance that a standard normal value is at most z, by its power series (|z| ≤ 4) or its asymptotic
 * continued fraction beyond; absolute error below 1e-14. Abramowitz and Stegun, 26.2.10 and 26.2.14.
 */
export function normalChance(z: number): number {
  if (z > 0) return 1 - normalChance(-z);
  const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  if (z < -4) {
    let fraction = 0;
    for (let k = 60; k > 0; k--) fraction = k / (-z + fraction);
    return density / (-z + fraction);
  }
  let term = z;
  let sum = z;
  for (let k = 1; Math.abs(term) > 1e-17 * Math.abs(sum); k++) {
    term *= (z * z) / (2 * k + 1);
    sum += term;
  }
  return 0.5 + density * sum;
}

/**
 * The z that is not exceeded with `chance`, by halving [−9, 9] on Φ to the last digit.
 * @param chance above 0 and below 1. @throws RangeError otherwise.
 */
export function normalQuantile(chance: number): number {
  const known = quantiles.get(chance);
  if (known !== undefined) return known;
  if (!(chance > 0 && chance < 1)) throw new RangeError(`${chance} is no chance between 0 and 1`);
  if (quantiles.size >= MOST_KNOWN) quantiles.clear();
  const z = halved(chance);
  quantiles.set(chance, z);
  return z;
}

/** Halving takes sixty series; a service asks for one chance some thousand times. */
const quantiles = new Map<number, number>();
const MOST_KNOWN = 1000;

function halved(chance: number): number {
  let [low, high] = [-9, 9];
  for (let k = 0; k < 60; k++) {
    const middle = (low + high) / 2;
    if (normalChance(middle) < chance) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
