import { parseRational, toNumber, toText } from "../numerics/rational.ts";
import { convertExactly } from "../quantity/convert.ts";
import {
  pieceName,
  type Reading,
  type ReadOptions,
  readAmount,
  type Unit,
  unitFacts,
  unitWord,
} from "../quantity/index.ts";
import { TO_TASTE } from "../quantity/read.ts";
import { SEASONING, splitNote } from "./split-note.ts";
import type { ReadLine } from "./types.ts";

/** What one line says, before its place in the recipe is known. */
export type LineRead = Omit<ReadLine, "at" | "part">;

/** List marks, check boxes and small pictures before the first word or number. */
const BULLET = /^(?:[^\p{L}\p{N}([.~≈±+#]|[+#](?=\s))+/u;
const LIST_NUMBER = /^\d{1,2}[.)]\s+(?=[\d¼½¾⅓⅔⅛]|\p{L})/u;
const LEADERS = /\s*(?:\.{3,}|…{2,}|\.{2}(?=\s)|(?:\.\s){3,}|_{2,}|\t)[\s.]*/gu;
/** "1 - 28 oz can": one can of a size, no range. */
const COUNT_DASH_SIZE =
  /^(\d{1,2})\s+[-–]\s+(\d{1,4}(?:\.\d{1,2})?)[\s-]?(oz|ounce|g|lb|ml)\.?\s+(?=(?:cans?|tins?|jars?|packages?|pkgs?|bags?|bottles?|boxes|box|cartons?)\b)/iu;
/** "Zwiebel(n)", "Zehe/n" */
const MAYBE_PLURAL = /(\p{L})(?:\((?:n|en|e|er|s|es)\)|\/(?:n|en|s))(?=[\s,]|$)/gu;
/** "Sale un pizzico": an article and a measure behind the name. */
const MEASURE_LAST = /^(.{2,80}?),?\s+(?:un|una|uno|une|ein|eine|a|an)\s+(\p{L}{3,20})$/iu;
/** "Butter, 80 g, cold". */
const AMOUNT_BETWEEN = /^(\p{L}[^,\d]{1,60}),\s*(\d[^,]{1,20}),\s+(\p{L}.*)$/u;
const PERCENT_AFTER = /[\s–—-]+(\d{1,4}(?:[.,]\d{1,3})?\s?%)$/u;
const MAYBE = /^(?:evtl\.?|eventuell|optional(?:ly)?:?|facultatif\s?:?|opcional:?|facoltativo:?|ggf\.?)\s+/iu;
const OF = /^(?:of\s+|(?:de|di|du|des|del|della|dello|delle|dei|degli|von|vom)\s+|d['’]\s?)/iu;
/** Measures that no scale knows. */
const UNMEASURED =
  /^((?:(?:an?|the|1|one|une?|una|uno|eine?n?)\s+)?(?:(?:good|large|small|generous|big|little|petite?|bonne?|gran|buon|kleine[rn]?|guter?)\s+)?(?:glugs?|drizzles?|splash(?:es)?|knobs?|squeezes?|dollops?|dabs?|sprinkl(?:es?|ing)|lugs?|grinds?|(?:noix|noisette|nuez|noce)(?= (?:de|di) (?:beurre|mantequilla|burro))|filet(?= (?:d['’](?:huile|eau)|de (?:citron|vinaigre|jus|sirop|crème|lait|miel|sauce|vin|rhum)))|chorr[oe]|filo|goccio|schuss|klecks|stich|flöckchen))\s+(?:(?:of|de|di|von)\s+|d['’]\s?)?(?=\p{L})/iu;
/** After French, Spanish and Italian measures an adjective may come before "de". */
const LATE_ADJECTIVE =
  /^(circa|environ|aprox(?:imadamente)?\.?|ca\.|etwa|fines?|épaisses?|rases?|bombées?|soperas?|colmad[oa]s?|rasas?|grandes?|petites?|pequeñ[oa]s?|colm[oi]|abbondant[ei]|sottil[ei]|generos[oaie]|scars[oai]|hermos[oa]s?)\s+(?:(?:de|di|del|della)\s+|d['’])/iu;
/** Shapes and packs after a weight, volume or length. */
const PACK_WORD =
  /^(tubs?|cartons?|jars?|packs?|packets?|packages?|tins?|cans?|bottles?|bags?|boxes|box|pieces?|sachets?|envelopes?|knobs?|chunks?|blocks?|slabs?|thumbs?|pots?|containers?|trozos?|stück|pezz[oi]|morceaux?|pedazos?)\s+(?:(?:of|de|di|von)\s+|d['’])?(?=\p{L})/iu;
const COUNTED_PACK = /^(würfel|becher|trozos?|pedazos?|cesp[io]|päckchen)\s+(?:(?:de|di)\s+)?(?=\p{L})/iu;
const EACH_FIRST = /^(each)\s+/iu;
/** "Hot sauce, a few dashes": no number, the measure behind the name. */
const FEW_LAST =
  /^(.{2,80}?),\s+(a few|some|several|quelques|un[oa]s|alcun[ei]|qualche|einige|ein paar)\s+(\p{L}{3,20})$/iu;
const SOME = /^(un[oa]s|des|qualche)\s+(?=\p{L})/iu;
/** "Eggs 3", "Uova  2 (medie)", "Radicchio, 2 cespi", "Bay leaves  6 no.". */
const COUNT_LAST =
  /^([^\d]{2,80}?)(\s{2,}|\s*[,:–—]\s+|\s+-\s+|\s)([1-9]\d{0,3})(?:\s*(?:no|nr|stk|stück|ea|each|pcs?|pz|uds?|x)\.?)?(?:\s+(\p{L}{2,20}))?(?:\s*\(([^()]*)\))?\.?$/iu;
const COUNT_IN_BRACKETS = /^([^\d()]{2,80})\((\d{1,3})\)$/u;
/** Kinds of piece that, written after the ingredient, belong to its name: bay leaves, cinnamon sticks. */
const PART_OF_NAME: ReadonlySet<string> = new Set([
  "leaf",
  "fillet",
  "stick",
  "sheet",
  "slice",
  "can",
  "glass",
]);
const LEFT_TO_COOK =
  /^(?:for|to|pour|para|per|zum|zur|für|optional|facultatif|opcional|facoltativo|as)\b|(?:\bto|\bfor|\bpour|\bpara|\bper)\s\p{L}+$/iu;

/** A line of ingredients is far shorter. */
export const LONGEST_LINE = 400;

/** Noughts that a scanner moved away: "3 0 g", "1 0 leaves". */
const APART = /^(\d{1,2}) (0{1,2})(?=\s|k?g\b|ml\b)/u;
/** "1/2 tsp.fennel": the space is missing. */
const NO_SPACE = /\b(tsps?|tbsps?|oz|lbs?|gr?|kg|ml|cl|EL|TL)\.(?=\p{Ll}{3})/gu;
/** "Saft einer halben Zitrone". */
const GENITIVE =
  /^((?:(?:fein )?(?:abgeriebene|geriebene) )?(?:Saft|Schale|Abrieb)(?: und (?:Saft|Schale|Abrieb))?) eine[rs]( halben)? /iu;
/** What is said of each jar, guest or litre. */
const FOR_EACH =
  /\s+((?:per|pro|par|por|je|für jede[ns]?) (?:jar|person|personne|persona|guest|head|portion|litre|liter|glas|kopf|tête|bocal|tarro|vasetto))$/iu;
/** "Je 2 Zweige Thymian und Rosmarin". */
const EACH_BEFORE = /^(je|each|jeweils)\s+(?=[\d¼½¾⅓⅔⅛])/iu;

/** Figures that a scanner took for letters: "lOOg", "3OOml", "l tbsp"; only before a measure. */
const SCANNED =
  /^(?=[\dlIO]*[lIO])(?:[lI\d][\dlIO]*)(?=\s?(?:k?g|ml|cl|l|oz|lbs?)\b|\s(?:tbsps?|tsps?|cups?|tablespoons?|teaspoons?|bunch|pinch|sprigs?)\b)/u;
const SPOONS = /\b(table|tea) spoon(s|fuls?)?\b/giu;

/** The line without its list mark, with one kind of space. */
export function bare(text: string): string {
  return text
    .replace(BULLET, "")
    .replaceAll("**", "")
    .replace(LIST_NUMBER, "")
    .replace(LEADERS, "  ")
    .replace(SCANNED, (figures) => figures.replace(/[lI]/g, "1").replaceAll("O", "0"))
    .replace(SPOONS, "$1spoon$2")
    .replace(APART, "$1$2")
    .replace(NO_SPACE, "$1. ")
    .replace(GENITIVE, (_, part, half) => `${part} von ${half ? "1/2" : "1"} `)
    .replace(/\bc\/s\b/iu, "cda")
    .replace(MAYBE_PLURAL, "$1")
    .replace(/^[x×]\s?(?=\d)/iu, "")
    .replace(/^(\d{1,3})\s?[x×]\s+(?=\p{L})/iu, "$1 ")
    .replace(COUNT_DASH_SIZE, "$1 ($2 $3) ")
    .trim();
}

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
  const unmarked = kept.replace(BULLET, "");
  const scanned = SCANNED.exec(unmarked) ?? APART.exec(unmarked);
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
  const taste = TO_TASTE.exec(body);
  if (taste) {
    const [before, after] = [
      body.slice(0, taste.index).trim(),
      body.slice(taste.index + taste[0].length).trim(),
    ];
    // "burro + q.b. per la teglia": what is left to the cook is more of the same.
    const more = /\s\+$/u.exec(before);
    if (more) notes.push("+");
    const bare = more ? before.slice(0, more.index) : before;
    body = bare && after ? `${bare}, ${after}` : bare || after;
  }
  const found = readWhole(body, notes, options);
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
      ...(scanned ? [`"${scanned[0]}" is read as figures: check the amount`] : []),
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

interface Found {
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

const NONE = { low: null, high: null, exact: null, unit: "" as const, doubt: "" };

function readWhole(body: string, notes: string[], options: ReadOptions): Found {
  if (body === "") return { ...NONE, rest: "" };
  const loose = UNMEASURED.exec(body);
  if (loose) {
    notes.push(loose[1]!);
    return {
      ...NONE,
      rest: body.slice(loose[0].length),
      doubt: `"${loose[1]}" is no measure: how much is it?`,
    };
  }
  const table = columns(body, notes, options);
  if (table) return table;
  const percent = /^\p{L}/u.test(body) ? PERCENT_AFTER.exec(body) : null;
  if (percent) {
    const read = readAmount(body.slice(0, percent.index), options);
    if (read.low !== null) {
      notes.push(percent[1]!);
      return measured(read, body.slice(0, percent.index), notes);
    }
  }
  const read = readAmount(body, options);
  if (read.low !== null) return measured(read, body, notes);
  const middle = AMOUNT_BETWEEN.exec(body);
  if (middle) {
    const between = readAmount(`${middle[1]}, ${middle[2]}`, options);
    if (between.low !== null && between.unit !== "piece") {
      notes.push(middle[3]!);
      return measured(between, `${middle[1]}, ${middle[2]}`, notes);
    }
  }
  const last = MEASURE_LAST.exec(body);
  if (last && pinchLike(last[2]!)) {
    const again = readAmount(`1 ${last[2]} ${last[1]}`, options);
    if (again.low !== null) return measured(again, body, notes);
  }
  return countLast(body) ?? unmeasured(read, body, notes);
}

function pinchLike(word: string): boolean {
  const unit = unitWord(word)?.unit;
  return unit !== undefined && (pieceName(unit) !== undefined || unitFacts(unit).dimension === "volume");
}

/** "Water 1    1750 g    70%": the name, the amount and what else stands in columns. */
function columns(body: string, notes: string[], options: ReadOptions): Found | undefined {
  const cells = body.split(/\s{2,}/);
  if (cells.length < 2 || !/^\p{L}/u.test(body)) return undefined;
  for (let i = 1; i < cells.length; i++) {
    const read = readAmount(cells[i]!, options);
    if (read.low === null || read.unit === "piece" || read.rest !== "") continue;
    notes.push(...cells.slice(i + 1));
    return measured({ ...read, rest: cells.slice(0, i).join(" ") }, body, notes);
  }
  return undefined;
}

/** A count after the name, where `readAmount` wants a measure. */
function countLast(body: string): Found | undefined {
  const last = COUNT_LAST.exec(body);
  const held = last ? null : COUNT_IN_BRACKETS.exec(body);
  const [name, digits] = last ? [last[1]!, last[3]!] : held ? [held[1]!, held[2]!] : [];
  if (name === undefined || digits === undefined) return undefined;
  // "Flour type 55" ends in a number that counts nothing: behind a single space only a few are counted.
  if (last && last[2] === " " && (Number(digits) > 24 || /\b(?:type|typ|no|nr|t|n°)\.?$/iu.test(name)))
    return undefined;
  const [kind, bracket] = [last?.[4], last?.[5]];
  const rest = kind ? `${name.trim()}, ${kind}` : name.trim();
  const count = { ...NONE, low: Number(digits), high: Number(digits), exact: { low: digits, high: digits } };
  return { ...count, rest, loose: last?.[2] === " ", ...(bracket ? { bracket } : {}) };
}

/** "a few sprigs of thyme": no number, though the measure may be known. */
function unmeasured(read: Reading, body: string, notes: string[]): Found {
  let rest = read.rest;
  let doubt = read.doubt ?? "";
  const some = SOME.exec(rest);
  if (some) {
    notes.push(some[1]!);
    rest = rest.slice(some[0].length);
    doubt = `"${some[1]}" is no number: how much is it?`;
  } else if (rest.length < body.length && body.endsWith(rest)) {
    const word = body.slice(0, body.length - rest.length).trim();
    if (/\p{L}/u.test(word)) notes.push(word.replace(/\s+(?:of|de|di)$|\s+d['’]$/iu, ""));
  }
  const behind = FEW_LAST.exec(rest);
  const few = behind && unitWord(behind[3]!);
  if (behind && few && (pieceName(few.unit) || unitFacts(few.unit).dimension === "volume")) {
    notes.push(behind[2]!);
    return { ...NONE, unit: few.unit, rest: behind[1]!, doubt };
  }
  const first = /^\p{L}+\.?/u.exec(rest)?.[0];
  const word = first && notes.length > 0 ? unitWord(first) : undefined;
  if (first && word && (pieceName(word.unit) || unitFacts(word.unit).dimension === "volume")) {
    const after = rest.slice(first.length).trim().replace(OF, "");
    if (after) return { ...NONE, unit: word.unit, rest: after, doubt };
  }
  return { ...NONE, rest, doubt };
}

function measured(read: Reading, body: string, notes: string[]): Found {
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

const ANOTHER_AMOUNT = /(?:^|\s(?:and|or|et|ou|y|o|e|und|oder)\s|\+\s)\d+(?:[.,/]\d+)?\s+\p{L}{3,}/iu;

function doubtsOf(found: Found, name: string, said: readonly string[], leftToCook: boolean): string {
  if (name === "" && found.low === null) return found.doubt || "there is nothing to read here";
  if (name === "") return "of what? The line gives an amount alone";
  if (found.low === null) return leftToCook ? "" : found.doubt;
  const doubts = found.doubt ? [found.doubt] : [];
  if (found.each) doubts.push("the amount is for each of them: give each its own line");
  else if (
    ANOTHER_AMOUNT.test(name) ||
    said.some((note) => /^(?:\+\s)?\d+(?:[.,/]\d+)?\s+\p{L}{3,}/u.test(note))
  )
    doubts.push("the line names another amount too: give each its own line");
  return doubts.join("; ");
}
