import { type ReadOptions, unitFacts, unitWord } from "../../quantity/index.ts";
import { type LineRead, readLine } from "../read-line.ts";

/** Marks that part two things in one line: "nduja 50g / sugar 10g", "1 egg yolk + 1 tbsp milk". */
const BETWEEN = /\s[/+&]\s|;\s+/gu;

/** "sugar 1 tsp, salt 1/2 tsp": commas part things only where each begins with its name and ends with its amount. */
const NAME_FIRST =
  /^(?!plus\s)\p{L}[^\d,;]{1,40}(?<!\s(?:to|of|about|à|de|a|di|auf|von|circa|environ))[\s–-]\s*(?:\d[\d.,/]*|[½¼¾])(?:\s?\p{L}{1,6}\.?)?$/u;

/** A form of the thing before it, no thing of its own. */
const FORM =
  /^(?:juice|zest|peel|pulp|jus|zestes?|pulpe|saft|schale|abrieb|jugo|zumo|ralladura|succo|scorza)(?!\p{L})/iu;

/** What more of the same is for, no thing of its own: "+ 20 g pour la cuisson", "+ un poco más para rebozar". */
const MORE =
  /^(?:for|to|as|pour|para|per|zum|zur|für|(?:un )?(?:peu|poco|po['’]?|bisschen|wenig)|little|bit|m[áa]s|more|extra|de plus)(?!\p{L})/iu;

/** Longer lines are prose. */
const LONGEST = 200;

/**
 * The lines written in one: several where every piece reads as an amount of something of its own, else the one.
 * Each keeps its own words as they stand. What may be one thing or the other ("200 g beef mince / 200 g soya mince": a
 * word in common) stays one line, with its doubt.
 */
export function readLines(text: string, options: ReadOptions = {}): LineRead[] {
  const pieces = text.length > LONGEST ? [] : piecesOf(text.trim());
  if (pieces.length > 1) {
    const lines = pieces.map((piece) => readLine(piece, options));
    if (lines.every(standsAlone) && apart(lines)) return lines;
  }
  return [readLine(text, options)];
}

function piecesOf(text: string): string[] {
  const cuts = [...text.matchAll(BETWEEN)].filter(({ index }) => depthAt(text, index) === 0);
  if (cuts.length === 0) {
    const named = text.split(/,\s+/u);
    return named.every((piece) => NAME_FIRST.test(piece)) ? named : [];
  }
  const pieces: string[] = [];
  let from = 0;
  for (const { 0: mark, index } of cuts) {
    pieces.push(text.slice(from, index).trim());
    from = index + mark.length;
  }
  return [...pieces, text.slice(from).trim()];
}

/** How many brackets are open at a place. */
function depthAt(text: string, end: number): number {
  let depth = 0;
  for (let i = 0; i < end; i++) depth += text[i] === "(" ? 1 : text[i] === ")" ? -1 : 0;
  return depth;
}

function standsAlone({ text, low, unit, ingredient, doubt }: LineRead): boolean {
  if (low === null || doubt !== "" || !/\p{L}{3}/u.test(ingredient)) return false;
  const dimension = unit === "" ? "count" : unitFacts(unit).dimension;
  return (
    (dimension === "count" || dimension === "mass" || dimension === "volume") &&
    unitWord(ingredient) === undefined &&
    !FORM.test(ingredient) &&
    !MORE.test(ingredient) &&
    // "Egg wash: 4 yolks": a label that was taken for the thing.
    !text.startsWith(`${ingredient}:`)
  );
}

/** No two of them share a word that says what they are. */
function apart(lines: readonly LineRead[]): boolean {
  const seen = new Set<string>();
  return lines.every(({ ingredient }) => {
    const words = new Set(ingredient.toLowerCase().match(/\p{L}{4,}/gu));
    const fresh = [...words].every((word) => !seen.has(word));
    for (const word of words) seen.add(word);
    return fresh;
  });
}
