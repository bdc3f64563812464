import { incompleteBeta } from "../numerics/special.ts";
import { studentQuantile } from "../numerics/student.ts";
import { afterSeeing, nextOf } from "./conjugate.ts";

/** For how many covers the menu's own shares count (README, LE11). */
export const MENU_COVERS = 20;

/** One past service of a course: plates eaten, by dish, in the order of the options. */
export type Served = readonly number[];

/** What is believed of the shares of a course's dishes. */
export interface Shares {
  /** Parameters of the Dirichlet distribution of the shares. */
  readonly alpha: readonly number[];
  /** How many times more than by chance services differ, at least 1 (Pearson's χ² a degree of freedom). */
  readonly dispersion: number;
  /** Concentration of the next service's own shares; without end when services differ by chance alone. */
  readonly concentration: number;
}

/**
 * The shares after past services: Dirichlet prior from the menu's shares, multinomial counts (BDA3 §3.4). Where services
 * differ by more than chance, a cover of theirs counts for less (1 / dispersion), and the next one differs as much.
 * @param menu the menu's shares, any sum; a dish of share 0 counts for half a cover, so that it can be learned.
 */
export function sharesAfter(menu: readonly number[], past: readonly Served[]): Shares {
  const sum = menu.reduce((all, share) => all + share, 0);
  const prior = menu.map((share) => Math.max(0.5, sum > 0 ? (MENU_COVERS * share) / sum : 0));
  const held = past.filter((counts) => counts.reduce((all, n) => all + n, 0) > 0);
  const totals = menu.map((_, i) => held.reduce((all, counts) => all + counts[i]!, 0));
  const { dispersion, concentration } = apart(totals, held);
  return { alpha: prior.map((a, i) => a + totals[i]! / dispersion), dispersion, concentration };
}

/** Pearson's χ² of services against their common shares, and the concentration that explains it (method of moments). */
function apart(
  totals: readonly number[],
  held: readonly Served[],
): { readonly dispersion: number; readonly concentration: number } {
  const all = totals.reduce((sum, n) => sum + n, 0);
  const open = totals.filter((n) => n > 0).length;
  const free = (held.length - 1) * (open - 1);
  const chance = { dispersion: 1, concentration: Number.POSITIVE_INFINITY };
  if (free < 1) return chance;
  let chi = 0;
  for (const counts of held) {
    const n = counts.reduce((sum, one) => sum + one, 0);
    counts.forEach((one, i) => {
      const expected = (n * totals[i]!) / all;
      if (expected > 0) chi += (one - expected) ** 2 / expected;
    });
  }
  const dispersion = Math.max(1, chi / free);
  const covers = all / held.length;
  if (dispersion === 1) return chance;
  // Var(count) = n p (1 - p) (n + A) / (1 + A) for a concentration A.
  return { dispersion, concentration: Math.max(0.5, (covers - dispersion) / (dispersion - 1)) };
}

/** How many of `covers` take a dish: mean, standard deviation, and the count below which a chance lies. */
export interface DishForecast {
  readonly share: number;
  readonly mean: number;
  readonly sd: number;
  readonly low: number;
  readonly high: number;
}

/** The next service's plates by dish (Dirichlet-multinomial), with the ends of nine in ten. */
export function dishesOf({ alpha, concentration }: Shares, covers: number): DishForecast[] {
  const sum = alpha.reduce((all, a) => all + a, 0);
  // Of the common shares and of how one service differs from them: the variances of a share add up.
  const own = Number.isFinite(concentration) ? 1 / (concentration + 1) : 0;
  const whole = 1 / (own + (1 - own) / (sum + 1)) - 1;
  return alpha.map((a) => {
    const share = a / sum;
    const [x, y] = [share * whole, (1 - share) * whole];
    const variance = (covers * share * (1 - share) * (covers + whole)) / (1 + whole);
    return {
      share,
      mean: covers * share,
      sd: Math.sqrt(variance),
      low: alpha.length === 1 ? covers : countAt(0.05, covers, x, y),
      high: alpha.length === 1 ? covers : countAt(0.95, covers, x, y),
    };
  });
}

/** Least count that at least a share `p` of the beta-binomial distribution does not pass. */
export function countAt(p: number, n: number, a: number, b: number): number {
  let sum = 0;
  // P(0) = B(a, n + b) / B(a, b), then by the ratio of neighbours; no logarithm of Γ is needed.
  let term = 1;
  for (let i = 0; i < n; i++) term *= (b + i) / (a + b + i);
  if (!(term > 0)) return byBeta(p, n, a, b);
  for (let k = 0; k < n; k++) {
    sum += term;
    if (sum >= p) return k;
    term *= ((n - k) / (k + 1)) * ((a + k) / (b + n - k - 1));
  }
  return n;
}

/** Where even the chance of none is too small to be written: the share's own distribution, which then rules. */
function byBeta(p: number, n: number, a: number, b: number): number {
  let [low, high] = [0, 1];
  for (let i = 0; i < 60; i++) {
    const mid = (low + high) / 2;
    if (incompleteBeta(mid, a, b) < p) low = mid;
    else high = mid;
  }
  return Math.round(n * high);
}

/** Covers that came at past services, of those guaranteed. */
export interface Came {
  readonly guaranteed: number;
  readonly came: number;
}

/** The three figures of the trade, for a guarantee. */
export interface CoversForecast {
  readonly guaranteed: number;
  readonly expected: number;
  readonly sd: number;
  readonly low: number;
  readonly high: number;
  /** To be set: the guarantee and 3 %, or what nine services in ten stay below when that is more, at most 5 %. */
  readonly set: number;
  readonly services: number;
}

/** How many come when so many are guaranteed (README, LE12). */
export function coversOf(past: readonly Came[], guaranteed: number): CoversForecast {
  const belief = afterSeeing(
    { mean: 0, meanCount: 2, spread: 0.05, spreadCount: 4 },
    past.map((one) => Math.log(Math.max(0.5, one.came) / one.guaranteed)),
  );
  const next = nextOf(belief);
  const at = (p: number) => guaranteed * Math.exp(next.mean + next.scale * studentQuantile(p, next.nu));
  const spread = next.scale * Math.sqrt(next.nu / (next.nu - 2));
  return {
    guaranteed,
    expected: Math.round(guaranteed * Math.exp(next.mean)),
    sd: guaranteed * Math.exp(next.mean) * spread,
    low: Math.floor(at(0.05)),
    high: Math.ceil(at(0.95)),
    set: Math.ceil(Math.min(guaranteed * 1.05, Math.max(guaranteed * 1.03, at(0.9))) - 1e-9),
    services: past.length,
  };
}
