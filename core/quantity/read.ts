import { fromNumber, negate, type Rational, rational, toNumber, toText } from "../numerics/rational.ts";
import { FRACTION_GLYPHS } from "./read-number.ts";
import { disagreement, type Quantities, type ReadOptions, readQuantity } from "./read-quantity.ts";
import { numberedUnit, readUnit } from "./read-unit.ts";
import { type Amount, EXACT_TEXT } from "./schema.ts";
import { pieceName, type Unit, unitFacts } from "./units.ts";
import { localUnit } from "./words.ts";

/** A second measure given beside the first: "(about 40 g)". */
export type Beside = { low: number; high: number; unit: Unit; each?: true; approx?: true };

/** What a text says of an amount. What it does not say stays null: nothing is guessed in silence. */
export type Reading = {
  /** Least and most, in `unit`; equal when one number is given; null when none is. */
  low: number | null;
  high: number | null;
  unit: Unit | null;
  /** The same two numbers exactly: "1 3/4". */
  exact: { low: string; high: string } | null;
  approx?: true;
  toTaste?: true;
  beside?: Beside;
  /** Of a sum ("1 lb 4 oz"): its smallest measure. */
  smallest?: Unit;
  /** The kind of piece as written, when it stands after the ingredient ("bay leaves"). */
  kindAfter?: string;
  /** Words of the text, as written, that belong to neither the amount nor the rest: "about", "14-ounce". */
  said?: string[];
  /** What is left of the text: the ingredient and its preparation. */
  rest: string;
  /** What was said of the measure: "heaped", "2 × 400 g". */
  note?: string;
  /** What a person should settle; several are joined by "; ". */
  doubt?: string;
};

/** Longest text that is read; a line of a recipe is far shorter. */
const LONGEST = 400;
/** More digits than any pattern of a number takes: read in part, they would become another number. */
const ENDLESS = /(?<![.,\d])\d{10,}|\d{41,}/;
const BULLET = /^(?:[-–—*•·▪◦‣☐✓]\s+)+/u;
const ABOUT =
  /^(?:(?:about|approx(?:imately)?|around|roughly|circa|environ|env|etwa|ungefähr|zirka|unos|unas|aprox|aproximadamente|cerca de|ca|c|(?:up|close) to|at (?:least|most)|not quite|just (?:under|over)|almost|nearly|max|min|au moins|jusqu['’]à|al menos|hasta|casi|almeno|fino a|quasi|mind(?:estens)?|höchstens|bis zu|fast|knapp(?:e[rsn]?)?|gut(?:e[rsn]?)?|reichlich)(?:\.\s*|\s+)|(?:an?\s+)?(?:generous|scant|good|heaping|heaped|rounded|level|full)\s+(?=[\d¼½¾⅓⅔⅛]|half)|[~≈±]\s*)(?=\S)/iu;
const WORD_FIRST = /^\p{L}/u;
const MINUS = /^[-−](?=[\d.,])/;
/** "To taste" in the five languages, with the commas and brackets around it. */
export const TO_TASTE =
  /[,(\s]*\b(?:(?:or|more|plus more)\s+)?(?:to taste|as needed|as required|q\.?\s?b\.?|q\.?\s?s\.?|quanto basta|al gusto|a gusto|a piacere|au goût|selon (?:le |votre )?goût|à volonté|nach (?:geschmack|belieben|bedarf)|t\.?t\.?|n\.\s?b\.|(?<!\d\s?)c\s?\/\s?[ns])(?![\p{L}\d])\)?[,\s]*/iu;
/** Quick: a line without any of these says nothing of taste. */
const MAY_TASTE =
  /taste|needed|required|basta|gusto|piacere|go[uû]t|volont|geschmack|belieben|bedarf|\b(?:q\.?\s?[bs]|t\.?t|n\.\s?b|c\s?\/)/i;
const VAGUE =
  /^(?:a few|few|several|some|a couple(?: of)?|a little|a bit of|a touch of|a hint of|quelques|un peu de|un po' di|alcun[ei]|unos cuantos|unas cuantas|algun[oa]s|qualche|ein paar|ein wenig|ein bisschen|wenig|einige|etwas|un poco de|un pelín de)\s+/iu;
/** "Juice of 2 lemons": what is counted is the lemon. */
const PART_OF =
  /^((?:the |la |le |el |il |lo )?(?:(?:(?:finely )?grated )?(?:juice (?:and|&|\+) (?:zest|rind)|(?:zest|rind) (?:and|&|\+) juice|juice|zest|rind)|yolks?|whites?|zestes? et jus|jus et zestes?|jus|zestes?|jaunes?|blancs?|zumo y ralladura|ralladura y zumo|zumo|jugo|ralladura|yemas?|claras?|scorza e succo|succo e scorza|succo|scorza|tuorl[oi]|album[ei]|(?:(?:fein )?(?:abgeriebene|geriebene|abger\.|ger\.|frisch gepresster) )?(?:saft und (?:schale|abrieb)|(?:schale|abrieb) und saft|saft|abrieb|schale)|peel|peau|piel|cáscara|buccia)(?:\s\p{L}{4,15})?)\s+(?:(?:of|from|de|di|von|aus)\s+|d['’])(?=\S)/iu;
const OF = /^\s*(?:of\s+(?:an?\s+)?|(?:de|di|du|des|del|della|dello|delle|dei|degli|von|vom)\s+|d['’]\s?)/iu;
/** What may stand behind an amount at the end: a mark, "ish", brackets. */
const BEHIND =
  /^[\s.;,-]*(ish|or so|or more|or less|at least|max\.?|approx\.?|ca\.?|circa|environ|net|gross|total|aprox\.?)?[\s.;,]*(?:\([^()]*\))?[\s.;,]*$/iu;
const SLASH = new RegExp(`^\\s*[/|]\\s*(?=[\\d${FRACTION_GLYPHS}])`);
const BRACKETS = /\(([^()]*)\)/;
const EACH = /\b(?:each|apiece|a piece|chacune?|cada un[oa]|ciascun[oa]|je|jeweils)\b/iu;
const ALTOGETHER = /\b(?:in all|in total|total|altogether|en tout|en total|in tutto|insgesamt)\b/iu;
const NUMBER_INSIDE = new RegExp(`[\\s,:;]+(?:[x×]\\s*)?(?=\\.?\\d|[${FRACTION_GLYPHS}])`, "gu");

/**
 * Reads the amount a line of a recipe starts with, or ends with ("Flour 500 g").
 * Knows fractions, ranges, sums, sizes in brackets, decimal commas and the measures of five languages.
 * Never throws: what cannot be read comes back as nulls with a doubt that says why.
 */
export function readAmount(text: string, options: ReadOptions = {}): Reading {
  if (text.length > LONGEST)
    return unread(text, `longer than ${LONGEST} characters: give one line at a time`);
  const line = text.replace(BULLET, "").trim();
  if (line === "") return unread("", "there is nothing to read: write an amount such as 250 g");
  const endless = ENDLESS.exec(line)?.[0];
  if (endless) return unread(line, `${endless.length} digits in a row are no amount: write at most 9`);
  const taste = MAY_TASTE.test(line) ? TO_TASTE.exec(line) : null;
  const body = taste
    ? `${line.slice(0, taste.index)} ${line.slice(taste.index + taste[0].length)}`.trim()
    : line;
  const found = WORD_FIRST.test(body) && VAGUE.test(body) ? undefined : readAnywhere(body, options);
  if (found) return taste ? { ...found, note: joined(found.note, "or to taste") } : found;
  if (taste) return { ...empty(body.replace(/^[,;:\s]+|[,;:\s]+$/g, "")), toTaste: true };
  return withoutNumber(body);
}

/** The document's amount for a reading of one number; null for a range, "to taste" or an unread text. */
export function amountOf(reading: Reading): Amount | null {
  const { low, high, unit, exact } = reading;
  if (low === null || low !== high || unit === null || exact === null || low < 0) return null;
  const asDecimal = toText(fromNumber(low)) === exact.low;
  return { value: asDecimal || !EXACT_TEXT.test(exact.low) ? low : exact.low, unit };
}

function readAnywhere(body: string, options: ReadOptions): Reading | undefined {
  const part = WORD_FIRST.test(body) ? PART_OF.exec(body) : null;
  if (part) {
    const read = leading(body.slice(part[0].length), options);
    if (read) return { ...read, rest: joined(read.rest, part[1]).replace("; ", ", ") };
  }
  return leading(body, options) ?? trailing(body, options);
}

const empty = (rest: string): Reading => ({ low: null, high: null, unit: null, exact: null, rest });
const unread = (rest: string, doubt: string): Reading => ({ ...empty(rest), doubt });
const joined = (...parts: (string | undefined)[]) => parts.filter((part) => part).join("; ");

function leading(body: string, options: ReadOptions): Reading | undefined {
  const about = /^\d/.test(body) ? "" : (ABOUT.exec(body)?.[0] ?? "");
  const read = leadingAfter(body, about.length, options);
  return read && about ? { ...read, said: [about.trim(), ...(read.said ?? [])] } : read;
}

function leadingAfter(body: string, about: number, options: ReadOptions): Reading | undefined {
  const minus = MINUS.test(body.slice(about)) ? 1 : 0;
  const start = about + minus;
  const read = readQuantity(body, start, options) ?? bareMeasure(body, start, options);
  if (!read) return undefined;
  if (minus === 0) return finish(body, read, about > 0, options);
  // A minus before a temperature is a minus; before anything else it is a list's dash.
  const cold = read.unit !== null && unitFacts(read.unit).dimension === "temperature";
  const signed = cold ? { ...read, low: negate(read.low), high: negate(read.high) } : read;
  return finish(body, signed, about > 0, options);
}

const SIZED: ReadonlySet<Unit> = new Set<Unit>(["packet", "can", "jar", "bottle", "head", "clove", "sprig"]);

/** "pinch of salt", "#16 scoop": a measure that counts as one without being told. */
function bareMeasure(body: string, from: number, options: ReadOptions): Quantities | undefined {
  const unit = numberedUnit(body, from) ?? readUnit(body, from, options.country ?? "us");
  if (!unit) return undefined;
  const [vague, numbered] = [
    unit.unit === "pinch" || unit.unit === "dash",
    /^(?:scoop|ladle) /.test(unit.unit),
  ];
  const rest = body.slice(unit.end);
  const loose = unit.unit === "handful" || unit.unit === "bunch";
  // "small pack coriander": with its size said, a pack needs no "of".
  const sized = unit.said !== undefined && SIZED.has(unit.unit);
  if (!vague && !numbered && !loose && !sized && !(pieceName(unit.unit) && OF.test(rest))) return undefined;
  const doubts = vague || numbered ? [] : [`no number before "${body.slice(from, unit.end)}": read as one`];
  const one = rational(1);
  return {
    ...{ low: one, high: one, unit: unit.unit, end: unit.end, approx: vague, notes: [], doubts },
    ...(unit.said ? { said: [unit.said] } : {}),
  };
}

/** "Flour 500 g", "Eggs: 3", "Milk, 1,5 l (about 3 pints)". */
function trailing(body: string, options: ReadOptions): Reading | undefined {
  for (const match of body.matchAll(NUMBER_INSIDE)) {
    // "Farina 00 250 g": a number with a nought before it is a name.
    if (/^0\d/.test(body.slice(match.index + match[0].length))) continue;
    const read = readQuantity(body, match.index + match[0].length, options);
    const marked = /[:x×]/.test(match[0]);
    if (!read || (read.unit === null && !marked)) continue;
    const after = body.slice(read.end);
    const about = BEHIND.exec(after);
    if (!about) continue;
    // "Flour type 55 500 g" may be two numbers.
    const start = match.index + match[0].length;
    const split = /^\d{1,3}[\s](\d{3}\D.*)/.exec(body.slice(start, read.end));
    const doubts = split ? [`read as ${toNumber(read.low)} ${read.unit}: is it ${split[1]!.trim()}?`] : [];
    const before = body.slice(0, match.index).replace(/[\s,:;–—-]+$/u, "");
    const near = /\s(?:about|approx\.?|ca\.?|circa|environ|etwa|unos|unas|~)$/iu.exec(before);
    const name = near ? before.slice(0, near.index) : before;
    const found = { ...read, end: 0, doubts: [...read.doubts, ...doubts] };
    const loose = near?.[0].trim() ?? about[1];
    const tail = about[1] ? after.replace(about[1], "") : after;
    const reading = finish(`${name} ${tail}`, found, loose !== undefined, options);
    return loose ? { ...reading, said: [loose, ...(reading.said ?? [])] } : reading;
  }
  return undefined;
}

function withoutNumber(body: string): Reading {
  const vague = VAGUE.exec(body);
  if (vague) {
    const rest = body.slice(vague[0].length).replace(OF, "");
    return unread(rest, `"${vague[0].trim()}" is no number: how much is it?`);
  }
  if (/\d\s*(?:%|percent)/i.test(body))
    return unread(body, "a percentage is of something: give an amount, or say of what");
  if (/\d\s*[/⁄]\s*0+(?!\d)/.test(body)) return unread(body, "a fraction cannot have the denominator 0");
  return unread(body, "no amount is given: write one such as 250 g, or “to taste”");
}

/** Looks at what stands after the quantity, and puts the reading together. */
function finish(body: string, read: Quantities, about: boolean, options: ReadOptions): Reading {
  const doubts = [...read.doubts];
  let rest = body.slice(read.end).replace(OF, "");
  let unit = read.unit;
  const approx = about || read.approx;
  let beside: Beside | undefined = read.each && {
    ...{ low: toNumber(read.each.value), high: toNumber(read.each.value) },
    ...{ unit: read.each.unit, each: true },
  };
  const said = [...(read.said ?? [])];
  let kindAfter: string | undefined;
  if (unit === null) ({ unit, rest, kindAfter } = pieceIn(rest));
  const slash = /[/|]/.test(rest) ? SLASH.exec(rest) : null;
  const second = slash ? readQuantity(rest, slash[0].length, options) : undefined;
  if (slash && second?.unit) {
    doubts.push(...compared(read, unit, second, false));
    beside ??= besideOf(second, false, false);
    said.push(rest.slice(slash[0].length, second.end).trim());
    rest = rest.slice(second.end).replace(OF, "");
  }
  const brackets = rest.includes("(") ? BRACKETS.exec(rest) : null;
  const inside = brackets ? insideBrackets(brackets[1]!, options) : undefined;
  if (brackets && inside) {
    const each = EACH.test(brackets[1]!);
    doubts.push(...compared(read, unit, inside.read, each));
    const several = unit !== null && unitFacts(unit).dimension === "count" && toNumber(read.high) > 1;
    if (several && unit !== "stick" && !each && !ALTOGETHER.test(brackets[1]!)) {
      doubts.push(`is "${brackets[1]!.trim()}" for each, or for all together (as read)?`);
    }
    beside ??= besideOf(inside.read, each, inside.about);
    said.push(brackets[1]!.trim());
    const after = rest.slice(brackets.index + brackets[0].length);
    // "50 ml (3 cucharadas) de aceite": the "of" stands behind the brackets.
    const opens = rest.slice(0, brackets.index).trim() === "";
    rest = opens ? after.trimStart().replace(OF, "") : `${rest.slice(0, brackets.index)} ${after}`;
  }
  if (unit === "piece" && read.unit === null && toNumber(read.high) >= 50) {
    doubts.push(`no measure after ${toNumber(read.high)}: read as that many pieces`);
  }
  const note = joined(...read.notes);
  return {
    ...{ low: toNumber(read.low), high: toNumber(read.high), unit },
    exact: { low: toText(read.low), high: toText(read.high) },
    ...(approx ? { approx: true } : {}),
    ...(beside ? { beside } : {}),
    ...(read.smallest ? { smallest: read.smallest } : {}),
    ...(kindAfter ? { kindAfter } : {}),
    ...(said.length > 0 ? { said } : {}),
    rest: tidy(rest),
    ...(note ? { note } : {}),
    ...(doubts.length > 0 ? { doubt: joined(...new Set(doubts)) } : {}),
  };
}

const tidy = (text: string) =>
  text
    .replace(/\s+/g, " ")
    .replace(/\s+,/g, ",")
    .replace(/^[\s,;:.–—-]+|[\s,;:–—-]+$/gu, "");

/** "3 garlic cloves" counts cloves: the kind of piece may stand after the ingredient. */
function pieceIn(rest: string): { unit: Unit; rest: string; kindAfter?: string } {
  const words = /^\s*((?:\p{L}+\s+){1,3}?)(\p{L}+)\s*(?=$|[,(;])/u.exec(rest);
  const named = words && readUnit(words[2]!, 0, "us");
  if (!words || !named || !pieceName(named.unit)) return { unit: "piece", rest };
  const left = `${words[1]!.trim()}${rest.slice(words[0].length)}`;
  return { unit: named.unit, rest: left, kindAfter: words[2]! };
}

function insideBrackets(
  text: string,
  options: ReadOptions,
): { read: Quantities; about: boolean } | undefined {
  const trimmed = text.trim();
  const about = ABOUT.exec(trimmed)?.[0].length ?? 0;
  const read = readQuantity(trimmed, about, options);
  if (!read?.unit) return undefined;
  const left = trimmed.slice(read.end).replace(EACH, "").replace(ALTOGETHER, "");
  // Brackets that hold more than a measure stay with the ingredient's words, but "400 g / 14 oz" is two measures.
  return /^[\s,.]*(?:[/|]\s*\d.*)?$/.test(left) ? { read, about: about > 0 } : undefined;
}

function besideOf(read: Quantities, each: boolean, about: boolean): Beside {
  return {
    ...{ low: toNumber(read.low), high: toNumber(read.high), unit: read.unit! },
    ...(each ? { each: true } : {}),
    ...(about || read.approx ? { approx: true } : {}),
  };
}

/** Two measures of one line that differ by more than a kitchen's rounding are told. */
function compared(read: Quantities, unit: Unit | null, other: Quantities, each: boolean): string[] {
  if (unit === null || other.unit === null || each) return [];
  const off = disagreement(read.low, unit, other.low, other.unit);
  if (off === undefined || off <= AGREES) return [];
  // "300 ml/½ pint": the imperial pint agrees where the US one does not.
  if (["fl oz", "pt", "qt", "gal"].includes(other.unit)) {
    const imperial = disagreement(read.low, unit, other.low, localUnit(other.unit, "imperial"));
    if (imperial !== undefined && imperial <= AGREES) return [];
  }
  const show = (value: Rational, of: Unit) => `${toNumber(value)} ${of}`;
  return [`${show(read.low, unit)} and ${show(other.low, other.unit)} differ by ${Math.round(off * 100)} %`];
}
/** Printed recipes round 236.6 mL to 240 and 453.6 g to 450: up to 6 % is taken as agreement. */
const AGREES = 0.06;
