import { divideRounded, type Rounding } from "./round.ts";

/** An exact fraction n/d in lowest terms, d > 0. */
export type Rational = { readonly n: bigint; readonly d: bigint };

const abs = (x: bigint) => (x < 0n ? -x : x);

function gcd(a: bigint, b: bigint): bigint {
  let [x, y] = [abs(a), abs(b)];
  // Small operands, the usual case, go through doubles: bigint division is some ten times slower.
  if (x <= MAX_SAFE && y <= MAX_SAFE) {
    let [p, q] = [Number(x), Number(y)];
    while (q !== 0) [p, q] = [q, p % q];
    return BigInt(p);
  }
  while (y !== 0n) [x, y] = [y, x % y];
  return x;
}
const MAX_SAFE = BigInt(Number.MAX_SAFE_INTEGER);

/** The fraction n/d in lowest terms. @throws RangeError when d is zero. */
export function rational(n: bigint | number, d: bigint | number = 1n): Rational {
  const [num, den] = [BigInt(n), BigInt(d)];
  if (den === 0n) throw new RangeError("a fraction cannot have the denominator 0");
  if (den === 1n) return { n: num, d: 1n };
  const g = den < 0n ? -gcd(num, den) : gcd(num, den);
  return { n: num / g, d: den / g };
}

export const ZERO: Rational = { n: 0n, d: 1n };

export function add(a: Rational, b: Rational): Rational {
  if (a.d === b.d) return rational(a.n + b.n, a.d);
  return rational(a.n * b.d + b.n * a.d, a.d * b.d);
}
export function subtract(a: Rational, b: Rational): Rational {
  return add(a, negate(b));
}
export function multiply(a: Rational, b: Rational): Rational {
  return rational(a.n * b.n, a.d * b.d);
}
/** a / b. @throws RangeError when b is zero. */
export function divide(a: Rational, b: Rational): Rational {
  return rational(a.n * b.d, a.d * b.n);
}
export function negate(a: Rational): Rational {
  return { n: -a.n, d: a.d };
}
/** -1, 0 or 1 as a is less than, equal to or more than b. */
export function compare(a: Rational, b: Rational): -1 | 0 | 1 {
  const [left, right] = [a.n * b.d, b.n * a.d];
  return left < right ? -1 : left > right ? 1 : 0;
}
export function equals(a: Rational, b: Rational): boolean {
  return a.n === b.n && a.d === b.d;
}
/** The integer that `rounding` gives. */
export function roundRational(a: Rational, rounding: Rounding): bigint {
  return divideRounded(a.n, a.d, rounding);
}

// Digits are bounded so that a hostile text cannot make a number of a million digits.
const PLAIN = /^([+-]?)(\d{1,40})(?:\.(\d{1,40}))?(?:[eE]([+-]?\d{1,3}))?$/;
const FRACTION = /^([+-]?)(?:(\d{1,40}) )?(\d{1,40})\/(\d{1,40})$/;

/**
 * Reads "3", "2.5", "-0.04", "1e-7", "1/3" or "1 3/4" exactly.
 * @returns undefined when the text is none of these or its denominator is 0.
 */
export function parseRational(text: string): Rational | undefined {
  const plain = PLAIN.exec(text);
  if (plain) {
    const decimals = plain[3] ?? "";
    const digits = BigInt(`${plain[2]}${decimals}`);
    const power = Number(plain[4] ?? 0) - decimals.length;
    const signed = plain[1] === "-" ? -digits : digits;
    return power >= 0 ? rational(signed * 10n ** BigInt(power)) : rational(signed, 10n ** BigInt(-power));
  }
  const fraction = FRACTION.exec(text);
  if (!fraction) return undefined;
  const den = BigInt(fraction[4]!);
  if (den === 0n) return undefined;
  const num = BigInt(fraction[2] ?? 0) * den + BigInt(fraction[3]!);
  return rational(fraction[1] === "-" ? -num : num, den);
}

/**
 * The decimal a person meant by a double: its shortest form that reads back as the same double
 * (0.1 is 1/10, not the binary neighbour). @throws RangeError when not finite.
 */
export function fromNumber(value: number): Rational {
  if (Number.isSafeInteger(value)) return { n: BigInt(value), d: 1n };
  const read = Number.isFinite(value) ? parseRational(String(value)) : undefined;
  if (!read) throw new RangeError(`${value} is not a finite number`);
  return read;
}

/** The double nearest to a (ties to even). */
export function toNumber(a: Rational): number {
  if (abs(a.n) <= MAX_SAFE && a.d <= MAX_SAFE) return Number(a.n) / Number(a.d);
  // Keep 66 or more bits of quotient and one sticky bit: Number() then rounds once, to nearest.
  const shift = a.d.toString(2).length - abs(a.n).toString(2).length + 66;
  const [num, den] = shift >= 0 ? [a.n << BigInt(shift), a.d] : [a.n, a.d << BigInt(-shift)];
  const quotient = num / den;
  const sticky = quotient * den === num ? 0n : a.n < 0n ? -1n : 1n;
  // Two steps, so that 2^-shift itself neither overflows nor vanishes.
  const half = Math.trunc(shift / 2);
  return (Number(quotient * 2n + sticky) / 2) * 2 ** -half * 2 ** -(shift - half);
}

/** Decimal text with exactly `places` digits after the point, rounded as named. */
export function toDecimal(a: Rational, places: number, rounding: Rounding): string {
  const scaled = divideRounded(a.n * 10n ** BigInt(places), a.d, rounding);
  const digits = abs(scaled)
    .toString()
    .padStart(places + 1, "0");
  const sign = scaled < 0n ? "-" : "";
  if (places === 0) return sign + digits;
  return `${sign}${digits.slice(0, -places)}.${digits.slice(-places)}`;
}

/** Exact text that parseRational reads back: "3", "1/3", "1 3/4". */
export function toText(a: Rational): string {
  if (a.d === 1n) return a.n.toString();
  const sign = a.n < 0n ? "-" : "";
  const [whole, rest] = [abs(a.n) / a.d, abs(a.n) % a.d];
  return whole === 0n ? `${sign}${rest}/${a.d}` : `${sign}${whole} ${rest}/${a.d}`;
}
