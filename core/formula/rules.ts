/**
 * Sums of a formula. Masses in g, shares and factors as ratios. What a step loses is said by its own statement
 * (a factor, a discard), never as what the output happens to lack.
 */

/** Mass after a step that keeps `factor` of what went in. */
export function keptByFactor(inG: number, factor: number): number {
  return inG * factor;
}

/** Mass lost in a step that keeps `factor` (≤ 1) of what went in. */
export function lostByFactor(inG: number, factor: number): number {
  return inG * (1 - factor);
}

/** Water taken up in a step that makes `factor` (> 1) of what went in. */
export function takenUpByFactor(inG: number, factor: number): number {
  return inG * (factor - 1);
}

/** What is left of a step's output when shares of it have gone into other steps. */
export function shareLeft(...shares: number[]): number {
  let left = 1;
  for (const share of shares) left -= share;
  // Thirds do not add to one in doubles; a crumb of rounding is no food.
  return left < 1e-9 ? 0 : left;
}

/**
 * Grams of the yield that came through a step: what is left of its output, and of what each taker (share of the output, g that
 * enter the taker, g of the yield that came through it) makes of it.
 */
export function throughStep(outG: number, left: number, ...takers: number[]): number {
  let share = left;
  for (let i = 0; i + 2 < takers.length; i += 3)
    if (takers[i + 1]! > 0) share += (takers[i]! * takers[i + 2]!) / takers[i + 1]!;
  return outG * share;
}

/**
 * Standard deviation of a yield as a ratio of it: of each step (g of the yield that came through it, standard deviation of its
 * factor, the factor), independent of each other.
 */
export function yieldSpread(outG: number, ...steps: number[]): number {
  if (outG <= 0) return 0;
  let variance = 0;
  for (let i = 0; i + 2 < steps.length; i += 3)
    variance += ((steps[i]! / outG) * (steps[i + 1]! / steps[i + 2]!)) ** 2;
  return Math.sqrt(variance);
}

/** Grams of the item counted in cost and orders for a line to taste. */
export function allowedToTaste(yieldG: number, share: number): number {
  return yieldG * share;
}

// How often a quotient that ought to be whole misses it by rounding alone.
const CRUMB = 1e-9;
const up = (quotient: number) => Math.ceil(quotient - CRUMB * Math.max(1, quotient));

/** Whole portions in `grams`. */
export function wholePortions(grams: number, portionG: number): number {
  return Math.floor((grams / portionG) * (1 + CRUMB));
}

/** Whole pieces that hold `grams`. */
export function wholePieces(grams: number, pieceG: number): number {
  return grams > 0 ? up(grams / pieceG) : 0;
}

/** Whole pieces that fit in a batch of at most `mostG`. */
export function piecesWithin(mostG: number, pieceG: number): number {
  return Math.floor((mostG / pieceG) * (1 + CRUMB));
}

/** Batches of at most `most` (g or pieces) that make `amount`. */
export function batchCount(amount: number, most: number): number {
  return amount > 0 ? up(amount / most) : 0;
}

/** Equal batches: one batch of n. */
export function evenBatch(amount: number, n: number): number {
  return n === 0 ? 0 : amount / n;
}

/** Even batches of whole pieces: the larger of the two sizes. */
export function largerBatch(pieces: number, n: number): number {
  return n === 0 ? 0 : Math.ceil(pieces / n);
}

/** Even batches of whole pieces: the smaller of the two sizes. */
export function smallerBatch(pieces: number, n: number): number {
  return n === 0 ? 0 : Math.floor(pieces / n);
}

/** Even batches of whole pieces: how many have the larger size. */
export function largerBatches(pieces: number, n: number): number {
  if (n === 0) return 0;
  const rest = pieces % n;
  return rest === 0 ? n : rest;
}

/** Full batches before the last: how many. */
export function fullBatches(n: number): number {
  return Math.max(0, n - 1);
}

/** The last batch after full ones of `most`. */
export function restBatch(amount: number, n: number, most: number): number {
  return n === 0 ? 0 : amount - (n - 1) * most;
}
