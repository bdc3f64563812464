import { type Rational, toDecimal, toNumber } from "../numerics/rational.ts";

const GLYPHS: Readonly<Record<string, string>> = {
  ...{ "1/2": "½", "1/3": "⅓", "2/3": "⅔", "1/4": "¼", "3/4": "¾", "1/5": "⅕", "2/5": "⅖", "3/5": "⅗" },
  ...{ "4/5": "⅘", "1/6": "⅙", "5/6": "⅚", "1/8": "⅛", "3/8": "⅜", "5/8": "⅝", "7/8": "⅞" },
};

/** "1 ¾", "⅓", "3 5/16": whole and fraction, with a single sign where Unicode has one. */
export function writeFraction(value: Rational): string {
  const sign = value.n < 0n ? "−" : "";
  const n = value.n < 0n ? -value.n : value.n;
  const [whole, rest] = [n / value.d, n % value.d];
  if (rest === 0n) return `${sign}${whole}`;
  const part = GLYPHS[`${rest}/${value.d}`] ?? `${rest}/${value.d}`;
  return whole === 0n ? `${sign}${part}` : `${sign}${whole} ${part}`;
}

/** Decimal with at most `places` after the mark and no idle zeros. */
export function writeDecimal(value: Rational, places: number, mark: "." | ","): string {
  const text = toDecimal(value, places, "half-even");
  const trimmed = text.includes(".") ? text.replace(/\.?0+$/, "") : text;
  return trimmed.replace("-", "−").replace(".", mark);
}

/** More places than this are no amount of anything: a billionth of a gram is written as 0. */
const MOST_PLACES = 9;

/** Places after the mark that keep `figures` significant figures of a value, nine at most. */
export function placesFor(value: Rational, figures: number): number {
  const size = Math.abs(toNumber(value));
  if (size === 0) return value.n === 0n ? 0 : MOST_PLACES;
  return Math.min(MOST_PLACES, Math.max(0, figures - 1 - Math.floor(Math.log10(size))));
}

/** Exact text: a decimal where it ends, else a fraction ("2.5", "1/3"). */
export function exactText(value: Rational): string {
  let [d, twos, fives] = [value.d, 0, 0];
  for (; d % 2n === 0n; d /= 2n) twos++;
  for (; d % 5n === 0n; d /= 5n) fives++;
  if (d === 1n) return toDecimal(value, Math.max(twos, fives), "half-even");
  return `${value.n}/${value.d}`;
}
