import {
  add,
  compare,
  divide,
  multiply,
  type Rational,
  rational,
  toNumber,
  toText,
} from "../numerics/rational.ts";
import { convertExactly } from "./convert.ts";
import { type DecimalMark, type NumberRead, readNumber } from "./read-number.ts";
import { numberedUnit, readUnit, type UnitRead } from "./read-unit.ts";
import { type Unit, unitFacts } from "./units.ts";
import type { Country } from "./words.ts";

export type ReadOptions = {
  /** Whose spoons, cups and pints English names mean; US when left out. */
  readonly country?: Country;
  /** The decimal mark of the text's language, if known: settles "1,500". */
  readonly decimal?: DecimalMark;
};

/** One or two numbers with a measure, exact. */
export type Quantities = {
  readonly low: Rational;
  readonly high: Rational;
  readonly unit: Unit | null;
  readonly end: number;
  readonly approx: boolean;
  readonly notes: readonly string[];
  readonly doubts: readonly string[];
  /** The size of each, of "2 x 400 g tins". */
  readonly each?: { readonly value: Rational; readonly unit: Unit };
  /** The smallest measure of a sum. */
  readonly smallest?: Unit;
  /** Words as written that are no part of the number and its measure: "heaped", the size of each. */
  readonly said?: readonly string[];
};

const DASH = /\s*[-–—−]\s*/y;
const TO = /\s+(?:to|or|a|à|o|ó|ou|u|oder|bis)\s+(?=[\p{L}\d¼½¾⅓⅔⅛⅜⅝⅞])/iuy;
const TIMES = /\s*[x×*]\s*(?=\d)/iy;
const PLUS = /\s*(\+|&|,|\b(?:plus|and|et|y|e|und|más|più)\b)?\s*/iuy;
const AND_A_HALF =
  /\s+(?:and a half|et demie?|y medi[oa]|e mezz[oa]|und ein(?:e[nrs]?)? halbe[nrs]?)(?![\p{L}])/iuy;
const BARE_GRAMS = /\s+\d{3}(?=\s+(?:de|d['’]|di|of)(?![\p{L}]))/iuy;
const OPEN = /\s*\(\s*/y;
const CLOSE = /(?:[\s-]*(?:thick|wide|long|each|diameter))?\s*\)\s*/iy;
const PERCENT = /\s*(?:%|percent\b|per cent\b|pour cent\b|por ciento\b|per cento\b|prozent\b)/iy;

function at(pattern: RegExp, text: string, from: number): boolean {
  pattern.lastIndex = from;
  return pattern.test(text);
}

/** Reads the amount that starts at `from`: a number, a range, a sum ("1 lb 4 oz") or so many of a size. */
export function readQuantity(text: string, from: number, options: ReadOptions): Quantities | undefined {
  // "4 oz ladle of stock": the number is the ladle's, and there is one.
  const tool = numberedUnit(text, from);
  if (tool) return { ...ONE_OF, unit: tool.unit, end: tool.end, notes: tool.note ? [tool.note] : [] };
  const first = readNumber(text, from, options.decimal);
  if (!first || at(PERCENT, text, first.end)) return undefined;
  const country = options.country ?? "us";
  const unit = readUnit(text, first.end, country, first.value);
  const place: Place = { text, from, first, unit, options, country };
  return sized(place) ?? range(place) ?? summed(place);
}

const ONE_OF = { low: rational(1), high: rational(1), approx: false, doubts: [] };

/** Where a quantity starts, with its first number and measure already read. */
type Place = {
  text: string;
  from: number;
  first: NumberRead;
  unit: UnitRead | undefined;
  options: ReadOptions;
  country: Country;
};

/** "2 x 400 g", "2 (14 oz) cans", "2 14-oz cans", "2 400 g tins". */
function sized({ text, from, first, unit, options, country }: Place): Quantities | undefined {
  const bracketed = !unit && at(OPEN, text, first.end);
  const multiplied = !unit && !bracketed && at(TIMES, text, first.end);
  const spaced = first.first && unit && unitFacts(unit.unit).dimension !== "count";
  const count = spaced ? first.first! : first;
  const start = bracketed ? OPEN.lastIndex : multiplied ? TIMES.lastIndex : skipSpace(text, count.end);
  if (!bracketed && !multiplied && !spaced && (unit || start === count.end)) return undefined;
  const size = readNumber(text, start, options.decimal);
  const sizeUnit = size && readUnit(text, size.end, country, size.value);
  if (!sizeUnit || unitFacts(sizeUnit.unit).dimension === "count") return undefined;
  let end = sizeUnit.end;
  if (bracketed) {
    if (!at(CLOSE, text, end)) return undefined;
    end = CLOSE.lastIndex;
  }
  const judged = judge(size, sizeUnit, text.slice(start, sizeUnit.end));
  const container = readUnit(text, end, country);
  const isContainer = container && unitFacts(container.unit).dimension === "count";
  const doubts = [...judged.doubts];
  // "2 14-oz steaks": without a container's name the pieces themselves have the size.
  const each = text.slice(start, bracketed ? text.indexOf(")", sizeUnit.end) : sizeUnit.end).trim();
  if (isContainer || (!multiplied && !spaced)) {
    if (spaced) doubts.push(`read as ${toText(count.value)} of ${each} each: is it ${toText(first.value)}?`);
    return {
      ...{ low: count.value, high: count.value, approx: false, notes: [], doubts },
      unit: isContainer ? container.unit : "piece",
      end: isContainer ? container.end : end,
      each: { value: judged.value, unit: sizeUnit.unit },
      said: [each, ...(container?.said ? [container.said] : [])],
    };
  }
  if (!multiplied) return undefined;
  const total = multiply(count.value, judged.value);
  const notes = [`${toText(count.value)} × ${each}`];
  const said = [text.slice(from, sizeUnit.end).trim()];
  return { low: total, high: total, unit: sizeUnit.unit, end, approx: false, notes, doubts, said };
}

const skipSpace = (text: string, from: number) => {
  let end = from;
  while (/\s/.test(text[end] ?? "")) end++;
  return end;
};

/** "2-3 Tbsp", "1 to 1 ½ lb", "500 g – 1 kg". */
function range({ text, from, first, unit, options, country }: Place): Quantities | undefined {
  const separator = [DASH, TO].find((pattern) => at(pattern, text, unit?.end ?? first.end));
  if (!separator) return undefined;
  const spelled = text.slice(unit?.end ?? first.end, separator.lastIndex);
  const second = readNumber(text, separator.lastIndex, options.decimal);
  if (!second || second.article || at(PERCENT, text, second.end)) return undefined;
  const secondUnit = readUnit(text, second.end, country, second.value);
  const shared = secondUnit ?? unit;
  // "1 cup or 2 sticks", "100 g - 5 eggs": two measures that do not compare are no range.
  if (unit && !secondUnit) return undefined;
  const low = judge(first, unit ?? shared, text.slice(from, unit?.end ?? first.end));
  const high = judge(second, shared, text.slice(separator.lastIndex, secondUnit?.end ?? second.end));
  let highValue = high.value;
  if (unit && secondUnit && unit.unit !== secondUnit.unit) {
    const same = convertExactly(high.value, secondUnit.unit, unit.unit);
    if (!same.ok) return undefined;
    highValue = same.value;
  }
  const doubts = [...low.doubts, ...high.doubts, ...doubtsOf(shared)];
  const ends = [low.value, highValue] as const;
  const backwards = compare(...ends) > 0;
  if (backwards) doubts.push(`"${ends.map(toText).join(spelled)}" runs backwards: which is meant?`);
  return {
    ...{ low: ends[backwards ? 1 : 0], high: ends[backwards ? 0 : 1] },
    unit: (unit ?? secondUnit)?.unit ?? null,
    end: secondUnit?.end ?? second.end,
    approx: shared?.approx ?? false,
    notes: shared?.note ? [shared.note] : [],
    doubts,
    ...(shared?.said ? { said: [shared.said] } : {}),
  };
}

/** A number and its measure, with smaller measures after it: "1 lb 4 oz", "1 cup plus 2 tbsp", "1h30". */
function summed({ text, from, first, unit, options, country }: Place): Quantities {
  const judged = judge(first, unit, text.slice(from, unit?.end ?? first.end));
  const notes = unit?.note ? [unit.note] : [];
  const doubts = [...judged.doubts, ...doubtsOf(unit)];
  let [total, end] = [judged.value, unit?.end ?? first.end];
  let smallest = unit;
  // "un kilo y medio de", "a pound and a half of", "2 litres et demi"
  const may = unit !== undefined && "aeyu".includes(text[end + 1] ?? ".");
  if (unit && may && unitFacts(unit.unit).dimension !== "temperature" && at(AND_A_HALF, text, end)) {
    total = add(total, multiply(rational(1, 2), unit.times ?? rational(1)));
    end = AND_A_HALF.lastIndex;
  }
  // "1 kg 500 de tomates": the grams without their name.
  const grams = unit?.unit === "kg" && at(BARE_GRAMS, text, end) ? BARE_GRAMS.lastIndex : undefined;
  if (grams !== undefined) {
    total = add(total, rational(BigInt(text.slice(end, grams).trim()), 1000n));
    smallest = { unit: "g", end: grams };
    end = grams;
  }
  while (unit && smallest) {
    at(PLUS, text, end);
    const joined = /[^\s,]/.test(text.slice(end, PLUS.lastIndex));
    const next = readDigitsOnly(text, PLUS.lastIndex, options);
    if (!next) break;
    let nextUnit = readUnit(text, next.end, country, next.value);
    if (!nextUnit && smallest.unit === "h" && /\d/.test(text[end] ?? ""))
      nextUnit = { unit: "min", end: next.end };
    if (!nextUnit) break;
    const [a, b] = [unitFacts(smallest.unit), unitFacts(nextUnit.unit)];
    if (a.dimension !== b.dimension || a.dimension === "temperature" || a.pieceName !== b.pieceName) break;
    if (!joined && compare(b.size, a.size) >= 0) break;
    const more = judge(next, nextUnit, text.slice(PLUS.lastIndex, nextUnit.end));
    const same = convertExactly(more.value, nextUnit.unit, unit.unit);
    if (!same.ok) break;
    total = add(total, same.value);
    doubts.push(...more.doubts);
    end = nextUnit.end;
    smallest = nextUnit;
  }
  return {
    low: total,
    high: total,
    unit: unit?.unit ?? null,
    end,
    approx: unit?.approx ?? false,
    notes,
    doubts,
    ...(smallest && smallest !== unit ? { smallest: smallest.unit } : {}),
    ...(unit?.said ? { said: [unit.said] } : {}),
  };
}

function readDigitsOnly(text: string, from: number, options: ReadOptions): NumberRead | undefined {
  const read = readNumber(text, from, options.decimal);
  return read?.article || at(PERCENT, text, read?.end ?? 0) ? undefined : read;
}

const doubtsOf = (unit: UnitRead | undefined) => (unit?.doubt ? [unit.doubt] : []);

/** Measures small enough that a thousand of them is an everyday amount. */
const SMALL: ReadonlySet<Unit> = new Set<Unit>(["mg", "g", "mL", "mm", "piece", "drop"]);

/**
 * Settles "1,500" and "1.500" where no language was given, and says so: with a small measure a comma parts
 * thousands, with a large one it is a decimal mark; a point is a decimal mark, doubted beside small measures.
 */
function judge(
  read: NumberRead,
  unit: UnitRead | undefined,
  spelled: string,
): { value: Rational; doubts: string[] } {
  const times = unit?.times ?? rational(1);
  if (!read.other) return { value: multiply(read.value, times), doubts: [] };
  const small = !unit || SMALL.has(unit.unit);
  const thousands = compare(read.value, read.other) > 0;
  const [value, other] = thousands && !small ? [read.other, read.value] : [read.value, read.other];
  const decimalPoint = !thousands;
  const plain = (n: Rational) => `${toNumber(n)}${unit ? ` ${unit.unit}` : ""}`;
  const doubts =
    decimalPoint && !small
      ? []
      : [`"${spelled.trim()}" is read as ${plain(value)}, not as ${plain(other)}: which is meant?`];
  return { value: multiply(value, times), doubts };
}

/** How far two measures of one thing differ, as a ratio of the first; undefined when they do not compare. */
export function disagreement(a: Rational, unitA: Unit, b: Rational, unitB: Unit): number | undefined {
  const same = convertExactly(b, unitB, unitA);
  if (!same.ok || a.n === 0n) return undefined;
  return Math.abs(toNumber(divide(same.value, a)) - 1);
}
