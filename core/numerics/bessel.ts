/**
 * Bessel functions of the first kind for orders 0 and 1, real argument, to about 1e-12 absolute:
 * the power series below 12 and Hankel's asymptotic expansion above
 * (Abramowitz and Stegun, Handbook of Mathematical Functions, 9.1.10, 9.2.5 and 9.2.6).
 */
export function besselJ0(x: number): number {
  return Math.abs(x) < 12 ? series(0, x) : hankel(0, Math.abs(x));
}

export function besselJ1(x: number): number {
  if (Math.abs(x) < 12) return series(1, x);
  return Math.sign(x) * hankel(1, Math.abs(x));
}

function series(order: 0 | 1, x: number): number {
  const quarter = (-x * x) / 4;
  let term = order === 0 ? 1 : x / 2;
  let sum = term;
  for (let k = 1; k < 60; k++) {
    term *= quarter / (k * (k + order));
    sum += term;
  }
  return sum;
}

function hankel(order: 0 | 1, x: number): number {
  const mu = 4 * order * order;
  let term = 1;
  let even = 1;
  let odd = 0;
  for (let k = 1; k <= 30; k++) {
    const next = (term * (mu - (2 * k - 1) ** 2)) / (k * 8 * x);
    // The expansion diverges in the end: stop at its smallest term.
    if (Math.abs(next) > Math.abs(term)) break;
    term = next;
    if (k % 2 === 1) odd += (k % 4 === 1 ? 1 : -1) * term;
    else even += (k % 4 === 0 ? 1 : -1) * term;
    if (Math.abs(term) < 1e-17) break;
  }
  const angle = x - (order / 2 + 0.25) * Math.PI;
  return Math.sqrt(2 / (Math.PI * x)) * (even * Math.cos(angle) - odd * Math.sin(angle));
}
