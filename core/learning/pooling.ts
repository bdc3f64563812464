/** What one group (a cook) shows: the average of its observations and the variance of that average. */
export interface Group {
  readonly mean: number;
  readonly variance: number;
}

export interface Pooled {
  /** The groups' common mean, and how well it is known. */
  readonly mean: number;
  readonly meanSd: number;
  /** How far groups differ: posterior mean of τ, and of τ². */
  readonly tau: number;
  readonly tauSquared: number;
  /** Each group's own mean, drawn towards the common one. */
  readonly groups: readonly { readonly mean: number; readonly sd: number }[];
  /** Variance of the blend of the groups' means by `weights`. */
  readonly blend: { readonly mean: number; readonly variance: number };
}

export interface PoolOptions {
  /** What was believed of the common mean; without it, nothing (a flat prior). */
  readonly common?: { readonly mean: number; readonly variance: number };
  /** Scale of the half-Cauchy prior of τ (Gelman 2006); without it, a flat prior. */
  readonly tauScale?: number;
  /** Shares of the blend; equal unless said. */
  readonly weights?: readonly number[];
}

/** Points at which τ is tried; the answer moves by less than 1e-4 of itself with twice as many. */
const POINTS = 400;

/**
 * Groups that are alike but not the same: the hierarchical normal model with known variances (Gelman et al., Bayesian
 * Data Analysis, 3rd ed., §5.4). τ is tried over its whole range (eq. 5.21, with the prior of the common mean taken in),
 * and everything else is exact given τ (eq. 5.17, 5.20).
 */
export function poolGroups(groups: readonly Group[], options: PoolOptions = {}): Pooled {
  const weights = options.weights ?? groups.map(() => 1 / groups.length);
  const size = scaleOf(groups, options);
  const tries = Array.from({ length: POINTS }, (_, i) => {
    const u = (i + 0.5) / POINTS;
    // τ from 0 without end, evenly in u; the last term is dτ/du.
    const tau = (size * u) / (1 - u);
    return { given: givenTau(groups, tau, weights, options), log: -2 * Math.log1p(-u) };
  });
  const logs = tries.map(({ given, log }) => given.log + log);
  const most = Math.max(...logs);
  const shares = logs.map((log) => Math.exp(log - most));
  const total = shares.reduce((sum, share) => sum + share, 0);
  const average = (of: (given: GivenTau) => number) =>
    tries.reduce((sum, { given }, i) => sum + (shares[i]! / total) * of(given), 0);
  // Law of total variance: the variance given τ, and that of the mean given τ.
  const moments = (of: (given: GivenTau) => Moments) => {
    const mean = average((given) => of(given).mean);
    return { mean, variance: average((given) => of(given).variance + (of(given).mean - mean) ** 2) };
  };
  const common = moments((given) => given.common);
  return {
    mean: common.mean,
    meanSd: Math.sqrt(common.variance),
    tau: average((given) => given.tau),
    tauSquared: average((given) => given.tau ** 2),
    groups: groups.map((_, j) => {
      const own = moments((given) => given.groups[j]!);
      return { mean: own.mean, sd: Math.sqrt(own.variance) };
    }),
    blend: moments((given) => given.blend),
  };
}

interface Moments {
  readonly mean: number;
  readonly variance: number;
}

interface GivenTau {
  readonly tau: number;
  /** Logarithm of the density of τ, but for a constant. */
  readonly log: number;
  readonly common: Moments;
  readonly groups: readonly Moments[];
  readonly blend: Moments;
}

function givenTau(
  groups: readonly Group[],
  tau: number,
  weights: readonly number[],
  { common, tauScale }: PoolOptions,
): GivenTau {
  let [precision, sum] = common ? [1 / common.variance, common.mean / common.variance] : [0, 0];
  for (const group of groups) {
    const w = 1 / (group.variance + tau ** 2);
    precision += w;
    sum += w * group.mean;
  }
  const [mean, variance] = [sum / precision, 1 / precision];
  let log = 0.5 * Math.log(variance);
  if (common) log -= (mean - common.mean) ** 2 / (2 * common.variance);
  for (const group of groups) {
    const v = group.variance + tau ** 2;
    log -= 0.5 * (Math.log(v) + (group.mean - mean) ** 2 / v);
  }
  if (tauScale !== undefined) log -= Math.log1p((tau / tauScale) ** 2);
  const own = groups.map((group) => tau ** 2 / (tau ** 2 + group.variance));
  const pulled = groups.reduce((all, _, j) => all + weights[j]! * (1 - own[j]!), 0);
  const means = groups.map((group, j) => own[j]! * group.mean + (1 - own[j]!) * mean);
  return {
    tau,
    log,
    common: { mean, variance },
    groups: groups.map((group, j) => ({
      mean: means[j]!,
      variance: own[j]! * group.variance + (1 - own[j]!) ** 2 * variance,
    })),
    blend: {
      mean: means.reduce((all, one, j) => all + weights[j]! * one, 0),
      variance:
        groups.reduce((all, group, j) => all + weights[j]! ** 2 * own[j]! * group.variance, 0) +
        pulled ** 2 * variance,
    },
  };
}

/** Where half of the tries of τ lie: about as far as the groups lie apart. */
function scaleOf(groups: readonly Group[], { tauScale }: PoolOptions): number {
  const mean = groups.reduce((sum, group) => sum + group.mean, 0) / groups.length;
  const apart = groups.reduce((sum, group) => sum + (group.mean - mean) ** 2 + group.variance, 0);
  const size = Math.sqrt(apart / groups.length);
  return tauScale === undefined ? size : Math.sqrt(size * tauScale);
}
