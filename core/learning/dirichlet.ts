import { incompleteBeta } from "../numerics/special.ts";

/** How far services differ in what is chosen, and where a count of plates lies. */

/** Pearson's χ² of services against their common shares, and the concentration that explains it (method of moments). */
export function apart(held: readonly (readonly number[])[]): {
  readonly dispersion: number;
  readonly concentration: number;
} {
  const totals = (held[0] ?? []).map((_, i) => held.reduce((all, counts) => all + counts[i]!, 0));
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
