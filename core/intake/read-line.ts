import { type ReadOptions, type Unit, unitWord } from "../quantity/index.ts";
import { TO_TASTE } from "../quantity/read.ts";
import { type Found, NONE } from "./line/found.ts";
import { bare, scannedIn } from "./line/marks.ts";
import { SEVERAL } from "./line/several.ts";
import { readWhole } from "./line/whole.ts";
import { SEASONING, splitNote } from "./split-note.ts";
import type { ReadLine } from "./types.ts";

/** What one line says, before its place in the recipe is known. */
export type LineRead = Omit<ReadLine, "at" | "part">;

/** A price at the end of a line: a sheet of costs. */
const PRICE_AFTER =
  /(?:\s{2,}|\s+(?:[@–-]\s*)?)((?:[£$€]|(?:EUR|USD|GBP|CHF|Fr\.|Rs\.?)\s)\s?\d+(?:[.,]\d+)*(?:\s?(?:\/|per )\s?\p{L}+)?|\d+[.,]\d{2}\s?(?:€|£|EUR|CHF|USD|GBP)(?:\s?\/\s?\p{L}+)?)$/iu;

/** "Gros sel  PM": pour mémoire, the cook decides. */
const FOR_MEMORY = /(?:\s{2,}|[,;]\s*|\s)(?:PM|P\.M\.)$|^(?:PM|P\.M\.)\s+(?=\p{L})/u;

const MAYBE = /^(?:evtl\.?|eventuell|optional(?:ly)?:?|facultatif\s?:?|opcional:?|facoltativo:?|ggf\.?)\s+/iu;

/** "chives, tarragon, parsley 1 bunch ea". */
const EACH_LAST = /(?<=\d\s?\p{L}{1,12})\s(ea\.?|each|apiece)$/iu;

/** What is said of each jar, guest or litre. */
const FOR_EACH =
  /\s*(\/\s?(?:kg|kilo|l|litre|liter|portion|pers\.?|person|cover|pax|plate|guest|serve)|(?<=\s)(?:per|pro|par|por|je|für jede[ns]?) (?:cover|plate|jar|person|personne|persona|guest|head|portion|litre|liter|glas|kopf|tête|bocal|tarro|vasetto))$/iu;

/** "Je 2 Zweige Thymian und Rosmarin". */
const EACH_BEFORE = /^(je|each|jeweils)\s+(?=[\d¼½¾⅓⅔⅛])/iu;

const LEFT_TO_COOK =
  /^(?:for|to|pour|para|per|zum|zur|für|optional|facultatif|opcional|facoltativo|as)\b|(?:\bto|\bfor|\bpour|\bpara|\bper)\s\p{L}+$/iu;

/** A line of ingredients is far shorter. */
export const LONGEST_LINE = 400;

/**
 * Reads one line of ingredients: amount, ingredient, note. Never throws; what is not said stays null.
 * A sum is given in its smaller measure, a dozen as twelve.
 */
export function readLine(text: string, options: ReadOptions = {}): LineRead {
  const kept = text.trim();
  if (kept.length > LONGEST_LINE) {
    const doubt = `longer than ${LONGEST_LINE} characters: is this one line?`;
    return { ...NONE, text: kept, ingredient: kept, note: "", toTaste: false, doubt };
  }
  let body = bare(kept);
  const scanned = scannedIn(kept);
  const notes: string[] = [];
  const maybe = MAYBE.exec(body);
  if (maybe) {
    notes.push(maybe[0].replace(/[\s:]+$/u, ""));
    body = body.slice(maybe[0].length);
  }
  const each = FOR_EACH.exec(body) ?? EACH_BEFORE.exec(body);
  if (each) {
    notes.push(each[1]!);
    body = body.replace(each[0], each.index === 0 ? "" : " ").trim();
  }
  const eachLast = /^\p{L}/u.test(body) ? EACH_LAST.exec(body) : null;
  if (eachLast) {
    notes.push(eachLast[1]!);
    body = body.slice(0, eachLast.index);
  }
  const price = PRICE_AFTER.exec(body);
  if (price && price.index > 2) {
    notes.push(price[1]!);
    body = body.slice(0, price.index).trim();
  }
  // The same in each of two columns is said once.
  const twice = /(\s{2,}\p{L}[\p{L}. ]{1,12})\1$/u.exec(body);
  if (twice) {
    notes.push(twice[1]!.trim());
    body = body.slice(0, twice.index + twice[1]!.length);
  }
  const taste = TO_TASTE.exec(body) ?? FOR_MEMORY.exec(body);
  if (taste) {
    const [before, after] = [
      body.slice(0, taste.index).trim(),
      body.slice(taste.index + taste[0].length).trim(),
    ];
    // "burro + q.b. per la teglia": what is left to the cook is more of the same.
    const more = /\s\+$/u.exec(before);
    if (more) notes.push("+");
    // "Sel fin   kg   PM": the column of the measure is left.
    const unit = /\s{2,}(\p{L}{1,6}\.?)$/u.exec(before);
    if (unit && unitWord(unit[1]!)) notes.push(unit[1]!);
    const cut = more?.index ?? (unit && unitWord(unit[1]!) ? unit.index : undefined);
    const bare = cut === undefined ? before : before.slice(0, cut);
    body = bare && after ? `${bare}, ${after}` : bare || after;
  }
  const whole = readWhole(body, notes, options);
  const found = eachLast && whole.low !== null ? { ...whole, each: true } : whole;
  const { ingredient, notes: said } = splitNote(found.rest, found.low !== null, found.each);
  if (found.bracket) notes.push(found.bracket);
  notes.push(...said);
  if (taste) notes.push(taste[0].replace(/^[\s,(]+|[\s,)]+$/g, ""));
  const name = found.kindAfter ? `${ingredient} ${found.kindAfter}`.trim() : ingredient;
  const note = notes.join(", ");
  const left =
    found.low === null && (taste !== null || SEASONING.test(name) || notes.some((n) => LEFT_TO_COOK.test(n)));
  return {
    ...{ text: kept, low: found.low, high: found.high, exact: found.exact, unit: found.unit },
    ...{ ingredient: name, note, toTaste: left },
    doubt: [
      ...(scanned ? [`"${scanned}" is read as figures: check the amount`] : []),
      ...[doubtsOf(found, name, said, left)].filter(Boolean),
    ].join("; "),
  };
}

/** The unit of the amount that a line without list marks gives beyond doubt; undefined when it gives none. */
export function unitIn(body: string, options: ReadOptions = {}): Unit | "" | undefined {
  if (body.length > LONGEST_LINE) return undefined;
  const found = readWhole(body.replace(MAYBE, ""), [], options);
  return found.low === null || found.loose ? undefined : found.unit;
}

const ANOTHER_AMOUNT = /(?:^|\s(?:and|or|et|ou|y|o|e|und|oder)\s|\+\s)\d+(?:[.,/]\d+)?\s+\p{L}{3,}/iu;

function doubtsOf(found: Found, name: string, said: readonly string[], leftToCook: boolean): string {
  if (name === "" && found.low === null) return found.doubt || "there is nothing to read here";
  if (name === "") return "of what? The line gives an amount alone";
  if (found.low === null) return leftToCook ? "" : found.doubt;
  const doubts = found.doubt ? [found.doubt] : [];
  if (found.each) doubts.push("the amount is for each of them: give each its own line");
  else if (
    ANOTHER_AMOUNT.test(name) ||
    said.some((note) =>
      /^(?:\+\s)?\d+(?:[.,/]\d+)?\s+\p{L}{3,}|\s?\/\s\d+(?:[.,/]\d+)?\s?\p{L}{1,5}\s\p{L}{3,}/u.test(note),
    )
  )
    doubts.push(SEVERAL);
  return doubts.join("; ");
}
