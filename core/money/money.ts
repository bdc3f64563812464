import { fromNumber, type Rational, rational, toDecimal } from "../numerics/rational.ts";
import { divideRounded, type Rounding } from "../numerics/round.ts";
import { shareOut } from "../numerics/share-out.ts";

/**
 * An exact decimal amount in one currency: digits × 10^-places. `C` is the currency's ISO 4217 code,
 * so that euros plus dollars does not compile.
 */
export type Money<C extends string = string> = {
  readonly currency: C;
  readonly digits: bigint;
  readonly places: number;
};

/** Decimal places of the currencies whose smallest coin is not 1/100 (ISO 4217, table A.1, from memory). */
const MINOR_PLACES: Readonly<Record<string, number>> = {
  ...{ BHD: 3, IQD: 3, JOD: 3, KWD: 3, LYD: 3, OMR: 3, TND: 3 },
  ...{ BIF: 0, CLP: 0, DJF: 0, GNF: 0, ISK: 0, JPY: 0, KMF: 0, KRW: 0, PYG: 0, RWF: 0, UGX: 0, VND: 0 },
  ...{ UYI: 0, VUV: 0, XAF: 0, XOF: 0, XPF: 0, CLF: 4, UYW: 4 },
};

/** Places of the currency's smallest coin: 2 for EUR, 0 for JPY. */
export function minorPlaces(currency: string): number {
  return MINOR_PLACES[currency] ?? 2;
}

/** Currencies that do not count by tens: a fifth is their smallest coin, though ISO 4217 writes two places. */
const BY_FIVES: Readonly<Record<string, string>> = {
  MGA: "an ariary is five iraimbilanja",
  MRU: "an ouguiya is five khoums",
};

/** The smallest coin: 0.01 EUR, 1 JPY, 0.001 KWD; 0.2 where five make the whole. */
export function smallestCoin(currency: string): number {
  return currency in BY_FIVES ? 0.2 : 10 ** -minorPlaces(currency);
}

/** A decimal text for money: "12", "12.50", "-0.0375". At most 12 places. */
export const DECIMAL_TEXT = /^-?\d{1,15}(?:\.\d{1,12})?$/;
const CURRENCY = /^[A-Z]{3}$/;

/**
 * Reads a decimal text exactly. @throws RangeError saying how to write it when it is not decimal,
 * or when `currency` is not a three-letter code.
 */
export function money<const C extends string>(decimal: string, currency: C): Money<C> {
  if (!CURRENCY.test(currency)) {
    throw new RangeError(`"${currency}" is no currency: write a three-letter code such as "EUR"`);
  }
  if (!DECIMAL_TEXT.test(decimal)) {
    throw new RangeError(`"${decimal}" is no amount of money: write a decimal such as "12.50"`);
  }
  const [whole, fraction = ""] = decimal.split(".");
  return { currency, digits: BigInt(`${whole}${fraction}`), places: fraction.length };
}

/** Zero in a currency. */
export function zero<const C extends string>(currency: C): Money<C> {
  return money("0", currency);
}

const widen = (amount: Money, places: number) => amount.digits * 10n ** BigInt(places - amount.places);

function aligned(a: Money, b: Money): [bigint, bigint, number] {
  if (a.currency !== b.currency) {
    throw new RangeError(`${a.currency} and ${b.currency} do not add up: change one into the other first`);
  }
  const places = Math.max(a.places, b.places);
  return [widen(a, places), widen(b, places), places];
}

/** Exact sum. @throws RangeError when the currencies, known only at run time, differ. */
export function add<C extends string>(a: Money<C>, b: Money<NoInfer<C>>): Money<C> {
  const [x, y, places] = aligned(a, b);
  return { currency: a.currency, digits: x + y, places };
}

/** Exact difference. @throws as `add`. */
export function subtract<C extends string>(a: Money<C>, b: Money<NoInfer<C>>): Money<C> {
  const [x, y, places] = aligned(a, b);
  return { currency: a.currency, digits: x - y, places };
}

/** Exact sum of a list, zero when it is empty. */
export function sum<C extends string>(currency: C, amounts: readonly Money<NoInfer<C>>[]): Money<C> {
  return amounts.reduce<Money<C>>((total, amount) => add(total, amount), zero(currency));
}

/** -1, 0 or 1 as a is less than, equal to or more than b. @throws as `add`. */
export function compare<C extends string>(a: Money<C>, b: Money<NoInfer<C>>): -1 | 0 | 1 {
  const [x, y] = aligned(a, b);
  return x < y ? -1 : x > y ? 1 : 0;
}

/** Text of the exact amount: "12.50". With `places`, rounded as named to exactly that many. */
export function toDecimalString(amount: Money, places?: number, rounding: Rounding = "half-even"): string {
  const own = rational(amount.digits, 10n ** BigInt(amount.places));
  return toDecimal(own, places ?? amount.places, rounding);
}

/** Rounds to `places` (default: the currency's smallest coin). */
export function roundMoney<C extends string>(
  amount: Money<C>,
  rounding: Rounding,
  places = minorPlaces(amount.currency),
): Money<C> {
  if (places >= amount.places) return { ...amount, digits: widen(amount, places), places };
  const divisor = 10n ** BigInt(amount.places - places);
  return { ...amount, digits: divideRounded(amount.digits, divisor, rounding), places };
}

/**
 * The amount times a factor, rounded as named to `places` (default: the amount's own).
 * A number counts as the decimal it prints as; give a Rational for exact thirds.
 */
export function scale<C extends string>(
  amount: Money<C>,
  factor: Rational | number,
  rounding: Rounding,
  places = amount.places,
): Money<C> {
  const by = typeof factor === "number" ? fromNumber(factor) : factor;
  const digits = divideRounded(
    amount.digits * by.n * 10n ** BigInt(places),
    by.d * 10n ** BigInt(amount.places),
    rounding,
  );
  return { currency: amount.currency, digits, places };
}

/**
 * Shares an amount out by weights in its smallest unit (the amount's own places): the parts add back
 * to the whole. @throws RangeError when a weight is negative or all are zero.
 */
export function allocate<C extends string>(
  amount: Money<C>,
  weights: readonly (Rational | number)[],
): Money<C>[] {
  const exact = weights.map((weight) => (typeof weight === "number" ? fromNumber(weight) : weight));
  return shareOut(amount.digits, exact).map((digits) => ({ ...amount, digits }));
}

/**
 * The amount for reading, rounded half-even to the smallest coin, in the manner of `locale`.
 * The digits are exact: Intl gets text, never a double.
 */
export function format(amount: Money, locale = "en-GB"): string {
  const text = toDecimalString(amount, minorPlaces(amount.currency)) as `${number}`;
  return formatter(locale, amount.currency).format(text);
}

const formatters = new Map<string, Intl.NumberFormat>();
function formatter(locale: string, currency: string): Intl.NumberFormat {
  const key = `${locale} ${currency}`;
  const known = formatters.get(key);
  if (known) return known;
  const places = minorPlaces(currency);
  const made = new Intl.NumberFormat(locale, {
    style: "currency",
    currency,
    minimumFractionDigits: places,
    maximumFractionDigits: places,
  });
  formatters.set(key, made);
  return made;
}
