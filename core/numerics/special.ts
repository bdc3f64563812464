/**
 * ln Γ(x) for x > 0: Stirling's series after stepping up to x ≥ 12, where its fifth term is below 1e-13
 * (Abramowitz and Stegun, Handbook of Mathematical Functions, 6.1.41).
 */
export function logGamma(x: number): number {
  let shift = 0;
  let z = x;
  while (z < 12) {
    shift += Math.log(z);
    z++;
  }
  const y = 1 / (z * z);
  const series = (1 / 12 - y * (1 / 360 - y * (1 / 1260 - y * (1 / 1680 - y / 1188)))) / z;
  return (z - 0.5) * Math.log(z) - z + 0.5 * Math.log(2 * Math.PI) + series - shift;
}

/** ln B(a, b) for positive a and b. */
export function logBeta(a: number, b: number): number {
  return logGamma(a) + logGamma(b) - logGamma(a + b);
}

/**
 * The regularised incomplete beta function I_x(a, b), 0 ≤ x ≤ 1, by its continued fraction (Abramowitz and Stegun
 * 26.5.8) taken by Lentz's method, on the side where it is quick.
 */
export function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const front = Math.exp(a * Math.log(x) + b * Math.log1p(-x) - logBeta(a, b)) / a;
  const tiny = 1e-300;
  let c = 1;
  let d = 1 / Math.max(tiny, 1 - ((a + b) * x) / (a + 1));
  let value = d;
  for (let m = 1; m < 2000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / nonzero(1 + even * d, tiny);
    c = nonzero(1 + even / c, tiny);
    value *= c * d;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / nonzero(1 + odd * d, tiny);
    c = nonzero(1 + odd / c, tiny);
    value *= c * d;
    if (Math.abs(c * d - 1) < 1e-15) break;
  }
  return front * value;
}

function nonzero(x: number, tiny: number): number {
  return Math.abs(x) < tiny ? tiny : x;
}
