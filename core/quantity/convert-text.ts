import {
  equals,
  fromNumber,
  multiply,
  parseRational,
  type Rational,
  toNumber,
} from "../numerics/rational.ts";
import { type Bridge, convertExactly, type Link, type Refusal } from "./convert.ts";
import { type Beside, readAmount } from "./read.ts";
import type { ReadOptions } from "./read-quantity.ts";
import { UNITS, type Unit, unitFacts } from "./units.ts";
import { unitWord } from "./words.ts";
import { writeAmount } from "./write.ts";
import { exactText } from "./write-number.ts";

/** The answer to "how much is this text in that unit"; `error` is set exactly when `value` is null. */
export type ConvertedText = {
  input: string;
  value: number | null;
  /** The most of a range; left out when one number was given. */
  high?: number;
  unit: Unit | null;
  /** The value exactly: a decimal that ends, or a fraction. */
  exact?: string;
  /** For reading: "227.7 g". */
  text: string | null;
  /** How it was reached; "stated" when the text itself gave the measure ("½ bunch (about 40 g)"). */
  via: (Link | "stated")[];
  /** What a person should settle first. */
  doubt?: string;
  error?: string;
};

/** Finds the bridge once the measure is known: a clove and a head of garlic weigh differently. */
export type BridgeFinder = (unit: Unit, ingredient: string) => Bridge;

/**
 * Reads an amount in words and converts it: `convertText("1 3/4 cup", {of: "bread flour", densityKgPerL: 0.53}, "g")`.
 * @param to a symbol of the closed list or a word for a measure ("grams"). Never throws: refusals are in `error`.
 */
export function convertText(
  input: string,
  ofBridge: Bridge | BridgeFinder,
  to: string,
  options: ReadOptions = {},
): ConvertedText {
  const refused = (error: string, doubt?: string): ConvertedText => ({
    ...{ input, value: null, unit: null, text: null, via: [] },
    ...(doubt ? { doubt } : {}),
    error,
  });
  const read = readAmount(input, options);
  const target = targetUnit(to, read.unit);
  if (!target) return refused(`"${to}" is not a known unit: write one such as g, mL, cup, lb, °C`);
  if (read.unit === null || read.exact === null) {
    return refused(
      read.toTaste ? '"to taste" is no amount: nothing to convert' : (read.doubt ?? "no amount"),
    );
  }
  const bridge = typeof ofBridge === "function" ? ofBridge(read.unit, read.rest) : ofBridge;
  const named = { ...bridge, of: bridge.of ?? (read.rest || undefined) };
  const [low, high] = [parseRational(read.exact.low)!, parseRational(read.exact.high)!];
  const found = stated(read.beside, low, high, target) ?? span(low, high, read.unit, target, named);
  if (!found.ok) return refused(found.message, read.doubt);
  const [least, most] = found.ends;
  const ranged = !equals(least, most);
  const exact = exactText(least);
  return {
    ...{ input, value: toNumber(least), unit: target },
    ...(ranged ? { high: toNumber(most) } : exact.length <= LONGEST_EXACT ? { exact } : {}),
    text: (ranged ? [least, most] : [least]).map((n) => written(n, target)).join(" to "),
    via: found.via,
    ...(read.doubt ? { doubt: read.doubt } : {}),
  };
}

/** Exact text longer than this tells a reader nothing. */
const LONGEST_EXACT = 40;

type Span = { ok: true; ends: [Rational, Rational]; via: ConvertedText["via"] };

function span(low: Rational, high: Rational, from: Unit, to: Unit, bridge: Bridge): Span | Refusal {
  const [least, most] = [convertExactly(low, from, to, bridge), convertExactly(high, from, to, bridge)];
  if (!least.ok) return least;
  return most.ok ? { ok: true, ends: [least.value, most.value], via: least.via } : most;
}

/** A measure that the text gives in brackets, of the dimension asked for, goes before any bridge. */
function stated(beside: Beside | undefined, low: Rational, high: Rational, to: Unit): Span | undefined {
  if (!beside) return undefined;
  const ends = beside.each
    ? ([multiply(low, fromNumber(beside.low)), multiply(high, fromNumber(beside.high))] as const)
    : ([fromNumber(beside.low), fromNumber(beside.high)] as const);
  const found = span(...ends, beside.unit, to, {});
  return found.ok ? { ...found, via: ["stated", ...found.via] } : undefined;
}

function written(value: Rational, unit: Unit): string {
  return writeAmount({ value: toNumber(value), unit }, { figures: 4 }).text;
}

function targetUnit(text: string, from: Unit | null): Unit | undefined {
  // Beside a temperature a bare C is a degree, not a cup.
  if (/^c$/i.test(text) && from && unitFacts(from).dimension === "temperature") return "°C";
  if (UNITS.has(text as Unit)) return text as Unit;
  const word = unitWord(text);
  return word && !word.times ? word.unit : undefined;
}
