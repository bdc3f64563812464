import { apart } from "./dirichlet.ts";
import * as rules from "./forecast-rules.ts";

/** For how many covers the menu's own shares count (README, LE11). */
export const MENU_COVERS = 20;
/** At least so many covers speak for a dish before it was ever chosen, so that it can be learned. */
export const LEAST_COVERS = 0.5;
/** Before any service: as many come as were guaranteed, ± 5 %, counting for two services, the spread for four (LE12). */
export const BEFORE_ANY = { mean: 0, meanCount: 2, spread: 0.05, spreadCount: 4 } as const;
/** To be set: what so many services stay below, at least and at most these times the guarantee (LE12; the trade: 3 to 5 %). */
export const TO_SET = { share: 0.9, least: 1.03, most: 1.05 } as const;
/** The ends of nine in ten. */
export const ENDS = [0.05, 0.95] as const;

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
  const prior = menu.map((share) => rules.priorCovers(MENU_COVERS, LEAST_COVERS, share, sum));
  const held = past.filter((counts) => counts.reduce((all, n) => all + n, 0) > 0);
  const totals = menu.map((_, i) => held.reduce((all, counts) => all + counts[i]!, 0));
  const { dispersion, concentration } = apart(held);
  return { alpha: prior.map((a, i) => rules.speakFor(a, totals[i]!, dispersion)), dispersion, concentration };
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
  const whole = rules.wholeOf(1 / (concentration + 1), sum);
  const [low, high] = ENDS;
  return alpha.map((a) => {
    const share = a / sum;
    const at = (p: number) => (alpha.length === 1 ? covers : rules.platesAt(p, covers, share, whole));
    return {
      ...{ share, mean: covers * share, sd: rules.platesStray(covers, share, whole) },
      ...{ low: at(low), high: at(high) },
    };
  });
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
  const { mean, meanCount, spread, spreadCount } = BEFORE_ANY;
  const seen = past.map((one) => rules.keptOfGuarantee(one.came, one.guaranteed));
  const given = [mean, meanCount, spread, spreadCount, ...seen];
  const centre = rules.nextCentre(...given);
  const next = [guaranteed, centre, rules.nextScale(...given), rules.nextFreedom(...given)] as const;
  return {
    guaranteed,
    expected: rules.expectedCovers(guaranteed, centre),
    sd: rules.coversStray(...next),
    low: rules.fewestCovers(ENDS[0], ...next),
    high: rules.mostCovers(ENDS[1], ...next),
    set: rules.coversToSet(TO_SET.least, TO_SET.most, TO_SET.share, ...next),
    services: past.length,
  };
}
