import { incompleteBeta } from "./special.ts";

/** P(T ≤ t) of Student's t with `nu` degrees of freedom (Abramowitz and Stegun 26.7.1). */
export function studentCdf(t: number, nu: number): number {
  const tail = incompleteBeta(nu / (nu + t * t), nu / 2, 0.5) / 2;
  return t > 0 ? 1 - tail : tail;
}

/** The t below which a share `p` lies, 0 < p < 1: by halving, to the last places. */
export function studentQuantile(p: number, nu: number): number {
  if (p === 0.5) return 0;
  if (p < 0.5) return -studentQuantile(1 - p, nu);
  let high = 2;
  while (studentCdf(high, nu) < p && high < 1e12) high *= 2;
  let low = 0;
  for (let i = 0; i < 200 && high - low > 1e-12 * high; i++) {
    const mid = (low + high) / 2;
    if (studentCdf(mid, nu) < p) low = mid;
    else high = mid;
  }
  return (low + high) / 2;
}
