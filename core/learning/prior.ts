import type { Source } from "../quantity/schema.ts";
import type { Belief } from "./conjugate.ts";
import type { Stated } from "./figures.ts";

/**
 * For how many measured lots the book's figure counts, by where it comes from. Common practice, no source: a published
 * figure was measured, but elsewhere and often by lighter hands; a remembered one may be of another season; an invented
 * one gives way to the first measurement.
 */
export const PRIOR_LOTS: Readonly<Record<Source["kind"], number>> = {
  measured: 8,
  published: 3,
  memory: 1.5,
  invented: 0.5,
};

/** For how many lots the spread counts that is believed before anything was measured. */
export const SPREAD_LOTS = 4;

/** Scale of what is believed of how far cooks differ, as a share of the spread of one lot. */
export const COOKS_APART = 0.5;

/** What is believed of a figure before it is measured here, on its scale. */
export function priorOf({ value, source, scale, lotSpread }: Stated): Belief {
  return {
    mean: scale.to(value),
    meanCount: PRIOR_LOTS[source],
    spread: lotSpread,
    spreadCount: SPREAD_LOTS,
  };
}
