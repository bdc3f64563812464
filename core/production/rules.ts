import { shareOutInteger } from "../numerics/share-out.ts";

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

/** The widest step of the scales that is within 0.5 % of an amount (half a step off at most), else the finest. */
export function scaleStepFor(exactG: number, ...steps: number[]): number {
  let best = Math.min(...steps);
  for (const step of steps) if (step > best && step / 2 <= exactG * 0.005) best = step;
  return best;
}

/** An amount as the scale shows it, to the nearest step; one finer than the step stays as it is. */
export function weighedTo(exactG: number, stepG: number): number {
  return exactG < stepG ? exactG : Math.round(exactG / stepG) * stepG;
}
