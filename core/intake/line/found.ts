import { parseRational, toNumber, toText } from "../../numerics/rational.ts";
import { convertExactly } from "../../quantity/convert.ts";
import { pieceName, type Reading, type Unit, unitFacts, unitWord } from "../../quantity/index.ts";

/** What a line says of its amount, with the words that are left. */
export interface Found {
  low: number | null;
  high: number | null;
  exact: { low: string; high: string } | null;
  unit: Unit | "";
  rest: string;
  doubt: string;
  kindAfter?: string;
  /** Only a count behind the name says so ("Uova 3"): good within a list, not enough to make a line one. */
  loose?: boolean;
  /** The amount is for each of several. */
  each?: boolean;
  bracket?: string;
}

/** No amount. */
export const NONE = { low: null, high: null, exact: null, unit: "" as const, doubt: "" };

/** Kinds of piece that, written after the ingredient, belong to its name: bay leaves, cinnamon sticks. */
export const PART_OF_NAME: ReadonlySet<string> = new Set([
  "leaf",
  "fillet",
  "stick",
  "sheet",
  "slice",
  "can",
  "glass",
]);

/** After French, Spanish and Italian measures an adjective may come before "de". */
const LATE_ADJECTIVE =
  /^(circa|environ|aprox(?:imadamente)?\.?|ca\.|etwa|fines?|épaisses?|rases?|ras[oi]|bombées?|soperas?|colmad[oa]s?|rasas?|grandes?|petites?|pequeñ[oa]s?|chic[oa]s?|median[oa]s?|copetead[oa]s?|panzon[oa]s?|generos[oa]s?|llen[oa]s?|bien llen[oa]s?|bien colmad[oa]s?|tamaño \p{L}{2,10}|da (?:tè|caffè|latte|cucina|vino|acqua|liquore)|à (?:liqueur|vin|eau|thé|moutarde|porto|madère|bière|bordeaux)|bien (?:pleine?s?|remplie?s?)|colm[oi]|abbondant[ei]|sottil[ei]|generos[oaie]|scars[oai]|hermos[oa]s?)\s+(?:(?:de|di|del|della)\s+|d['’])/iu;

/** Shapes and packs after a weight, volume or length. */
const PACK_WORD =
  /^(bars?|bunch(?:es)?|balls?|wedges?|tubs?|cartons?|jars?|packs?|packets?|packages?|tins?|cans?|bottles?|bags?|boxes|box|pieces?|sachets?|envelopes?|knobs?|chunks?|punnets?|pouch(?:es)?|pkgs?\.?|pkts?\.?|ctns?\.?|barquettes?|briques?|briks?|vaschett[ae]|bandejas?|blocks?|slabs?|thumbs?|pots?|containers?|trozos?|stück|pezz[oi]|morceaux?|pedazos?)\s+(?:(?:of|de|di|von)\s+|d['’])?(?=\p{L})/iu;

const COUNTED_PACK =
  /^(würfel|becher|trozos?|pedazos?|(?:bons?|beaux?|gros|petits?|grands?)?\s?morceaux?(?= de | d['’])|(?:buen|gran|bel|grosso)?\s?(?:trozo|pezzo|pezzetto)(?= d[ie] )|cesp[io]|päckchen|(?:pots?|potes?|bricks?|briks?|briques?|cubes?|cubos?|cubett[oi]|barquettes?|vaschett[ae]|bandejas?|tarrinas?|berlingots?)(?=\s(?:de|di)\s|\sd['’]))\s+(?:(?:de|di)\s+|d['’])?(?=\p{L})/iu;

const EACH_FIRST = /^(each|de chaque|de cada|di ciascun[oa])(?:\s*:|\s+of(?=\s)|(?=\s))\s*/iu;

/** "8 cl garlic": no garlic is measured in centilitres. */
const GARLIC = /^(?:garlic|ail|ajo|aglio|knoblauch)(?![\p{L}])/iu;

/** French sizes of tins: "1 boîte 4/4 de tomates". */
const TIN_SIZE = /^([1-5]\/\d)\s+(?:de\s+|d['’])/iu;

/** A reading with its pack, its adjectives and its kind of piece put in their places; notes are added to. */
export function measured(read: Reading, body: string, notes: string[]): Found {
  notes.push(...(read.said ?? []));
  let { rest } = read;
  let unit: Unit = read.unit ?? "piece";
  let [low, high] = [parseRational(read.exact!.low)!, parseRational(read.exact!.high)!];
  const smaller = read.smallest ?? (unit === "dozen" ? "piece" : undefined);
  if (smaller) {
    const [a, b] = [convertExactly(low, unit, smaller), convertExactly(high, unit, smaller)];
    if (a.ok && b.ok) [low, high, unit] = [a.value, b.value, smaller];
  }
  const dimension = unitFacts(unit).dimension;
  const take = (pattern: RegExp) => {
    const word = pattern.exec(rest);
    if (!word) return false;
    notes.push(word[1]!);
    rest = rest.slice(word[0].length);
    return true;
  };
  if (unit !== "piece") take(LATE_ADJECTIVE);
  if (dimension !== "count") take(PACK_WORD);
  if (unit === "piece") take(COUNTED_PACK);
  if (unit === "can") take(TIN_SIZE);
  const each = take(EACH_FIRST);
  // "1/2 a lemon"
  if (toNumber(high) < 1) rest = rest.replace(/^(?:an?|une?|una|eine[rs]?)\s+(?=\p{L})/iu, "");
  // "1 Knoblauchzehe, gepresst": the measure is the thing itself, what follows is a note.
  const before = body.endsWith(rest) ? body.slice(0, body.length - rest.length) : body;
  const itself = pieceName(unit) ? /(?:^[^\p{L}]*|\s)(\p{L}+)\s*,\s*$/u.exec(before)?.[1] : undefined;
  if (itself && unitWord(itself)?.unit === unit) {
    rest = `${itself}, ${rest}`;
    if (!/knoblauch/iu.test(itself)) unit = "piece";
  }
  if (unit === "bunch" && /^garnis?(?!\p{L})/iu.test(rest)) [unit, rest] = ["piece", `bouquet ${rest}`];
  let kindAfter = read.kindAfter;
  if (kindAfter && PART_OF_NAME.has(unit)) unit = "piece";
  else kindAfter = undefined;
  if (unit === "cL" && GARLIC.test(rest)) unit = "clove";
  if (rest === "" && pieceName(unit)) {
    // "2 Knoblauchzehen", "4 cloves": the measure is the thing itself.
    rest = /\p{L}[\p{L}\s-]*$/u.exec(body)?.[0] ?? "";
    if (!/knoblauch/iu.test(rest)) unit = "piece";
  }
  return {
    ...{ low: toNumber(low), high: toNumber(high), exact: { low: toText(low), high: toText(high) } },
    ...{ unit: unit === "piece" ? ("" as const) : unit, rest, doubt: read.doubt ?? "" },
    ...(kindAfter ? { kindAfter } : {}),
    ...(each ? { each } : {}),
  };
}

/** True for a word that counts pieces or spoons: it may stand behind the name. */
export function pinchLike(word: string): boolean {
  const unit = unitWord(word)?.unit;
  return unit !== undefined && (pieceName(unit) !== undefined || unitFacts(unit).dimension === "volume");
}
