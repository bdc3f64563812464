import { shareOutInteger } from "../numerics/share-out.ts";
import { roundToStep } from "../quantity/steps.ts";

/** Guests left over for the shares of a course: covers less those placed by a choice or a need. */
export function restOfCovers(covers: number, ...placed: number[]): number {
  let rest = covers;
  for (const count of placed) rest -= count;
  return rest;
}

/** The part at `place` (from 0) of `total` guests shared out by weights, by largest remainder. */
export function shareByLargestRemainder(place: number, total: number, ...weights: number[]): number {
  return shareOutInteger(total, weights)[place]!;
}

/** Spare plates of a variant: made for n + 1; none when nobody has it. */
export function spareOfVariant(count: number): number {
  return count > 0 ? 1 : 0;
}

/** Spare plates of a dish as written: those for line check and tasting, when it is served at all. */
export function spareForTasting(count: number, tasting: number): number {
  return count > 0 ? tasting : 0;
}

/** An amount in g as one of the kitchen's scales shows it (see quantity: roundToStep); as it is without a scale. */
export function weighedOn(exactG: number, ...stepsG: number[]): number {
  return exactG > 0 && stepsG.length > 0 ? roundToStep(exactG, stepsG).value : exactG;
}

/**
 * The share of what is made of a preparation that goes on through another: (g taken by what it goes into, the share of that which
 * goes through the other) in pairs. What the store has already does not stray, so it may be more than 1 of what is made.
 */
export function shareThrough(madeG: number, ...parts: number[]): number {
  if (madeG <= 0) return 0;
  let g = 0;
  for (let i = 0; i + 1 < parts.length; i += 2) g += parts[i]! * parts[i + 1]!;
  return g / madeG;
}
