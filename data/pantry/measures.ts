import type { Source } from "../../core/quantity/schema.ts";
import { type Unit, unitFacts } from "../../core/quantity/units.ts";
import { memory, practice, sr } from "./sources.ts";

const SPOKEN: Readonly<Record<string, Unit>> = { tablespoon: "tbsp", quart: "qt" };
const MEASURE = /^(\d*\.?\d+) (cup|tbsp|tablespoon|tsp|fl oz|quart)\b/;

/**
 * A density from a household measure of USDA SR28: kg/L = grams / mL of the measure.
 * @param measure as printed there: "1 cup, sliced". @param grams printed beside it.
 * @throws RangeError for a measure that is no volume.
 */
export function fill(ndb: string, measure: string, grams: number, state = "plain") {
  const [, amount, word] = MEASURE.exec(measure) ?? [];
  if (amount === undefined || word === undefined) throw new RangeError(`"${measure}" is no volume`);
  const mL = Number(amount) * unitFacts(SPOKEN[word] ?? (word as Unit)).factor;
  return { state, kgPerL: Number((grams / mL).toFixed(4)), source: sr(ndb, `${measure} = ${grams} g`) };
}

/** A remembered density, kg/L. */
export function about(kgPerL: number, state = "plain") {
  return { state, kgPerL, source: memory };
}

/** A remembered weight of one piece as bought, g. */
export function each(name: string, g: number) {
  return { name, g, source: memory };
}

/** A piece of USDA SR28 of which nothing is trimmed, g. */
export function piece(name: string, ndb: string, measure: string, g: number) {
  return { name, g, source: sr(ndb, `${measure} = ${g} g`) };
}

/** A piece as bought, from the edible weight that USDA SR28 prints and its refuse, g. */
export function whole(name: string, ndb: string, measure: string, edibleG: number, refusePct: number) {
  const g = Math.round(edibleG / (1 - refusePct / 100));
  return { name, g, source: sr(ndb, `${measure} = ${edibleG} g edible, refuse ${refusePct} %`) };
}

/** A cut by the light paring of USDA SR28: trim yield = 1 − refuse. */
export function light(id: string, name: string, ndb: string, refusePct: number, refuse: string) {
  return { id, name, trimYield: Number((1 - refusePct / 100).toFixed(4)), refuse, source: sr(ndb) };
}

/** A cut as a working kitchen trims it. */
export function trim(id: string, name: string, trimYield: number, refuse: string) {
  return { id, name, trimYield, refuse, source: practice };
}

const YIELDS = "USDA Table of Cooking Yields for Meat and Poultry, Release 2 (2014)";

/** A cooking yield of the USDA table, cooked / raw %. @param row the cooked food it is printed for. */
export function cooked(method: string, pct: number, row: string) {
  const source: Source = { doc: YIELDS, table: row, kind: "published" };
  return { method, yield: Number((pct / 100).toFixed(4)), source };
}

/** A remembered or practised cooking yield: cooked / raw by mass. */
export function cookedAbout(method: string, yielded: number) {
  return { method, yield: yielded, source: practice };
}

/**
 * What a grain or pulse weighs boiled, by its water before and after (g in 100 g, USDA SR26) when no dry matter is
 * lost: yield = (100 − before) / (100 − after). Drained pulses and pasta lose a few percent more.
 */
export function boiled(waterBefore: number, waterAfter: number) {
  const table = `water ${waterBefore} raw, ${waterAfter} boiled; no dry matter lost`;
  const source: Source = { doc: "USDA SR26", table, kind: "published" };
  return { method: "boiled", yield: Number(((100 - waterBefore) / (100 - waterAfter)).toFixed(3)), source };
}

const CLIMATE: Source = { doc: "from memory: northern temperate, open ground or wild", kind: "memory" };

/** From the first month to the last, over the turn of the year where the last is earlier. */
export function season(first: number, last: number) {
  const length = ((last - first + 12) % 12) + 1;
  return { months: Array.from({ length }, (_, i) => ((first + i - 1) % 12) + 1), source: CLIMATE };
}

/** Where it is kept, and for how many days: common practice, no source; the label decides. */
export const ambient = (days: number) => ({ state: "ambient" as const, days });
export const cold = (days: number) => ({ state: "cold" as const, days });
export const frozen = (days: number) => ({ state: "frozen" as const, days });
