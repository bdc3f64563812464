import { type ReadOptions, readAmount, unitFacts } from "../../quantity/index.ts";
import { onlyAdjectives, splitNote } from "../split-note.ts";
import { countLast } from "./count-last.ts";
import { type Found, measured, pinchLike } from "./found.ts";

const INSIDE = /[\s,:;–—-]+(?:[x×]\s?)?(?=\.?\d|[½¼¾⅓⅔⅛])/gu;

/** What may follow a measure without a mark: a shape or pack, a size. */
const SHAPE =
  /^(?:pieces?|knobs?|chunks?|tubs?|blocks?|bags?|packs?|packets?|pots?|bars?|bottles?|jars?|tins?|cans?|cartons?|sachets?|fresh|frozen|dried|large|small|medium|cold|warm|melted|softened|heaped|level|rounded|packed|approx\.?|total|net|veg|vegetable|chicken|beef|veal|fish|white|brown|dark)(?=$|[\s,(])/iu;

/** "Butter, 80 g, cold", "Ginger - 1 inch piece, chopped", "mayo 2kg tub": name, measure, and what is said of it. */
export function amountInside(body: string, notes: string[], options: ReadOptions): Found | undefined {
  if (!/^\p{L}/u.test(body)) return undefined;
  for (const match of body.matchAll(INSIDE)) {
    const [name, tail] = [body.slice(0, match.index), body.slice(match.index + match[0].length)];
    if (name.length < 2 || name.length > 80 || /\d/.test(name)) continue;
    const read = readAmount(tail, options);
    if (read.low === null || read.unit === "piece" || read.unit === null) continue;
    const { dimension } = unitFacts(read.unit);
    if (dimension === "time" || dimension === "temperature") continue;
    const at = tail.lastIndexOf(read.rest);
    const parted =
      read.rest === "" ||
      /[,;(–—-]\s*$/u.test(tail.slice(0, at)) ||
      SHAPE.test(read.rest) ||
      // "prunes 300g pitted", "Ghee - 1 tbsp to finish"
      splitNote(`it ${read.rest}`, true).ingredient === "it";
    if (!parted) continue;
    if (read.rest) notes.push(read.rest);
    return measured({ ...read, rest: name.replace(/[\s,:;–—-]+$/u, "") }, body, notes);
  }
  return undefined;
}

/** "Butter, 80 g, cold", "Marrow bones - 12 pcs, cut", "red onions x3, sliced". */
const AMOUNT_BETWEEN =
  /^(\p{L}[^,\d]{1,60}?)(,\s*|\s*:\s*|\s+[–—-]\s*|\s+[x×]\s?|\s+)(\d[^,]{0,20}),\s+(\p{L}.*)$/u;

/** "Marrow bones - 12 pcs, cut": a count between the name and its note. */
export function countInside(body: string, notes: string[]): Found | undefined {
  const middle = AMOUNT_BETWEEN.exec(body);
  if (!middle) return undefined;
  const [, name, mark, amount, after] = middle;
  const count = countLast(mark!.trim() === "" ? `${name} ${amount}` : `${name} - ${amount}`);
  if (count) notes.push(after!);
  return count;
}

const SIZES =
  "(?:very )?(?:small|sm\\.|large|lg\\.|big|medium|med\\.|good|generous|scant|heaped|rounded|fat|petite?|gros(?:se)?|bon(?:ne)?|gran(?:de)?|pequeñ[oa]|buen[oa]?|generos[oa]|piccol[oa]|abbondante|kleine[rs]?|große[rs]?|gute[rs]?|kräftige[rs]?)";

/** "Sale un pizzico": an article and a measure behind the name. */
const MEASURE_LAST = new RegExp(
  `^(.{2,80}?)(?:,?\\s+|\\s*[:–—-]\\s+)(?:un|una|uno|une|ein|eine|a|an)\\s+(?:(${SIZES})\\s+)?(\\p{L}{3,20})(?:,\\s+(\\D.*))?$`,
  "iu",
);

/** "thyme, small bunch". */
const SIZED_LAST = new RegExp(
  `^(.{2,80}?)(?:,|\\s[–—-])\\s+(?:(${SIZES})\\s+)?(pinch|dash|handful|bunch|sprig|clove|head|pincée|poignée|botte|brin|pizca|puñado|manojo|ramita|pizzico|manciata|mazzetto|rametto|Prise|Handvoll|Bund|Zweig)(?:,\\s+(\\D.*))?$`,
  "iu",
);

/** "pimentón, media cucharadita": the amount in words behind the name. */
const WORDS_LAST = /^(\p{L}.{1,80}?)(?:,|:|\s[–—-])\s+(\p{L}[^,;]{4,40})$/u;

/** The measure in words behind the name: one, or as many as the words say. */
export function wordsLast(body: string, notes: string[], options: ReadOptions): Found | undefined {
  const last = MEASURE_LAST.exec(body) ?? SIZED_LAST.exec(body);
  if (last && pinchLike(last[3]!)) {
    const again = readAmount(`1 ${last[3]} ${last[1]}`, options);
    if (again.low !== null) {
      if (last[2]) notes.push(last[2]);
      if (last[4]) notes.push(last[4]);
      return measured(again, body, notes);
    }
  }
  const words = WORDS_LAST.exec(body);
  if (!words) return undefined;
  const tail = readAmount(words[2]!, options);
  const whole = tail.low !== null && tail.unit !== "piece" && tail.rest === "";
  return whole ? measured({ ...tail, rest: words[1]! }, body, notes) : undefined;
}

/** "parmesan (about 50 g), to serve": no amount but the one in brackets. */
const HELD_AMOUNT =
  /^(\p{L}[^\d(]{1,80}?)\s*\((?:(about|approx\.?|ca\.?|circa|environ|etwa|~)\s*)?([^()]{1,30})\)(.*)$/iu;

/** A time, a heat or a length in brackets is no amount of the thing. */
const NOT_HELD = /\b(?:min|mins|minutes?|h|hours?|cm|mm|in|inch(?:es)?|each|je|°)\b|°|%/iu;

/** The amount in brackets alone. A title may say so as well, "Sorbetto (1 litro)": it makes no line by itself. */
export function heldAmount(body: string, notes: string[], options: ReadOptions): Found | undefined {
  const held = HELD_AMOUNT.exec(body);
  if (!held || NOT_HELD.test(held[3]!)) return undefined;
  const inside = readAmount(held[3]!, options);
  if (inside.low === null || inside.unit === "piece" || inside.rest !== "") return undefined;
  if (held[2]) notes.push(held[2]);
  return { ...measured({ ...inside, rest: `${held[1]}${held[4]}` }, body, notes), loose: true };
}

export const PURPOSE = /^(?:for|to|pour|para|per|für|zum|zur)\s/iu;

const LABEL = /^(\p{L}[\p{L} ]{1,25}?)(?:\s*:|\s[–-])\s+((?=[\d½¼¾⅓⅔]).+)$/u;

/** "slaw: 3 white cabbage", "rub - 500g salt": what it is for stands first. */
export function labelled(body: string, notes: string[], options: ReadOptions): Found | undefined {
  const label = LABEL.exec(body);
  if (!label) return undefined;
  const read = readAmount(label[2]!, options);
  if (read.low === null || read.rest === "" || onlyAdjectives(read.rest)) return undefined;
  if (read.unit === "piece" && !/\s/.test(read.rest) && !PURPOSE.test(body)) return undefined;
  notes.push(label[1]!);
  return { ...measured(read, label[2]!, notes), loose: read.unit === "piece" };
}
