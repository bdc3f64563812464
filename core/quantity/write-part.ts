import {
  compare,
  divide,
  multiply,
  type Rational,
  rational,
  roundRational,
  subtract,
} from "../numerics/rational.ts";
import { convertExactly } from "./convert.ts";
import type { Unit } from "./units.ts";
import { placesFor, writeDecimal } from "./write-number.ts";

/** One number with its unit, as written; `value` is what the number says, exactly. */
export type Part = { value: Rational; unit: Unit; number: string };

export const abs = (value: Rational) => (value.n < 0n ? { n: -value.n, d: value.d } : value);
/** Whether `near` is off `value` by no more than a ratio. */
export const within = (near: Rational, value: Rational, ratio: Rational) =>
  compare(abs(subtract(near, value)), multiply(abs(value), ratio)) <= 0;

/** A number with `places` after the mark, or more where two figures need them; ties to even. */
export function decimalPart(value: Rational, unit: Unit, places: number, mark: "." | ","): Part {
  // Something is never written as nothing, and 6 mg not as 0.01 g.
  const enough = Math.max(places, placesFor(value, 2));
  const scale = rational(10n ** BigInt(enough));
  const rounded = divide(rational(roundRational(multiply(value, scale), "half-even")), scale);
  return { value: rounded, unit, number: writeDecimal(rounded, enough, mark) };
}

/** Value in another unit of the same dimension. */
export function exactly(value: Rational, from: Unit, to: Unit): Rational {
  const converted = convertExactly(value, from, to);
  if (!converted.ok) throw new Error(converted.message);
  return converted.value;
}
