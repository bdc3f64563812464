import { toNumber } from "../numerics/rational.ts";
import { pieceName, type ReadOptions, readAmount, type Unit, unitFacts } from "../quantity/index.ts";
import { readNumber } from "../quantity/read-number.ts";
import type { ReadYield } from "./types.ts";
import { PORTION_KEY, PORTION_WORDS, YIELD_KEY } from "./words.ts";

/** Longest text that is looked at as a yield. */
const LONGEST = 120;
const ABOUT =
  /^(?:about|approx(?:imately)?\.?|around|roughly|circa|environ|etwa|ca\.?|unos|unas|aprox\.?)\s+/iu;
const PIECES = /\b(?:pcs?|pieces?|st(?:ü|u)ck|stk|piezas|unidades|pezzi|pièces?)(?!\p{L})/iu;
const TIMES = /^\s*[x×]\s*/u;
const SERVED =
  /\b(?:serves|feeds|makes|yields?|pour|para|per|für|ergibt)\s+(?:about\s+|environ\s+|etwa\s+|ca\.\s+|circa\s+)?(?=[\d½¼¾]|(?:one|two|three|four|five|six|eight|ten|twelve|a dozen)\s)/giu;
const COUNTED = /\(?\s*(\d{1,4}(?:\s*(?:-|–|to|à|a|bis)\s*\d{1,4})?)\s+(\p{L}+)\s*\)?$/u;

/**
 * Reads "Serves 4", "Makes two 23 cm tarts", "Pour 6 personnes", "Ergibt 12 Stück", "4 Portionen".
 * @returns undefined when the text does not say what it makes.
 */
export function readYield(text: string, options: ReadOptions = {}): Omit<ReadYield, "at"> | undefined {
  const line = text.trim();
  if (line === "" || line.length > LONGEST) return undefined;
  const body = line.replace(/^[^\p{L}\p{N}(]+/u, "").replaceAll("**", "");
  const portions = PORTION_KEY.exec(body);
  if (portions) {
    const fed = !/^\(?\s*(?:servings?|portions?)/iu.test(portions[0]);
    return made(line, body.slice(portions[0].length), fed, options);
  }
  const key = YIELD_KEY.exec(body);
  if (key) return made(line, body.slice(key[0].length), false, options);
  const read = readAmount(body, options);
  const counted = read.low !== null && read.unit === "piece" && PORTION_WORDS.test(read.rest);
  return counted ? made(line, body, false, options) : undefined;
}

/** A yield said within a title or at the end of a step: "Gazpacho (6 raciones)", "… Makes about 5 dozen." */
export function yieldWithin(text: string, options: ReadOptions = {}): Omit<ReadYield, "at"> | undefined {
  if (text.length > 4000) return undefined;
  for (const match of text.matchAll(SERVED)) {
    const tail = text.slice(match.index).split(/[.!?)]\s|[.!?)]$|,\s/u, 1)[0]!;
    const read = readYield(tail.slice(0, LONGEST), options);
    if (read && read.what !== "") return read;
  }
  const counted = COUNTED.exec(text.slice(-80));
  return counted && PORTION_WORDS.test(counted[2]!)
    ? readYield(`${counted[1]} ${counted[2]}`, options)
    : undefined;
}

function made(
  text: string,
  said: string,
  fed: boolean,
  options: ReadOptions,
): Omit<ReadYield, "at"> | undefined {
  const rest = said
    .replace(ABOUT, "")
    .replace(/[).\s]+$/u, (end) => (end.includes(")") && said.includes("(", 1) ? ")" : ""));
  const read = readAmount(rest, options);
  if (read.low === null || read.high === null) return undefined;
  const dimension = unitFacts(read.unit ?? "piece").dimension;
  if (dimension === "time" || dimension === "temperature") return undefined;
  const range = { low: read.low, high: read.high };
  if ((dimension === "mass" || dimension === "volume") && !read.beside?.each)
    return { text, ...range, unit: read.unit as Unit, what: read.rest };
  // "two 23 cm tarts", "5 x 340g jars": what is made is everything after the number.
  const number = readNumber(rest, 0, options.decimal);
  const sized = read.beside?.each || (read.unit !== null && pieceName(read.unit) !== undefined);
  const what =
    sized && number
      ? rest.slice(number.end).replace(TIMES, "").trim()
      : [read.rest, ...(read.said ?? [])].filter(Boolean).join(", ");
  const each = read.unit === "dozen" ? 12 : 1;
  const counted = sized && number && read.low === read.high ? toNumber(number.value) : undefined;
  range.low = counted ?? read.low * each;
  range.high = counted ?? read.high * each;
  if (read.unit === "piece" && PIECES.test(rest)) return { text, ...range, unit: "", what: what || "pieces" };
  if (fed || PORTION_WORDS.test(what) || (what === "" && read.unit === "piece"))
    return { text, ...range, unit: "", what: "portions" };
  return { text, ...range, unit: "", what: what || (read.unit === "dozen" ? "pieces" : (read.unit ?? "")) };
}
