import { type Rational, toNumber } from "../numerics/rational.ts";
import { LADLE_FL_OZ, SCOOP_NUMBERS, type Unit } from "./units.ts";
import { type Country, localUnit, longestUnit, unitWord } from "./words.ts";

/** A measure found in a text and where it ends. */
export type UnitRead = {
  readonly unit: Unit;
  readonly times?: Rational;
  readonly end: number;
  readonly approx?: true;
  readonly note?: string;
  /** The word before the measure as written: "heaped", "level". */
  readonly said?: string;
  readonly doubt?: string;
};

const TOKEN = /(?:\s+|-)?([\p{L}°º˚#]+(?:[.'’][\p{L}]+)*\.?)/uy;
const NUMBERED = /\s*(?:level\s+)?(?:#|no\.?|n°|nr\.?)\s?(\d{1,3})[\s-]+(scoops?|dishers?|cans?|tins?)\b/iy;
const SCOOP = /\s*(?:level\s+)?(?:scoops?|dishers?),?\s*(?:#|no\.?|n°|nr\.?)?\s*(\d{1,3})\b/iy;
const LADLE =
  /\s*(?:ladles?\s+(?:of\s+)?(\d{1,2})\b(?:\s?oz\b\.?)?|(\d{1,2})[\s-]?(?:fl\.?\s?)?oz\.?[\s-]+ladles?\b)/iy;
const INCH_MARK = /["″”]/y;
const OF = /\s+(?:(?:of|de|di|von)\s+(?:an?\s+|une?\s+)?|d['’])/iuy;
const LEVEL = "level|gestr\\.|gestrichene[rn]?|ras|rase|rases|raso|rasa|rasi";
const LOOSE =
  "healthy|hefty|tiny|heaped|heaping|rounded|generous|scant|sm\\.|lg\\.|med\\.|fat|plump|bons?|bonnes?|belles?|beaux|fort|forte|fortes|grosses|large|kräftige[rn]?|gute[rn]?|buena|buen|gran|generosa|generoso|bel|bella|abbondante|discreta|thick|thin|wide|long|short|gehäuft\\.|geh\\.|good|big|large|small|medium|packed|gehaufte[rn]?|gehäufte[rn]?|bombee|bombée|colmad[oa]s?|colm[oai]|gros|grosse|petit|petite|pequeñ[oa]|grande|kleine[rs]?|großer?|großes";
const MODIFIER = new RegExp(`(?:^|\\s+)(?:(${LEVEL})|(${LOOSE}))(?=\\s)`, "iuy");

function at(pattern: RegExp, text: string, from: number): RegExpExecArray | null {
  pattern.lastIndex = from;
  return pattern.exec(text);
}

/**
 * The measure that stands at `from`, longest name first, past a word such as "heaped".
 * `count` is the number before it: it tells 20 C of oven from 2 C of flour.
 */
export function readUnit(
  text: string,
  from: number,
  country: Country,
  count?: Rational,
): UnitRead | undefined {
  const plain = plainUnit(text, from, country, count);
  if (plain) return plain;
  // "a quarter of a cup", "1/2 de tasse": a share may stand apart from its measure.
  if (count && count.n < count.d && at(OF, text, from)) {
    const shared = plainUnit(text, OF.lastIndex, country, count);
    if (shared) return shared;
  }
  const modifier = at(MODIFIER, text, from);
  if (!modifier) return undefined;
  const unit = plainUnit(text, MODIFIER.lastIndex, country, count);
  if (!unit) return undefined;
  const loose = modifier[2];
  const said = modifier[0].trim();
  return loose ? { ...unit, approx: true, note: loose.toLowerCase(), said } : { ...unit, said };
}

function plainUnit(text: string, from: number, country: Country, count?: Rational): UnitRead | undefined {
  if (at(INCH_MARK, text, from)) return { unit: "in", end: INCH_MARK.lastIndex };
  const numbered = numberedUnit(text, from);
  if (numbered) return numbered;
  const ends: number[] = [];
  let most = 4;
  for (let end = from; ends.length < most; ) {
    const token = at(TOKEN, text, end);
    if (!token) break;
    end = TOKEN.lastIndex;
    if (ends.length === 0) most = longestUnit(token[1]!);
    if (most === 0) return undefined;
    ends.push(end);
  }
  for (const end of ends.reverse()) {
    const phrase = text.slice(from, end).replace(/^[\s-]+/, "");
    const word = unitWord(phrase);
    if (!word) continue;
    if (/^[cC]\.?$/.test(phrase) && count && toNumber(count) >= 25) {
      return { unit: "°C", end, doubt: `${phrase} after so large a number is read as °C, not as cups` };
    }
    // "1 cc de sel" is a cuillère à café; nobody measures one millilitre so.
    if (/^cc$/i.test(phrase) && count && toNumber(count) < 5)
      return { unit: "metric tsp", end, doubt: "cc is read as a teaspoon of 5 mL, not as 1 mL" };
    const unit = word.local ? localUnit(word.unit, country) : word.unit;
    const approx =
      unit === "pinch" || unit === "dash" || unit === "handful" ? ({ approx: true } as const) : {};
    return {
      unit,
      end,
      ...approx,
      ...(word.times ? { times: word.times } : {}),
      ...(word.doubt ? { doubt: word.doubt } : {}),
    };
  }
  return undefined;
}

/** "#16 scoop", "scoop No. 16", "4-oz ladle", "#10 can". */
export function numberedUnit(text: string, from: number): UnitRead | undefined {
  const numbered = at(NUMBERED, text, from);
  if (numbered) {
    const end = NUMBERED.lastIndex;
    if (/^[ct]/i.test(numbered[2]!)) {
      const said = numbered[0].replace(/\s*\p{L}+$/u, "").trim();
      return { unit: "can", end, note: `No. ${numbered[1]} can`, said };
    }
    return scoop(numbered[1]!, end);
  }
  const reversed = at(SCOOP, text, from);
  if (reversed) return scoop(reversed[1]!, SCOOP.lastIndex);
  const ladle = at(LADLE, text, from);
  if (!ladle) return undefined;
  const size = LADLE_FL_OZ.find((n) => String(n) === (ladle[1] ?? ladle[2]));
  return size ? { unit: `ladle ${size}`, end: LADLE.lastIndex } : undefined;
}

function scoop(number: string, end: number): UnitRead | undefined {
  const known = SCOOP_NUMBERS.find((n) => String(n) === number);
  return known ? { unit: `scoop ${known}`, end } : undefined;
}
