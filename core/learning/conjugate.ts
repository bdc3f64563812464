/**
 * A normal quantity of which neither mean nor spread is known, by the conjugate prior: normal for the mean, scaled
 * inverse χ² for the variance (Gelman et al., Bayesian Data Analysis, 3rd ed., §3.3; it is the normal-inverse-gamma of
 * other books with α = ν/2, β = νσ²/2).
 */
export interface Belief {
  /** Most likely mean. */
  readonly mean: number;
  /** κ: for how many observations the mean counts. */
  readonly meanCount: number;
  /** σ: standard deviation of one observation. */
  readonly spread: number;
  /** ν: for how many observations the spread counts. */
  readonly spreadCount: number;
}

/** A belief by its four numbers, in the order of a trace. */
export function beliefOf([mean, meanCount, spread, spreadCount]: readonly number[]): Belief {
  return { mean: mean!, meanCount: meanCount!, spread: spread!, spreadCount: spreadCount! };
}

/** What is believed after observations (BDA3 eq. 3.9 and the four lines before it). */
export function afterSeeing(prior: Belief, seen: readonly number[]): Belief {
  const n = seen.length;
  if (n === 0) return prior;
  const average = seen.reduce((sum, y) => sum + y, 0) / n;
  const squares = seen.reduce((sum, y) => sum + (y - average) ** 2, 0);
  const meanCount = prior.meanCount + n;
  const spreadCount = prior.spreadCount + n;
  const apart = ((prior.meanCount * n) / meanCount) * (average - prior.mean) ** 2;
  return {
    mean: (prior.meanCount * prior.mean + n * average) / meanCount,
    meanCount,
    spread: Math.sqrt((prior.spreadCount * prior.spread ** 2 + squares + apart) / spreadCount),
    spreadCount,
  };
}

/** A Student t distribution: centre, scale, degrees of freedom. */
export interface Student {
  readonly mean: number;
  readonly scale: number;
  readonly nu: number;
}

/** The mean itself (BDA3 §3.3, marginal posterior of μ). */
export function meanOf(belief: Belief): Student {
  return {
    mean: belief.mean,
    scale: belief.spread / Math.sqrt(belief.meanCount),
    nu: belief.spreadCount,
  };
}

/** The next observation (BDA3 §3.3, posterior predictive). */
export function nextOf(belief: Belief): Student {
  return {
    mean: belief.mean,
    scale: belief.spread * Math.sqrt(1 + 1 / belief.meanCount),
    nu: belief.spreadCount,
  };
}

/** Standard deviation of a t distribution; without end at two degrees of freedom or fewer. */
export function sdOf({ scale, nu }: Student): number {
  return nu > 2 ? scale * Math.sqrt(nu / (nu - 2)) : Number.POSITIVE_INFINITY;
}
