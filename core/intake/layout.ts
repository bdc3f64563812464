import { type ReadOptions, unitFacts } from "../quantity/index.ts";
import { TO_TASTE } from "../quantity/read.ts";
import { bare } from "./line/marks.ts";
import { unitIn } from "./read-line.ts";
import { readYield } from "./read-yield.ts";
import { SEASONING, splitNote } from "./split-note.ts";
import { INGREDIENT_HEADINGS, META, METHOD_HEADINGS, NOTE_HEADINGS, PART_KEY, PART_NOUNS } from "./words.ts";

/** One line of the source that is not empty, with what its looks tell. */
export interface Row {
  /** Line of the source, from 1. */
  readonly at: number;
  /** As it stands, without the space around it. */
  readonly text: string;
  /** Without list marks and markdown. */
  readonly body: string;
  readonly afterBlank: boolean;
  readonly indented: boolean;
  readonly bulleted: boolean;
  readonly numbered: boolean;
  /** An amount of food stands at the beginning or the end. */
  readonly amount: boolean;
  readonly words: number;
  /** Ends as a sentence does, or holds one. */
  readonly prose: boolean;
  readonly section: "ingredients" | "method" | "notes" | "mark" | undefined;
}

/** Longer lines are prose, whatever they begin with. */
const LONGEST_HEADING = 60;
const BULLET = /^(?:[-–—*•·▪◦‣☐☑✓✔✅]|\p{Extended_Pictographic}\uFE0F?|\[[ x]?\])\s*/u;
const NUMBERED = /^(?:(?:step|étape|paso|fase|schritt)\s+)?\d{1,2}\s*(?:[.):]|\s[-–])\s+(?=\D)/iu;
const STEP_MARK = /^(?:step|étape|paso|fase|schritt)\s+\d{1,2}\s*[:.]?$/iu;
/** "1 Preheat oven to 150°C. Draw a circle": a number without a dot before more than one sentence. */
const COUNTED_STEP = /^\d{1,2}\s+\p{Lu}\p{Ll}+\s.*\p{Ll}{3}\)?\.\s+\p{Lu}/su;
/** Abbreviations before a German noun or a name end no sentence. */
const SENTENCE =
  /[.!?…]["”')]?$|\p{Ll}{3}(?<!(?:unbeh|gem|gestr|getr|gek|gew|ger|geh|evtl|bzw|inkl|zzgl|stck|teel|eßl|tbsp|tbs|tsp|approx|pkg|pkt|frz|ital))[.!?]\s+\p{Lu}/iu;
const LEADING_NUMBER = /^(?:[~≈]|ca\.?\s|about\s)?[\d¼½¾⅓⅔⅛⅜⅝⅞]/u;

/** Sorts one line by its looks. */
export function rowOf(line: string, at: number, afterBlank: boolean, options: ReadOptions): Row {
  const text = line.trim();
  const body = bare(text.replace(/^#{1,6}\s+/, "").slice(0, 500));
  const section = sectionOf(body);
  const words = text.length > 2000 ? 400 : body.split(/\s+/).length;
  const prose = SENTENCE.test(text.slice(-400).replace(TO_TASTE, " ").trimEnd()) && words > 3;
  const counted = prose && words > 8 && COUNTED_STEP.test(text.slice(0, 500));
  return {
    ...{ at, text, body, afterBlank, words, section },
    indented: /^(?:\s{2,}|\t)\S/.test(line),
    bulleted: BULLET.test(text),
    numbered: NUMBERED.test(text) || STEP_MARK.test(text) || counted,
    amount: !counted && section === undefined && text.length <= 300 && hasAmount(body, words, options),
    prose,
  };
}

function sectionOf(body: string): Row["section"] {
  if (body.length > LONGEST_HEADING) return undefined;
  const plain = body
    .toLowerCase()
    .replace(/[’]/g, "'")
    .replace(/\s*\([^()]*\)\s*:?$/, "")
    .replace(/[\s:.*_=#–—-]+$/u, "")
    .replace(/^[\s:*_=#–—-]+/u, "");
  if (STEP_MARK.test(body)) return "mark";
  if (INGREDIENT_HEADINGS.has(plain)) return "ingredients";
  if (METHOD_HEADINGS.has(plain)) return "method";
  return NOTE_HEADINGS.has(plain) ? "notes" : undefined;
}

function hasAmount(body: string, words: number, options: ReadOptions): boolean {
  const unit = unitIn(body, options);
  if (unit === undefined || readYield(body, options) !== undefined) return false;
  const dimension = unit === "" ? "count" : unitFacts(unit).dimension;
  if (dimension === "time" || dimension === "temperature") return false;
  if (LEADING_NUMBER.test(body)) return /\p{L}{2}/u.test(body);
  // A sentence that ends in "with 2 l of stock" is no line of a list.
  return (
    words <= 12 &&
    !SENTENCE.test(
      body.replace(/\b(?:nos?|nr|ea|pcs?|st|stk|tbsp|tsp|oz|lbs?|gr?|kg|ml|cl|l|pck|pkg)\.$/iu, ""),
    )
  );
}

/** The name in "For the sauce:", "### Sauce", "SAUCE:"; undefined when the row is no heading of a part. */
export function partName(row: Row, next: Row | undefined, previous: Row | undefined): string | undefined {
  if (row.text.length > LONGEST_HEADING || row.amount || row.section || row.numbered || META.test(row.body))
    return undefined;
  const markdown = /^#{2,6}\s/.test(row.text) || /^\*\*[^*]+\*\*:?$/.test(row.text);
  const colon = /[:：]\s*\**$/u.test(row.body) || /[:：]$/u.test(row.text.replaceAll("*", ""));
  const name = row.body.replace(/[\s:：*_]+$/u, "").trim();
  if (name === "" || (row.prose && !colon) || /[.!?]$/.test(name)) return undefined;
  const key = PART_KEY.exec(name);
  const named = key ? name.slice(key[0].length).trim() : name;
  if (markdown || colon) return named;
  if (key && row.words <= 7 && !row.bulleted && !/,|\d/.test(name)) return named;
  if (
    row.bulleted ||
    row.words > 5 ||
    !/^\p{Lu}/u.test(name) ||
    /[,(]|\d|\s[–—-]\s/.test(name) ||
    SEASONING.test(name) ||
    splitNote(name, false).notes.some((note) => /^(?:to|pour|para|per|zum)\b/iu.test(note)) ||
    !next?.amount
  )
    return undefined;
  const capitals = name === name.toUpperCase() && /\p{Lu}{3}/u.test(name);
  const opens =
    row.afterBlank ||
    previous === undefined ||
    previous.section === "ingredients" ||
    !(previous.amount || TO_TASTE.test(previous.body));
  const last = name.toLowerCase().split(/\s+/).at(-1)!;
  const otherBullets = next.bulleted;
  if (capitals || PART_NOUNS.has(last) || otherBullets) return name;
  return opens && !next.afterBlank ? name : undefined;
}
