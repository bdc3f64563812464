import { studentQuantile } from "../numerics/student.ts";
import { beliefOf } from "./conjugate.ts";
import { type Fit, fitTo, type Seen } from "./fit.ts";
import { oddnessAt } from "./odd.ts";
import { LOG, LOGIT, type Scale } from "./scale.ts";

/**
 * How learned figures come, as functions of plain numbers, so that their trace can be replayed. `prior` is the belief before
 * anything was measured: mean on the scale, the lots it counts for, spread of one lot, the lots that counts for. `seen` are
 * pairs: a measurement on the scale, and the number of its cook in order of appearance.
 */

/** At most four figures: no kitchen measures closer, and the book stays readable. */
export function rounded(value: number): number {
  return Number(value.toPrecision(4));
}

/** Half of the step of a scale, g: an empty bin weighs less than the scale can show, not nothing. */
const LEAST_TRIM_G = 0.5;

/** EP over AP of one trim. */
export function keptShare(epG: number, apG: number): number {
  return Math.min(epG, apG - Math.min(LEAST_TRIM_G, apG / 2)) / apG;
}

/** Out over in of one cook, before the step takes anything away. */
export function outOverIn(outG: number, inG: number, goesOn: number): number {
  return outG / inG / goesOn;
}

/** What goes on when this share is taken away. */
export function goesOnAfter(discarded: number): number {
  return 1 - discarded;
}

/** A factor of added water as mass out over mass in. */
export function withWater(added: number): number {
  return 1 + added;
}

/** A measured value as seen from the figure measuring starts from, told in terms of the present one. */
export function seenFrom(value: number, changed: number, relative: number): number {
  return (value * changed) / relative;
}

/** The product of ratios that were taken into the book; 1 of none. */
export function productOf(...ratios: number[]): number {
  return ratios.reduce((all, ratio) => all * ratio, 1);
}

/** How many measurements count, from none on. */
export function countOf(none: number, ...seen: number[]): number {
  return none + seen.length / 2;
}

/** How many of them are one cook's. */
export function countOfCook(cook: number, ...seen: number[]): number {
  return pairs(seen).filter(({ by }) => by === String(cook)).length;
}

type Given = readonly number[];

function pairs(seen: Given): Seen[] {
  return Array.from({ length: seen.length / 2 }, (_, i) => ({
    y: seen[2 * i]!,
    by: String(seen[2 * i + 1]),
  }));
}

/** The fit of the last question: the figures of one estimate ask for the same one. */
let last: { readonly key: string; readonly fit: Fit } | undefined;

function fitOf(given: Given): Fit {
  const key = given.join(" ");
  if (last?.key !== key) last = { key, fit: fitTo(beliefOf(given), pairs(given.slice(4))) };
  return last.fit;
}

/** The figure on its scale (LE1, LE2). */
export function fittedMean(...given: number[]): number {
  return fitOf(given).mean;
}

/** Standard deviation of the figure itself, on its scale. */
export function fittedMeanSd(...given: number[]): number {
  return fitOf(given).meanSd;
}

/** Standard deviation of one lot, on its scale. */
export function fittedLotSd(...given: number[]): number {
  return fitOf(given).lotSd;
}

/** How far the next lot may lie from the figure, on its scale, in a share of all lots. */
export function fittedReach(share: number, ...given: number[]): number {
  const { next } = fitOf(given);
  return studentQuantile((1 + share) / 2, next.nu) * next.scale;
}

/** The figure of one cook, on its scale. */
export function fittedCook(cook: number, ...given: number[]): number {
  return fitOf(given).cooks.find(({ by }) => by === String(cook))!.mean;
}

/** How well that is known, on its scale. */
export function fittedCookSd(cook: number, ...given: number[]): number {
  return fitOf(given).cooks.find(({ by }) => by === String(cook))!.sd;
}

/** The chance of a measurement as far off as the one at a place, by what all the others tell (LE5). */
export function chanceAsFar(place: number, ...given: number[]): number {
  return oddnessAt(beliefOf(given), pairs(given.slice(4)), place);
}

const to = (scale: Scale) => (value: number, changed: number) => scale.to(value * changed);
const back = (scale: Scale) => (y: number, relative: number) => scale.back(y) / relative;
const spreadBy = (scale: Scale) => (sd: number, y: number, relative: number) =>
  (sd * scale.slope(scale.back(y))) / relative;

/** A yield as its logit. */
export function onLogit(value: number, changed: number): number {
  return to(LOGIT)(value, changed);
}
/** A positive figure as its logarithm. */
export function onLog(value: number, changed: number): number {
  return to(LOG)(value, changed);
}
/** Back from the scale, at most four figures. */
export function figureOfLogit(y: number, relative: number): number {
  return rounded(back(LOGIT)(y, relative));
}
export function figureOfLog(y: number, relative: number): number {
  return rounded(back(LOG)(y, relative));
}
/** Back from the scale, at a distance from the figure. */
export function endOfLogit(y: number, off: number, relative: number): number {
  return back(LOGIT)(y + off, relative);
}
export function endOfLog(y: number, off: number, relative: number): number {
  return back(LOG)(y + off, relative);
}
/** A spread on the scale as one of the figure. */
export function spreadOfLogit(sd: number, y: number, relative: number): number {
  return spreadBy(LOGIT)(sd, y, relative);
}
export function spreadOfLog(sd: number, y: number, relative: number): number {
  return spreadBy(LOG)(sd, y, relative);
}
/** The other way round. */
export function turned(off: number): number {
  return -off;
}
