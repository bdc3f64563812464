/**
 * The plain sums of arithmetic by the names a trace cites. Each takes numbers and gives a number; units are the
 * caller's duty. What is particular to a trade stands in the rules of its own room.
 */

/** Sum of any number of terms; 0 for none. */
export function sum(...terms: number[]): number {
  let total = 0;
  for (const term of terms) total += term;
  return total;
}

/** a − b. */
export function minus(a: number, b: number): number {
  return a - b;
}

/** a × b. */
export function times(a: number, b: number): number {
  return a * b;
}

/** a / b; 0 when both are 0 (nothing of nothing). */
export function over(a: number, b: number): number {
  return a === 0 && b === 0 ? 0 : a / b;
}

/** a₁b₁ + a₂b₂ + … of numbers given in pairs; 0 for none. */
export function sumOfProducts(...pairs: number[]): number {
  let total = 0;
  for (let i = 0; i + 1 < pairs.length; i += 2) total += pairs[i]! * pairs[i + 1]!;
  return total;
}

/** The smallest of one or more numbers. */
export function smallest(...numbers: number[]): number {
  return Math.min(...numbers);
}

/** What is left of `needed` when `had` is taken off, never less than nothing. */
export function shortOf(needed: number, had: number): number {
  return Math.max(0, needed - had);
}
