import { add, multiply, parseRational, type Rational, rational } from "../numerics/rational.ts";

/** A number found in a text, where it ends, and the other number it could be ("1,500"). */
export type NumberRead = {
  readonly value: Rational;
  readonly end: number;
  readonly other?: Rational;
  /** A word such as "a" that only counts as 1 before a measure. */
  readonly article?: true;
  /** Of a number with a space in it: the part before the space, which may be a number of its own. */
  readonly first?: { readonly value: Rational; readonly end: number };
};

/** How a lone comma or point before exactly three digits is meant, when the language is known. */
export type DecimalMark = "," | ".";

const GLYPHS: Readonly<Record<string, string>> = {
  ...{ "¼": "1/4", "½": "1/2", "¾": "3/4", "⅐": "1/7", "⅑": "1/9", "⅒": "1/10", "⅓": "1/3", "⅔": "2/3" },
  ...{ "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6" },
  ...{ "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8" },
};
export const FRACTION_GLYPHS = Object.keys(GLYPHS).join("");

// Sticky patterns, tried in this order at one place of the text.
const GLYPH = new RegExp(`(?:(\\d{1,9})\\s*-?\\s*)?([${FRACTION_GLYPHS}])`, "y");
const MIXED = /(\d{1,9})(?:\s+|-|\s*(?:&|\+|\b(?:and|et|y|e|und))\s+)(\d{1,6})\s*[/⁄]\s*(\d{1,6})(?!\d)/y;
const FRACTION = /(\d{1,9})\s*[/⁄]\s*(\d{1,9})/y;
const GROUPED = /\d{1,3}(?:[\u0020\u00A0\u2009\u202F'’]\d{3})+(?:[.,]\d{1,9})?(?![\d/⁄])/y;
const MANY_MARKS = /\d{1,3}(?:(?:\.\d{3}){2,}(?:,\d{1,9})?|(?:,\d{3}){2,}(?:\.\d{1,9})?)(?!\d)/y;
const BOTH_MARKS = /\d{1,3}(?:,\d{3}\.\d{1,9}|\.\d{3},\d{1,9})(?!\d)/y;
const ONE_MARK = /(\d{0,12})([.,])(\d{1,40})/y;
const WHOLE = /\d{1,12}/y;

function at(pattern: RegExp, text: string, from: number): RegExpExecArray | null {
  pattern.lastIndex = from;
  return pattern.exec(text);
}

/** Reads one number that starts at `from`; undefined when none does. */
export function readNumber(text: string, from: number, mark?: DecimalMark): NumberRead | undefined {
  const digits = readDigits(text, from, mark);
  return digits ? withWordFraction(text, digits) : readWord(text, from);
}

function readDigits(text: string, from: number, mark?: DecimalMark): NumberRead | undefined {
  const code = text.charCodeAt(from);
  // Digits, a leading point or comma, or a fraction glyph: nothing else starts a written number.
  if (!((code >= 48 && code <= 57) || code === 46 || code === 44 || code > 127)) return undefined;
  const glyph = at(GLYPH, text, from);
  if (glyph) {
    const whole = rational(BigInt(glyph[1] ?? 0));
    return { value: add(whole, parseRational(GLYPHS[glyph[2]!]!)!), end: GLYPH.lastIndex };
  }
  const mixed = at(MIXED, text, from);
  if (mixed && BigInt(mixed[2]!) < BigInt(mixed[3]!)) {
    const part = rational(BigInt(mixed[2]!), BigInt(mixed[3]!));
    return { value: add(rational(BigInt(mixed[1]!)), part), end: MIXED.lastIndex };
  }
  const fraction = at(FRACTION, text, from);
  if (fraction) {
    if (BigInt(fraction[2]!) === 0n) return undefined;
    return { value: rational(BigInt(fraction[1]!), BigInt(fraction[2]!)), end: FRACTION.lastIndex };
  }
  for (const pattern of [GROUPED, MANY_MARKS, BOTH_MARKS]) {
    const grouped = at(pattern, text, from);
    if (!grouped) continue;
    const read = { value: parseRational(ungroup(grouped[0]))!, end: pattern.lastIndex };
    const before = /^(\d+)\s/.exec(grouped[0])?.[1];
    return before ? { ...read, first: { value: rational(BigInt(before)), end: from + before.length } } : read;
  }
  const marked = at(ONE_MARK, text, from);
  if (marked) return oneMark(marked[1]!, marked[2] as DecimalMark, marked[3]!, ONE_MARK.lastIndex, mark);
  const whole = at(WHOLE, text, from);
  return whole ? { value: rational(BigInt(whole[0])), end: WHOLE.lastIndex } : undefined;
}

/** "1 234,5", "1.234.567" and "1,234.50" as plain decimals: the last mark is the decimal one if used once. */
function ungroup(text: string): string {
  const bare = text.replace(/[\s'’]/g, "");
  const last = Math.max(bare.lastIndexOf("."), bare.lastIndexOf(","));
  if (last < 0) return bare;
  const decimal = bare.indexOf(bare[last]!) === last;
  const whole = (decimal ? bare.slice(0, last) : bare).replace(/[.,]/g, "");
  return decimal ? `${whole}.${bare.slice(last + 1)}` : whole;
}

function oneMark(
  whole: string,
  mark: DecimalMark,
  decimals: string,
  end: number,
  decimalMark: DecimalMark | undefined,
): NumberRead {
  const decimal = parseRational(`${whole || "0"}.${decimals}`)!;
  const couldGroup = decimals.length === 3 && /^[1-9]\d{0,2}$/.test(whole);
  if (!couldGroup || mark === decimalMark) return { value: decimal, end };
  const thousands = multiply(decimal, rational(1000));
  if (decimalMark) return { value: thousands, end };
  // No language said which: the reader of the unit decides, and says that it did.
  return mark === "." ? { value: decimal, end, other: thousands } : { value: thousands, end, other: decimal };
}

const ONES: Readonly<Record<string, number>> = Object.fromEntries(
  [
    "one un une uno una ein eine einen eins",
    "two deux dos due zwei",
    "three trois tres tre drei",
    "four quatre cuatro quattro vier",
    "five cinq cinco cinque funf fünf",
    "six seis sei sechs",
    "seven sept siete sette sieben",
    "eight huit ocho otto acht",
    "nine neuf nueve nove neun",
    "ten dix diez dieci zehn",
    "eleven onze undici elf",
    "twelve douze doce dodici zwolf zwölf",
  ].flatMap((words, i) => words.split(" ").map((word) => [word, i + 1])),
);
const PARTS: Readonly<Record<string, string>> = {
  ...{ half: "1/2", halves: "1/2", demi: "1/2", demie: "1/2", moitié: "1/2", medio: "1/2", media: "1/2" },
  ...{ mezzo: "1/2", mezza: "1/2", halb: "1/2", halbe: "1/2", halber: "1/2", halbes: "1/2", halben: "1/2" },
  ...{ third: "1/3", thirds: "1/3", tiers: "1/3", tercio: "1/3", terzo: "1/3", drittel: "1/3" },
  ...{ quarter: "1/4", quarters: "1/4", quart: "1/4", quarts: "1/4", cuarto: "1/4", viertel: "1/4" },
  ...{ eighth: "1/8", eighths: "1/8", anderthalb: "3/2", eineinhalb: "3/2" },
};
const WORD = /[\p{L}]+/uy;
const AND_A_PART = /\s+(?:and|et|y|e|und)\s+(?:(?:a|an|one|un|une|uno|una)\s+)?(\p{L}+)/uy;
const A_PART = /(?:[\s-]+)(\p{L}+)/uy;
const OF_A = /\s+(?:(?:of|d'|de)\s*)?(?:an?|one|une?)(?=\s)/y;
/** Words that are articles as well as the number one. */
const ARTICLES = new Set(["a", "an", "un", "une", "una", "uno", "ein", "eine", "einen"]);

function part(word: string | undefined): Rational | undefined {
  const name = word?.toLowerCase();
  const text = name !== undefined && Object.hasOwn(PARTS, name) ? PARTS[name] : undefined;
  return text === undefined ? undefined : parseRational(text);
}

const A_HALF = /[\s-]+(?:half|demie?|medi[oa]|mezz[oa]|halbe?[rsn]?)(?=[\s-])/iuy;

/** "2 and a half", "1 et demi" after a number already read; "1 demi-livre", "1 half lemon". */
function withWordFraction(text: string, read: NumberRead): NumberRead {
  if (read.value.n === read.value.d && at(A_HALF, text, read.end))
    return { value: rational(1, 2), end: A_HALF.lastIndex };
  const joined = at(AND_A_PART, text, read.end);
  const more = part(joined?.[1]);
  return more ? { ...read, value: add(read.value, more), end: AND_A_PART.lastIndex } : read;
}

/** "one and a half", "three quarters", "half a", "a". "quart" alone is a measure, so a part needs its count. */
function readWord(text: string, from: number): NumberRead | undefined {
  const word = at(WORD, text, from)?.[0].toLowerCase();
  if (word === undefined) return undefined;
  const end = from + word.length;
  const alone = word === "quart" || word === "quarts" ? undefined : part(word);
  if (alone) {
    const article = at(OF_A, text, end);
    return { value: alone, end: article ? OF_A.lastIndex : end };
  }
  const count = ARTICLES.has(word) ? 1 : Object.hasOwn(ONES, word) ? ONES[word] : undefined;
  if (count === undefined) return undefined;
  const whole = rational(count);
  const fraction = at(A_PART, text, end);
  const share = part(fraction?.[1]);
  // "un quart" and "a quart" are spelt alike: French says the quarter, English the measure.
  const measure = /^quarts?$/i.test(fraction?.[1] ?? "") && word !== "un" && word !== "trois";
  if (share && !measure) {
    const after = A_PART.lastIndex;
    const article = at(OF_A, text, after);
    return { value: multiply(whole, share), end: article ? OF_A.lastIndex : after };
  }
  const read: NumberRead = ARTICLES.has(word) ? { value: whole, end, article: true } : { value: whole, end };
  return withWordFraction(text, read);
}
