import { afterSeeing, type Belief, meanOf, nextOf, type Student, sdOf } from "./conjugate.ts";
import { poolGroups } from "./pooling.ts";
import { COOKS_APART } from "./prior.ts";

/** One measurement on its scale, and whose. */
export interface Seen {
  readonly y: number;
  readonly by: string;
}

/** What is known of a figure, on its scale. */
export interface Fit {
  /** The figure: what the next lots come to on average, done by the same hands as until now. */
  readonly mean: number;
  /** How well that is known. */
  readonly meanSd: number;
  /** Standard deviation of one lot. */
  readonly lotSd: number;
  /** The next lot, by whoever of those who did it. */
  readonly next: Student;
  readonly cooks: readonly {
    readonly by: string;
    readonly n: number;
    readonly mean: number;
    readonly sd: number;
  }[];
  /** The next lot of one of the cooks, known or new. */
  readonly nextBy: (by: string) => Student;
}

/**
 * One cook: the conjugate update. Several: partial pooling over cooks, whose common mean has the book's figure as its
 * prior, and the spread of one lot by the conjugate update within cooks.
 */
export function fitTo(prior: Belief, seen: readonly Seen[]): Fit {
  const byCook = Map.groupBy(seen, ({ by }) => by);
  if (byCook.size < 2) {
    const after = afterSeeing(
      prior,
      seen.map(({ y }) => y),
    );
    const mean = { mean: after.mean, sd: sdOf(meanOf(after)) };
    const next = nextOf(after);
    return {
      mean: mean.mean,
      meanSd: mean.sd,
      lotSd: sdOf({ mean: 0, scale: after.spread, nu: after.spreadCount }),
      next,
      cooks: [...byCook.keys()].map((by) => ({ by, n: seen.length, ...mean })),
      nextBy: () => next,
    };
  }
  const cooks = [...byCook].map(([by, rows]) => {
    const mean = rows.reduce((sum, { y }) => sum + y, 0) / rows.length;
    return { by, n: rows.length, mean, squares: rows.reduce((sum, { y }) => sum + (y - mean) ** 2, 0) };
  });
  const nu = prior.spreadCount + seen.length - cooks.length;
  const squares = cooks.reduce((sum, cook) => sum + cook.squares, 0);
  const variance = (prior.spreadCount * prior.spread ** 2 + squares) / nu;
  const pooled = poolGroups(
    cooks.map(({ mean, n }) => ({ mean, variance: variance / n })),
    {
      common: { mean: prior.mean, variance: variance / prior.meanCount },
      tauScale: COOKS_APART * prior.spread,
      weights: cooks.map(({ n }) => n / seen.length),
    },
  );
  const own = pooled.groups;
  const { mean, variance: meanVariance } = pooled.blend;
  // The next lot is one of the cooks', as often as until now: what they differ by is part of its spread.
  const between = cooks.reduce(
    (sum, { n }, j) => sum + (n / seen.length) * (own[j]!.sd ** 2 + (own[j]!.mean - mean) ** 2),
    0,
  );
  return {
    mean,
    meanSd: Math.sqrt(meanVariance),
    lotSd: sdOf({ mean: 0, scale: Math.sqrt(variance + between), nu }),
    next: { mean, scale: Math.sqrt(variance + between), nu },
    cooks: cooks.map(({ by, n }, j) => ({ by, n, mean: own[j]!.mean, sd: own[j]!.sd })),
    nextBy: (by) => {
      const at = cooks.findIndex((cook) => cook.by === by);
      const known = own[at] ?? { mean: pooled.mean, sd: Math.sqrt(pooled.meanSd ** 2 + pooled.tauSquared) };
      return { mean: known.mean, scale: Math.sqrt(variance + known.sd ** 2), nu };
    },
  };
}
