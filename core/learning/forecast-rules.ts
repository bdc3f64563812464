import { studentQuantile } from "../numerics/student.ts";
import { afterSeeing, beliefOf, nextOf } from "./conjugate.ts";
import { apart, countAt } from "./dirichlet.ts";

/**
 * How a forecast comes, as functions of plain numbers, so that its trace can be replayed (README, LE11, LE12). `prior` is the
 * belief before anything came, of the logarithm of covers that came per cover guaranteed: mean, the services it counts for,
 * spread of one service, the services that counts for; after it, one number for each past service.
 */

/** Covers that came of those guaranteed, as its natural logarithm; of none that came, half a one. */
export function keptOfGuarantee(came: number, guaranteed: number): number {
  return Math.log(Math.max(0.5, came) / guaranteed);
}

/** Everyone eats every course: the fullest one says how many came. */
export function fullest(...courses: number[]): number {
  return Math.max(...courses);
}

function nextBy(given: readonly number[]) {
  return nextOf(afterSeeing(beliefOf(given), given.slice(4)));
}

/** Centre, scale and degrees of freedom of the next service. */
export function nextCentre(...given: number[]): number {
  return nextBy(given).mean;
}
export function nextScale(...given: number[]): number {
  return nextBy(given).scale;
}
export function nextFreedom(...given: number[]): number {
  return nextBy(given).nu;
}

/** Past services that count, from none on. */
export function servicesOf(none: number, ...seen: number[]): number {
  return none + seen.length;
}

export function expectedCovers(guaranteed: number, centre: number): number {
  return Math.round(guaranteed * Math.exp(centre));
}

/** Standard deviation of the covers that come (Student, on the scale of the logarithm). */
export function coversStray(guaranteed: number, centre: number, scale: number, nu: number): number {
  return guaranteed * Math.exp(centre) * scale * Math.sqrt(nu / (nu - 2));
}

const coversAt = (share: number, guaranteed: number, centre: number, scale: number, nu: number) =>
  guaranteed * Math.exp(centre + scale * studentQuantile(share, nu));

/** Fewer come in a share of services only, whole. */
export function fewestCovers(share: number, guaranteed: number, centre: number, scale: number, nu: number) {
  return Math.floor(coversAt(share, guaranteed, centre, scale, nu));
}

/** No more come in a share of services, whole. */
export function mostCovers(share: number, guaranteed: number, centre: number, scale: number, nu: number) {
  return Math.ceil(coversAt(share, guaranteed, centre, scale, nu));
}

/** What a share of services stays below, but at least and at most so many times the guarantee. */
export function coversToSet(
  least: number,
  most: number,
  share: number,
  guaranteed: number,
  centre: number,
  scale: number,
  nu: number,
): number {
  const at = coversAt(share, guaranteed, centre, scale, nu);
  return Math.ceil(Math.min(guaranteed * most, Math.max(guaranteed * least, at)) - 1e-9);
}

/** For how many covers the menu's share of a dish counts, at least so many. */
export function priorCovers(covers: number, least: number, share: number, sum: number): number {
  return Math.max(least, sum > 0 ? (covers * share) / sum : 0);
}

function servicesIn(dishes: number, counts: readonly number[]): number[][] {
  const held = Array.from({ length: counts.length / dishes }, (_, s) =>
    counts.slice(s * dishes, (s + 1) * dishes),
  );
  return held.filter((one) => one.some((n) => n > 0));
}

/** How many times more than by chance services differ, at least 1; plates by dish, service after service. */
export function timesByChance(dishes: number, ...counts: number[]): number {
  return apart(servicesIn(dishes, counts)).dispersion;
}

/** How much of a share's variance is the next service's own: 0 where services differ by chance alone. */
export function ownOfService(dishes: number, ...counts: number[]): number {
  return 1 / (apart(servicesIn(dishes, counts)).concentration + 1);
}

/** Covers that speak for a dish: the menu's, and those that came, less where services differ. */
export function speakFor(prior: number, came: number, timesByChance: number): number {
  return prior + came / timesByChance;
}

/** For how many covers the forecast of a share counts, when the service's own share of the variance is added. */
export function wholeOf(own: number, sum: number): number {
  return 1 / (own + (1 - own) / (sum + 1)) - 1;
}

/** Standard deviation of the plates of a dish (Dirichlet-multinomial). */
export function platesStray(covers: number, share: number, whole: number): number {
  return Math.sqrt((covers * share * (1 - share) * (covers + whole)) / (1 + whole));
}

/** No more plates than this in a share of services. */
export function platesAt(p: number, covers: number, share: number, whole: number): number {
  return countAt(p, covers, share * whole, (1 - share) * whole);
}
