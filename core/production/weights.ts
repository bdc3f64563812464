import type { Service } from "./schema.ts";

/** What makes one plan better than another, each by a plain name; per minute unless said. */
export type WeightName = "slack" | "stale" | "waiting" | "heatUps" | "walking" | "hands" | "peaks" | "breaks";

/**
 * The usual weights (README, P16). They are taste, no source: slack eaten weighs most, then food held beyond its best,
 * then heat-ups, hands and walks, hours that are too full and work left half done.
 */
export const USUAL_WEIGHTS: Readonly<Record<WeightName, number>> = {
  /** A minute of the chosen slack eaten. */
  slack: 20,
  /** A minute held beyond its best, where the preparation says how long that is. */
  stale: 1,
  /** A minute anything waits for its next use: as late as sensible. */
  waiting: 0.02,
  /** A change of an oven's temperature. */
  heatUps: 30,
  /** A minute walked between stations. */
  walking: 2,
  /** A minute of hands more than the fewest hands would take. */
  hands: 0.2,
  /** A minute of hands at work beyond `PEAK_SHARE` of those there, hour by hour. */
  peaks: 0.3,
  /** Work left half done for a break, once. */
  breaks: 3,
};

/**
 * An hour is full when hands work more than this share of the minutes they are there: from there on nothing may slip.
 * Common practice, no source.
 */
export const PEAK_SHARE = 0.75;
/** Minutes of the stretches in which peaks are counted: hours of the clock. */
export const PEAK_MIN = 60;

/** The weights of a service: the chef's where written, else the usual. */
export function weightsFor(service: Pick<Service, "weights">): Readonly<Record<WeightName, number>> {
  const said = Object.entries(service.weights ?? {}).filter(([, weight]) => weight !== undefined);
  return { ...USUAL_WEIGHTS, ...Object.fromEntries(said) };
}
