/** How many numbers there are. */
export function countOf(...numbers: number[]): number {
  return numbers.length;
}

/** Σ (end − start) × hands over triples (end, start, hands), minutes. */
export function sumOfSpans(...triples: number[]): number {
  let total = 0;
  for (let i = 0; i + 2 < triples.length; i += 3) total += (triples[i]! - triples[i + 1]!) * triples[i + 2]!;
  return total;
}

/** The least of later − earlier over pairs (later, earlier), minutes. */
export function leastGap(...pairs: number[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i + 1 < pairs.length; i += 2) least = Math.min(least, pairs[i]! - pairs[i + 1]!);
  return least;
}

/** Holds with less than a tenth left, over pairs (used, most); what is not held at all is no hold. */
export function nearlyUsedUp(...pairs: number[]): number {
  let count = 0;
  for (let i = 0; i + 1 < pairs.length; i += 2) if (pairs[i]! > 0 && pairs[i]! > 0.9 * pairs[i + 1]!) count++;
  return count;
}
