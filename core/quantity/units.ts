import { divide, multiply, parseRational, type Rational, rational, toNumber } from "../numerics/rational.ts";

/** What an amount measures. Base units: g, mL, piece, mm, °C, min. */
export type Dimension = "mass" | "volume" | "count" | "length" | "temperature" | "time";

/**
 * The closed list: symbol -> [dimension, exact size in base units, where the size comes from].
 * Temperatures alone have a zero of their own: see OFFSET.
 */
const NIST = "NIST SP 811 (2008) App. B.8; HB 44 App. C";
const SI = "SI";
const AS = "AS 1325, household measures (cited from memory)";
const TABLE = {
  mg: ["mass", "1/1000", SI],
  g: ["mass", "1", SI],
  kg: ["mass", "1000", SI],
  oz: ["mass", "28.349523125", NIST],
  lb: ["mass", "453.59237", NIST],

  mL: ["volume", "1", SI],
  cL: ["volume", "10", SI],
  dL: ["volume", "100", SI],
  L: ["volume", "1000", SI],
  tsp: ["volume", "4.92892159375", NIST],
  tbsp: ["volume", "14.78676478125", NIST],
  "fl oz": ["volume", "29.5735295625", NIST],
  cup: ["volume", "236.5882365", NIST],
  pt: ["volume", "473.176473", NIST],
  qt: ["volume", "946.352946", NIST],
  gal: ["volume", "3785.411784", NIST],
  "imp fl oz": ["volume", "28.4130625", NIST],
  "imp pt": ["volume", "568.26125", NIST],
  "imp qt": ["volume", "1136.5225", NIST],
  "imp gal": ["volume", "4546.09", NIST],
  "metric tsp": ["volume", "5", AS],
  "metric tbsp": ["volume", "15", "common practice, no source"],
  "metric cup": ["volume", "250", AS],
  "australian tbsp": ["volume", "20", AS],
  "japanese cup": ["volume", "200", "common practice, no source"],
  "rice cup": ["volume", "180", "a gō, as rice is measured: common practice, no source"],
  "label cup": ["volume", "240", "21 CFR 101.9(b)(5)(viii)"],
  drop: ["volume", "1/20", "common practice, no source"],
  pinch: ["volume", "0.308057599609375", "1/16 tsp: common practice, no source"],
  dash: ["volume", "0.61611519921875", "1/8 tsp: common practice, no source"],

  piece: ["count", "1", "by definition"],
  dozen: ["count", "12", "by definition"],

  mm: ["length", "1", SI],
  cm: ["length", "10", SI],
  m: ["length", "1000", SI],
  in: ["length", "25.4", NIST],
  ft: ["length", "304.8", NIST],

  "°C": ["temperature", "1", SI],
  "°F": ["temperature", "5/9", NIST],
  K: ["temperature", "1", SI],

  s: ["time", "1/60", SI],
  min: ["time", "1", SI],
  h: ["time", "60", SI],
  day: ["time", "1440", SI],
} as const satisfies Record<string, readonly [Dimension, string, string]>;

/** Base value of the unit's zero: base = size × value + offset. */
const OFFSET: Partial<Record<string, string>> = { "°F": "-160/9", K: "-273.15" };

/** Pieces with a name: two kinds never convert into each other without the grams of each. */
export const NAMED_PIECES = [
  "bottle",
  "bunch",
  "can",
  "clove",
  "fillet",
  "glass",
  "handful",
  "head",
  "jar",
  "leaf",
  "packet",
  "sheet",
  "slice",
  "sprig",
  "stalk",
  "stick",
] as const;

/** Portion scoops (dishers): the number says how many level scoops fill a US quart. */
export const SCOOP_NUMBERS = [6, 8, 10, 12, 16, 20, 24, 30, 40, 50, 60, 70, 100] as const;
/** Ladles, named by their US fluid ounces. */
export const LADLE_FL_OZ = [1, 2, 3, 4, 6, 8, 12] as const;

type Named = (typeof NAMED_PIECES)[number];
type Scoop = `scoop ${(typeof SCOOP_NUMBERS)[number]}`;
type Ladle = `ladle ${(typeof LADLE_FL_OZ)[number]}`;
/** Symbol of a unit, from the closed list. */
export type Unit = keyof typeof TABLE | Named | Scoop | Ladle;

/** base value = size × value + offset. `size` and `offset` are exact, `factor` is the nearest double of size. */
export type UnitFacts = {
  readonly symbol: Unit;
  readonly dimension: Dimension;
  readonly size: Rational;
  readonly offset: Rational | undefined;
  readonly factor: number;
  /** Which kind of piece is counted; only pieces of one kind add up. */
  readonly pieceName: Named | undefined;
  readonly source: string;
};

const exact = (text: string) => {
  const read = parseRational(text);
  if (!read) throw new Error(`the unit table holds "${text}", which is no exact number`);
  return read;
};

function facts(symbol: Unit, dimension: Dimension, size: Rational, source: string): UnitFacts {
  const zero = OFFSET[symbol];
  const pieceName = NAMED_PIECES.find((name) => name === symbol);
  const offset = zero === undefined ? undefined : exact(zero);
  return { symbol, dimension, size, offset, factor: toNumber(size), pieceName, source };
}

const OUNCE = exact(TABLE["fl oz"][1]);
const QUART = exact(TABLE.qt[1]);
const SCOOP_RULE = "level scoops to the US quart (USDA/ICN Basics at a Glance); HB 44 App. C";

/** Every unit by its symbol, in the order of the closed list. */
export const UNITS: ReadonlyMap<Unit, UnitFacts> = new Map(
  [
    ...(Object.keys(TABLE) as (keyof typeof TABLE)[]).map((symbol) => {
      const [dimension, size, source] = TABLE[symbol];
      return facts(symbol, dimension, exact(size), source);
    }),
    ...NAMED_PIECES.map((name) => facts(name, "count", exact("1"), "by definition")),
    ...SCOOP_NUMBERS.map((n) => facts(`scoop ${n}`, "volume", divide(QUART, rational(n)), SCOOP_RULE)),
    ...LADLE_FL_OZ.map((n) => facts(`ladle ${n}`, "volume", multiply(OUNCE, rational(n)), NIST)),
  ].map((unit) => [unit.symbol, unit]),
);

/** Symbols of the closed list. */
export const UNIT_SYMBOLS = [...UNITS.keys()] as [Unit, ...Unit[]];

/** Facts of a unit of the closed list. */
export function unitFacts(symbol: Unit): UnitFacts {
  const found = UNITS.get(symbol);
  if (!found) throw new RangeError(`"${symbol}" is not a unit of the closed list`);
  return found;
}

/** Which kind of piece a unit counts ("clove"), or undefined for "piece", "dozen" and all that is not counted. */
export function pieceName(unit: Unit): string | undefined {
  return UNITS.get(unit)?.pieceName;
}

/** The base unit of each dimension. */
export const BASE_UNIT = {
  mass: "g",
  volume: "mL",
  count: "piece",
  length: "mm",
  temperature: "°C",
  time: "min",
} as const satisfies Record<Dimension, Unit>;
