import { multiply, negate, parseRational, type Rational, rational } from "../numerics/rational.ts";

/** A price cell as read. */
export interface PriceRead {
  readonly value: Rational;
  /** As written: "€", "USD"; "" when none is. */
  readonly currency: string;
  /** "kg" of "12.50/kg". */
  readonly per?: string;
  readonly doubt?: string;
}

const CELL =
  /^([-−(]?)\s*([€$£]|[A-Za-z]{2,3}\.?)?\s*([-−]?)\s*(\d[\d.,'’\s]{0,20}|[.,]\d{1,4})\s*(?:[-–—]{1,2})?\s*([€$£]|(?:eur|usd|gbp|chf|kr|fr|p)\b\.?)?\s*\)?\s*(?:(?:\/|per|p\/|pro|par|al|por|je)\s*(kg|kilo|lb|l|ltr|litre|liter|100\s?g|g|ea|each|pc|stk|unit)\.?)?$/iu;

/** Reads "€ 12,50", "1,234.56", "$9.8/lb", "12,50 €/kg", "-3.00"; undefined for what is no price ("POA"). */
export function readPrice(cell: string): PriceRead | undefined {
  if (cell.length > 40) return undefined;
  const match = CELL.exec(cell.trim());
  if (!match) return undefined;
  const [, opening, before, sign, digits, after, per] = match;
  const read = figures(digits!.replace(/[\s'’]/g, ""));
  if (!read) return undefined;
  const pence = after?.toLowerCase() === "p";
  const size = pence ? multiply(read.value, rational(1, 100)) : read.value;
  // Book-keepers write what is negative in brackets.
  const negative = opening !== "" || sign !== "";
  return {
    value: negative ? negate(size) : size,
    currency: pence ? "£" : (before ?? after ?? ""),
    ...(per ? { per: per.toLowerCase() } : {}),
    ...(read.doubt ? { doubt: read.doubt } : {}),
  };
}

/** The last mark is the decimal one, unless three digits follow it alone. */
function figures(text: string): { value: Rational; doubt?: string } | undefined {
  const last = Math.max(text.lastIndexOf("."), text.lastIndexOf(","));
  if (last < 0) return exactly(text);
  const mark = text[last]!;
  const [whole, decimals] = [text.slice(0, last), text.slice(last + 1)];
  if (/[.,]/.test(whole) && !/^\d{1,3}(?:[.,]\d{3})+$/.test(whole)) return undefined;
  const bare = whole.replace(/[.,]/g, "");
  if (whole.includes(mark))
    return /[.,]/.test(whole.replaceAll(mark, "")) ? undefined : exactly(bare + decimals);
  const other = bare !== whole;
  if (decimals.length === 3 && !other && /^[1-9]\d{0,2}$/.test(whole)) {
    if (mark === ".")
      return {
        ...exactly(`${whole}.${decimals}`)!,
        doubt: `"${text}" is read as ${whole}.${decimals}: or ${whole}${decimals}?`,
      };
    return {
      ...exactly(whole + decimals)!,
      doubt: `"${text}" is read as ${whole}${decimals}: or ${whole}.${decimals}?`,
    };
  }
  return exactly(`${bare || "0"}.${decimals || "0"}`);
}

function exactly(text: string): { value: Rational } | undefined {
  const value = parseRational(text);
  return value ? { value } : undefined;
}
