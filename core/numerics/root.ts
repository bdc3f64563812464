export type Root = { x: number; evaluations: number };

/**
 * A root of a continuous function between two ends where its sign differs, by Brent's method
 * (R. P. Brent, Algorithms for Minimization without Derivatives, 1973, ch. 4).
 * `xTolerance` is the largest distance allowed between the answer and the root.
 * Throws RangeError when the ends have the same sign or a value is not a number.
 */
export function findRoot(
  f: (x: number) => number,
  low: number,
  high: number,
  xTolerance = 1e-9,
  known?: { atLow?: number; atHigh?: number },
): Root {
  let a = low;
  let b = high;
  let evaluations = 0;
  const value = (x: number): number => {
    evaluations++;
    const y = f(x);
    if (Number.isNaN(y)) throw new RangeError(`root: the function is not a number at ${x}`);
    return y;
  };
  let fa = known?.atLow ?? value(a);
  let fb = known?.atHigh ?? value(b);
  if (fa === 0) return { x: a, evaluations };
  if (fb === 0) return { x: b, evaluations };
  if (fa > 0 === fb > 0) throw new RangeError(`root: same sign at ${low} (${fa}) and ${high} (${fb})`);
  let c = a;
  let fc = fa;
  let last = b - a;
  let beforeLast = last;
  for (let i = 0; i < 200; i++) {
    if (Math.abs(fc) < Math.abs(fb)) {
      [a, b, c] = [b, c, b];
      [fa, fb, fc] = [fb, fc, fb];
    }
    const tolerance = 2 * Number.EPSILON * Math.abs(b) + xTolerance / 2;
    const half = (c - b) / 2;
    if (Math.abs(half) <= tolerance || fb === 0) return { x: b, evaluations };
    let step = half;
    let previous = half;
    if (Math.abs(beforeLast) >= tolerance && Math.abs(fa) > Math.abs(fb)) {
      const s = fb / fa;
      let p: number;
      let q: number;
      if (a === c) {
        p = 2 * half * s;
        q = 1 - s;
      } else {
        const r = fb / fc;
        const t = fa / fc;
        p = s * (2 * half * t * (t - r) - (b - a) * (r - 1));
        q = (t - 1) * (r - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      else p = -p;
      if (2 * p < Math.min(3 * half * q - Math.abs(tolerance * q), Math.abs(beforeLast * q))) {
        previous = last;
        step = p / q;
      }
    }
    beforeLast = previous;
    last = step;
    a = b;
    fa = fb;
    b += Math.abs(step) > tolerance ? step : Math.sign(half) * tolerance;
    fb = value(b);
    if (fb > 0 === fc > 0) {
      c = a;
      fc = fa;
      last = b - a;
      beforeLast = last;
    }
  }
  return { x: b, evaluations };
}
