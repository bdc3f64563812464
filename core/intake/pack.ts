import { multiply, parseRational, type Rational, rational, toNumber, toText } from "../numerics/rational.ts";
import { pieceName, type Unit, unitFacts } from "../quantity/index.ts";
import { readUnit } from "../quantity/read-unit.ts";

/** A pack as sold: so many inner units of so much each. */
export interface Pack {
  readonly innerPerPack: number;
  /** Content of one inner unit: mass, volume or count. */
  readonly inner: { readonly value: number; readonly unit: Unit };
  /** Sold by what it weighs: the size is nominal. */
  readonly catchWeight: boolean;
  /** True for "per kg": the price is of one measure, whatever the pack weighs. */
  readonly perMeasure: boolean;
  readonly doubt: string;
}

/** US can sizes in cups: USDA/ICN Basics at a Glance (about; No. 10 "12 to 13"). */
const CAN_CUPS: Readonly<Record<string, string>> = {
  ...{ "1": "5/4", "300": "7/4", "303": "2", "2": "5/2", "2.5": "7/2", "3": "23/4", "10": "25/2" },
};
/** Longest text that is read as a pack. */
const LONGEST = 80;
const CATCH =
  /\b(?:catch ?-?w(?:eight|t)?|c\/w|cw|random ?w(?:eight|t)?|rw|r\/w|variable|poids variable|peso variabile|average|avg|approx|circa|env|environ|ca)\b\.?|[~≈±]/giu;
const PER =
  /^(?:(?:price )?(?:per|by(?: the)?|\/|le|la|par|por|al|pro|je|il)\s*)?(kgs?|kilos?|lbs?|pounds?|#|g|100 ?g|l|lit(?:er|re)s?)$/iu;
const CONTAINERS =
  /\b(?:cases?|cs|ctn|cartons?|boxes|box|bx|bags?|sacks?|tubs?|pails?|buckets?|trays?|flats?|crates?|caisses?|colis|karton|kiste|kisten|caja|cajas|cassa|cassetta|sachets?|seau|bidon|jerrycan|jerry|bottles?|btls?|jars?|tins?|cans?|packs?|pk|pkt|pouch(?:es)?|blocks?|wheels?|drums?|net|of|à|a|de|di|von|da|con|mit|with|each)\b\.?/giu;
const NUMBER = /(?:\d{1,6}(?:[.,]\d{1,4})?|[.,]\d{1,4}|(?:\d{1,3}\s?)?[½¼¾⅓⅔])/uy;
const GLYPH: Readonly<Record<string, string>> = {
  "½": "1/2",
  "¼": "1/4",
  "¾": "3/4",
  "⅓": "1/3",
  "⅔": "2/3",
};
const TIMES = /\s*(?:[x×*/@]|-(?=\s))\s*/iuy;
const COUNTED = /\s*(?:ea|ct|cnt|count|pcs?|pce|pieces?|units?|stk|stück|ud|uds|pz|no)\b\.?\s*/iuy;
const CAN = /\s*#\s?(10|2\.5|2 ?1\/2|2½|300|303|1|2|3)(?![\d.])(?:\s*(?:cans?|tins?))?/iuy;

/**
 * Reads a pack: "6/#10", "2x2.5kg", "case 12 ea 750ml", "flat 30", "10/2 lb", "8-10 lb avg", "per kg".
 * @returns undefined when it says no size. Never throws.
 */
export function readPack(text: string): Pack | undefined {
  if (text.length > LONGEST) return undefined;
  const said = text.trim().toLowerCase();
  if (said === "") return undefined;
  const catchWeight = CATCH.test(said);
  CATCH.lastIndex = 0;
  const bare = said
    .replace(CATCH, " ")
    .replace(CONTAINERS, " ")
    .replace(/[()]/g, " ")
    .replace(/\s+/g, " ")
    .trim();
  const per = PER.exec(bare);
  if (per) return perMeasure(per[1]!, catchWeight || bare !== "");
  if (/^(?:ea|each|stk|stück|pc|piece|unit|ud|pz|bunch|head)?$/.test(bare) && said !== "") {
    if (bare === "" && !/each|ea/.test(said)) return undefined;
    return { ...ONE, inner: { value: 1, unit: bare === "bunch" || bare === "head" ? bare : "piece" } };
  }
  return counted(bare, catchWeight);
}

const ONE = { innerPerPack: 1, catchWeight: false, perMeasure: false, doubt: "" };

function perMeasure(word: string, catchWeight: boolean): Pack {
  const hundred = /^100/.test(word);
  const unit = readUnit(word.replace(/^100 ?/, ""), 0, "us")?.unit ?? "kg";
  return { ...ONE, inner: { value: hundred ? 100 : 1, unit }, catchWeight, perMeasure: true };
}

function counted(text: string, catchWeight: boolean): Pack | undefined {
  const factors: Rational[] = [];
  const doubts: string[] = [];
  let at = 0;
  let weighed = catchWeight;
  for (let guard = 0; guard < 6; guard++) {
    const can = stick(CAN, text, at);
    if (can) {
      const size = can[1]!.replace(/ ?1\/2|½/, ".5");
      doubts.push(
        `a No. ${size} can is read as ${toText(parseRational(CAN_CUPS[size]!)!)} cups (USDA/ICN): the label gives its weight`,
      );
      return pack(factors, parseRational(CAN_CUPS[size]!)!, "cup", weighed, doubts);
    }
    const number = stick(NUMBER, text, at);
    if (!number) break;
    let value = figure(number[0]);
    if (!value || value.n === 0n) return undefined;
    at = NUMBER.lastIndex;
    // "8-10 lb": pieces of between; the middle is taken.
    const range = stick(/\s*(?:-|–|to)\s*(\d{1,5}(?:[.,]\d{1,3})?)(?=\s*(?:kg|lb|g|oz|#))/iuy, text, at);
    if (range) {
      const high = figure(range[1]!);
      if (high)
        value = multiply({ n: value.n * high.d + high.n * value.d, d: value.d * high.d }, rational(1, 2));
      doubts.push(`"${number[0]}${range[0]}" is a range: its middle is taken`);
      weighed = true;
      at += range[0].length;
    }
    const unit = stick(CAN, text, at) ? undefined : readUnit(text, at, "us");
    if (unit && !/^[x]$/i.test(text.slice(at, unit.end).trim())) {
      const { dimension } = unitFacts(unit.unit);
      if (dimension === "mass" || dimension === "volume") {
        if (/^1\/2\b/.test(text) && factors.length === 1) {
          doubts.push(`"${text}" is read as half a ${unit.unit}: or one of 2 ${unit.unit}?`);
          value = rational(1, 2);
        }
        // "750 ml x 12": the count may follow.
        const after = stick(/\s*[x×*]\s*(\d{1,4})\b/iuy, text, unit.end);
        if (after && factors.length === 0) factors.push(rational(Number(after[1])));
        return pack(factors, value, unit.unit, weighed, doubts);
      }
      if (unit.unit === "dozen") return pack([...factors, value], rational(12), "piece", weighed, doubts);
      if (pieceName(unit.unit)) return pack([...factors, value], rational(1), unit.unit, weighed, doubts);
      if (unit.unit !== "piece") return undefined;
    }
    factors.push(value);
    const ends = stick(COUNTED, text, at);
    if (ends) at = COUNTED.lastIndex;
    const times = stick(TIMES, text, at);
    if (times) at = TIMES.lastIndex;
    else if (!ends) at = stick(/\s+/y, text, at) ? at + 1 : at;
    if (at >= text.length) break;
  }
  const left = text.slice(at).trim();
  if (factors.length === 0 || /\d/.test(left)) return undefined;
  if (left !== "") doubts.push(`"${left}" is taken as what is counted`);
  if (/^\d+\/(?:10|2\.5|300|303)$/.test(text))
    doubts.push(`"${text}" is read as pieces: or No. ${text.split("/")[1]} cans?`);
  return pack(factors, rational(1), "piece", weighed, doubts);
}

/** What a pattern finds exactly here. */
function stick(pattern: RegExp, text: string, at: number): RegExpExecArray | null {
  pattern.lastIndex = at;
  return pattern.exec(text);
}

function figure(text: string): Rational | undefined {
  const glyph = /^(\d{1,3})?\s?([½¼¾⅓⅔])$/u.exec(text);
  if (glyph) return parseRational(glyph[1] ? `${glyph[1]} ${GLYPH[glyph[2]!]}` : GLYPH[glyph[2]!]!);
  const plain = text.replace(",", ".");
  return parseRational(plain.startsWith(".") ? `0${plain}` : plain);
}

function pack(
  factors: readonly Rational[],
  value: Rational,
  unit: Unit,
  catchWeight: boolean,
  doubts: readonly string[],
): Pack | undefined {
  const count = factors.reduce(multiply, rational(1));
  if (count.d !== 1n || count.n < 1n || count.n > 1_000_000n) return undefined;
  const inner = { value: toNumber(value), unit };
  return { innerPerPack: Number(count.n), inner, catchWeight, perMeasure: false, doubt: doubts.join("; ") };
}
