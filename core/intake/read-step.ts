import { toNumber } from "../numerics/rational.ts";
import { convert, unitFacts } from "../quantity/index.ts";
import { FRACTION_GLYPHS } from "../quantity/read-number.ts";
import { readQuantity } from "../quantity/read-quantity.ts";
import type { ReadStep } from "./types.ts";

/** Text of a step that is looked through; longer is kept unread. */
export const LONGEST_STEP = 20_000;
/** An amount of time or heat is never longer than this. */
const WINDOW = 70;

/** Times in words, written in figures for the reader. */
const IN_WORDS: readonly (readonly [RegExp, string])[] = [
  [
    /\b(?:three[ -]quarters of an hour|trois quarts d['’]heure|tres cuartos de hora|tre quarti d['’]ora|(?:eine )?dreiviertelstunde)/giu,
    "45 min",
  ],
  [
    /\b(?:(?:a )?quarter of an hour|(?:un )?quart d['’]heure|(?:un )?cuarto de hora|(?:un )?quarto d['’]ora|(?:eine )?viertelstunde)/giu,
    "15 min",
  ],
  [
    /\b(?:(?:an|one|une|una|un|eine) ?['’]? ?(?:hour|heure|hora|ora|stunde)) (?:and a half|et demie|y media|e mezza|und eine halbe)/giu,
    "90 min",
  ],
  [/\b(\d{1,2}) (?:hours?|heures?|horas?|ore) (?:and a half|et demie|y media|e mezza)/giu, "$1.5 h"],
  [
    /\b(?:half an hour|(?:une )?demi-?\s?heure|media hora|mezz['’]ora|mezza ora|(?:eine )?halbe stunde)/giu,
    "30 min",
  ],
  [/\b(?:anderthalb|eineinhalb) stunden/giu, "90 min"],
  [/\bun['’]ora\b/giu, "1 h"],
  [/\b(?:une dizaine|una decina|unos diez) (?:de |di )?minut[oeis]+/giu, "10 min"],
  [/\b(?:une quinzaine|una quindicina) (?:de |di )?minut[oeis]+/giu, "15 min"],
  [/\b(?:une vingtaine|una ventina) (?:de |di )?minut[oeis]+/giu, "20 min"],
  [/(\d)\s?['’′](?=[\s.,;)]|$)/gu, "$1 min"],
  [
    /(\d)\s?(?:h|hrs?|hours?|std|stunden?)\.? (\d{2})(?=\s*[,.;)]|\s*$|\s+(?!min|m\b|s\b|to\b|bis\b)\p{L})/giu,
    "$1 h $2 min",
  ],
];
const WORD_NUMBERS =
  "an?|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|half|une|deux|trois|quatre|cinq|six|huit|dix|una|dos|tres|cuatro|cinco|seis|ocho|diez|due|tre|quattro|cinque|sei|dieci|eine?|zwei|drei|vier|fünf|sechs|acht|zehn";
const START = new RegExp(`(?<![\\p{L}\\d.,/])(?:[\\d${FRACTION_GLYPHS}]|(?:${WORD_NUMBERS})(?=\\s))`, "giu");

/** A time after these is no time of the step: every 5 minutes, after 10 minutes, within 6 hours. */
const NOT_ADDED =
  /(?:\b(?:every|each|after|within|under|less than|last|final|first|from the|toutes? les|chaque|après|dernières|cada|después de|tras|últimos|ogni|dopo|ultimi|alle|nach|letzten|ersten|binnen|innerhalb von|keeps?(?: for| up to)?|shelf life:?|se conserve|si conserva|hält(?: sich)?|haltbar|up to)\s+(?:about\s+)?)$/iu;
/** "Hold 5 days" says how long it keeps; "hold 10 minutes" is a time of the step. */
const HELD = /\b(?:hold|store)s?(?: for| up to)?\s+(?:about\s+)?$/iu;
const AHEAD =
  /^\s*(?:ahead|beforehand|before (?:the end|serving)|in advance|earlier|ago|à l['’]avance|avant (?:la fin|de servir)|antes de (?:servir|terminar)|prima di (?:servire|fine)|vorher|zuvor|vor dem (?:servieren|ende)|old)\b/iu;
const PER_SIDE =
  /^\s*(?:(?:per|a|each|on each|on either|on both|for each|de chaque|par|por|por cada|de cada|per|per ogni|pro|je|auf jeder|von jeder)\s+(?:sides?|face|côté|lado|lato|seite))\b/iu;
const FAN = /^\s*(?:fan|convection|chaleur tournante|ventilado|ventilato|umluft)/iu;
const GAS = /\bgas(?: mark)?\s*(\d{1,2}(?!\d|\/)|[¼½]|1\/[24])/iu;
/** "180C/fan 160C": the second is the same oven with its fan on. */
const FAN_BEFORE = /(?:fan|convection|umluft|heißluft|chaleur tournante|ventilato|ventilado)\s*:?\s*$/iu;
const THERMOSTAT = /\bth(?:ermostat|\.)?\s*(\d{1,2})/iu;
const OVERNIGHT =
  /(?<!\p{L})(?:overnight|over night|toute (?:une|la) nuit|une nuit|toda la noche|una noche|la víspera|tutta la notte|una notte|über nacht|eine nacht)(?!\p{L})/iu;
/** Ovens by word: °C from to. Common practice, no source. */
const OVENS: readonly (readonly [RegExp, string, string])[] = [
  [/\bvery (?:slow|cool|low) oven/iu, "very slow oven", "120 to 140 °C"],
  [
    /\b(?:slow|cool|low) oven|four doux|horno (?:suave|bajo)|forno dolce|schwacher hitze im ofen/iu,
    "slow oven",
    "140 to 160 °C",
  ],
  [
    /\bmoderate(?:ly hot)? oven|four (?:modéré|moyen)|horno (?:moderado|medio)|forno moderato|mittelheiße[rmn]? (?:ofen|backofen)/iu,
    "moderate oven",
    "170 to 190 °C",
  ],
  [
    /\bvery hot oven|four très chaud|horno muy caliente|forno molto caldo/iu,
    "very hot oven",
    "230 to 250 °C",
  ],
  [
    /\b(?:hot|quick) oven|four chaud|horno (?:caliente|fuerte)|forno caldo(?! a)|heiße[rmn]? (?:ofen|backofen)/iu,
    "hot oven",
    "200 to 220 °C",
  ],
];
/** °C of gas marks 1 to 10: 140 °C at 1, about 14 °C (25 °F) a mark. Common practice, no source. */
const gasMarkC = (mark: number) => ((275 + 25 * (mark - 1) - 32) * 5) / 9;

/** Marks ¼ and ½ are 225 and 250 °F. */
const gasC = (said: string): number | null => {
  const low = /^(?:¼|1\/4)$/.test(said) ? 225 : /^(?:½|1\/2)$/.test(said) ? 250 : null;
  if (low !== null) return Math.round(((low - 32) * 5) / 9);
  const mark = Number(said);
  return mark >= 1 && mark <= 10 ? Math.round(gasMarkC(mark)) : null;
};

/** "425°", "350 degrees": no scale is named. */
const BARE_DEGREES =
  /(?<![\d.,])(\d{2,3})\s?(?:°|º|degrees\b)(?!\s?(?:[cf]\b|fahrenheit|celsius|centigrade))/iu;
/** Above this a bare figure is °F; common practice, no source. */
const HOTTEST_OVEN_C = 300;

/** What one step says, before its place is known. */
export type StepRead = Omit<ReadStep, "at" | "part">;

/**
 * Reads the times (min) and the temperature (°C) of a step. Times add up, a range counts with its long end; what
 * is said in words alone ("overnight", "moderate oven") stays null with a doubt. Never throws; linear in the text.
 */
export function readStep(text: string): StepRead {
  const kept = text.trim();
  if (kept.length > LONGEST_STEP)
    return {
      text: kept,
      minutes: null,
      temperatureC: null,
      doubt: `longer than ${LONGEST_STEP} characters: not read`,
    };
  const body = IN_WORDS.reduce((so, [pattern, figures]) => so.replace(pattern, figures), kept);
  const { minutes, temperatures, doubts } = scan(body);
  if (OVERNIGHT.test(kept) && !/\(\d{1,2} h\)/.test(kept)) {
    const plainly =
      minutes === null ? "overnight is no number of hours: how long?" : "or overnight: how long at most?";
    doubts.push(plainly);
  }
  let temperatureC = temperatures[0] ?? null;
  const bare = temperatureC === null ? BARE_DEGREES.exec(body) : null;
  if (bare && Number(bare[1]) >= HOTTEST_OVEN_C) {
    temperatureC = Math.round((((Number(bare[1]) - 32) * 5) / 9) * 100) / 100;
    doubts.push(`${bare[0]} is read as °F: no oven is so hot in °C`);
  } else if (bare) doubts.push(`${bare[0]}: in °C or in °F?`);
  if (temperatures.some((one) => Math.abs(one - temperatures[0]!) > 8))
    doubts.push(
      `several temperatures (${[...new Set(temperatures)].map((c) => Math.round(c)).join(", ")} °C): the first is given`,
    );
  if (temperatureC === null) {
    const [gas, thermostat] = [GAS.exec(body), THERMOSTAT.exec(body)];
    if (gas) {
      temperatureC = gasC(gas[1]!);
      doubts.push(`gas mark ${gas[1]} is read by common practice: check the temperature`);
    } else if (thermostat && Number(thermostat[1]) <= 10) {
      temperatureC = Number(thermostat[1]) * 30;
      doubts.push(`thermostat ${thermostat[1]} is read as 30 °C a mark (common practice): check it`);
    } else {
      const oven = OVENS.find(([pattern]) => pattern.test(body));
      if (oven) doubts.push(`a ${oven[1]} is commonly ${oven[2]}: at what temperature?`);
    }
  }
  return { text: kept, minutes, temperatureC, doubt: doubts.join("; ") };
}

function scan(body: string): { minutes: number | null; temperatures: number[]; doubts: string[] } {
  let minutes: number | null = null;
  const temperatures: number[] = [];
  const doubts: string[] = [];
  let from = 0;
  for (const match of body.matchAll(START)) {
    if (match.index < from) continue;
    const window = body.slice(match.index, match.index + WINDOW);
    const read = readQuantity(window, 0, {});
    if (!read?.unit) continue;
    const { dimension } = unitFacts(read.unit);
    if (dimension !== "time" && dimension !== "temperature") continue;
    // "le four à 180 °C": a number in words is never a temperature.
    if (dimension === "temperature" && /^\p{L}/u.test(window)) continue;
    const [before, after] = [body.slice(Math.max(0, match.index - 30), match.index), window.slice(read.end)];
    from = match.index + read.end;
    if (dimension === "temperature") {
      if (/[°º˚][\s.]*$/u.test(window.slice(0, read.end)) && toNumber(read.low) >= HOTTEST_OVEN_C) continue;
      if ((FAN.test(after) || FAN_BEFORE.test(before)) && temperatures.length > 0) continue;
      const sign = /(?:^|\s)[-−]$/u.test(before) ? -1 : 1;
      const inC = convert({ value: sign * toNumber(read.low), unit: read.unit }, "°C");
      if (inC.ok) temperatures.push(Math.round(inC.value * 100) / 100);
      continue;
    }
    if (NOT_ADDED.test(before) || AHEAD.test(after)) continue;
    if (HELD.test(before) && read.unit === "day") continue;
    const inMin = convert({ value: toNumber(read.high), unit: read.unit }, "min");
    if (!inMin.ok) continue;
    minutes = (minutes ?? 0) + inMin.value * (PER_SIDE.test(after) ? 2 : 1);
  }
  return { minutes: minutes === null ? null : Math.round(minutes * 100) / 100, temperatures, doubts };
}
