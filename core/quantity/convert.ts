import {
  add,
  divide,
  fromNumber,
  multiply,
  parseRational,
  type Rational,
  subtract,
  toNumber,
} from "../numerics/rational.ts";
import type { Celsius, Grams, Millilitres, Millimetres, Minutes, Pieces } from "./brand.ts";
import type { Amount, Value } from "./schema.ts";
import { type Dimension, type Unit, type UnitFacts, unitFacts } from "./units.ts";

/** An amount in the base unit of its dimension: g, mL, piece, mm, °C, min. */
export type Base =
  | { dimension: "mass"; value: Grams }
  | { dimension: "volume"; value: Millilitres }
  | { dimension: "count"; value: Pieces }
  | { dimension: "length"; value: Millimetres }
  | { dimension: "temperature"; value: Celsius }
  | { dimension: "time"; value: Minutes };

/** What lets an amount cross between mass, volume and count. `of` names the ingredient in messages. */
export type Bridge = {
  readonly of?: string | undefined;
  /** Kilograms in a litre (= grams in a millilitre). */
  readonly densityKgPerL?: number | undefined;
  /** Grams of one piece of the kind the unit counts. */
  readonly gPerPiece?: number | undefined;
};

/** One link of the way from unit to unit. */
export type Link = "unit" | "density" | "piece weight";
export type Missing = Exclude<Link, "unit"> | "nothing joins them";
export type Refusal = { ok: false; missing: Missing[]; message: string };
export type Converted = { ok: true; value: number; unit: Unit; via: Link[] } | Refusal;
export type ConvertedExactly = { ok: true; value: Rational; unit: Unit; via: Link[] } | Refusal;

/** A document's value (number or exact text) as an exact fraction. @throws RangeError when it is neither. */
export function exactValue(value: Value): Rational {
  if (typeof value === "number") return fromNumber(value);
  const read = parseRational(value);
  if (!read) throw new RangeError(`"${value}" is no exact number: write "3", "2.5", "1/3" or "1 3/4"`);
  return read;
}

/** A document's value as a double. @throws RangeError when it is neither a number nor an exact text. */
export function numericValue(value: Value): number {
  return typeof value === "number" ? value : toNumber(exactValue(value));
}

/** The amount in the base unit of its dimension. @throws RangeError when the value is no number. */
export function toBase(amount: Amount): Base {
  const unit = unitFacts(amount.unit);
  const value =
    typeof amount.value === "number" && !unit.offset
      ? amount.value * unit.factor
      : toNumber(baseOf(exactValue(amount.value), unit));
  return { dimension: unit.dimension, value } as Base;
}

const baseOf = (value: Rational, unit: UnitFacts) =>
  unit.offset ? add(multiply(value, unit.size), unit.offset) : multiply(value, unit.size);

/**
 * Converts an amount; mass, volume and count cross only by a density (kg/L) or a piece weight (g) in `bridge`.
 * Exact text in gives the double nearest to the exact answer; a number in costs at most four roundings.
 * @returns the value in `to` and the links used, or a refusal naming what is missing.
 * @throws RangeError when the value is no number.
 */
export function convert(amount: Amount, to: Unit, bridge: Bridge = {}): Converted {
  const [source, target] = [unitFacts(amount.unit), unitFacts(to)];
  const route = routeOf(source, target, bridge);
  if (!route.ok) return route;
  const straight = typeof amount.value === "number" && !source.offset && !target.offset;
  const value = straight
    ? (Number(amount.value) * ratio(source, target) * route.times) / route.over
    : toNumber(along(route, exactValue(amount.value), source, target));
  return { ok: true, value, unit: to, via: route.via };
}

/** As `convert`, with an exact fraction in and out (a bridge counts as the decimal it is written as). */
export function convertExactly(value: Rational, from: Unit, to: Unit, bridge: Bridge = {}): ConvertedExactly {
  const [source, target] = [unitFacts(from), unitFacts(to)];
  const route = routeOf(source, target, bridge);
  if (!route.ok) return route;
  return { ok: true, value: along(route, value, source, target), unit: to, via: route.via };
}

type Route = { ok: true; times: number; over: number; via: Link[] };

function along(route: Route, value: Rational, from: UnitFacts, to: UnitFacts): Rational {
  const base = divide(multiply(baseOf(value, from), fromNumber(route.times)), fromNumber(route.over));
  return divide(to.offset ? subtract(base, to.offset) : base, to.size);
}

const ratios = new Map<string, number>();
/** The double nearest to the exact ratio of two units' sizes. */
function ratio(from: UnitFacts, to: UnitFacts): number {
  const key = `${from.symbol}>${to.symbol}`;
  const known = ratios.get(key);
  if (known !== undefined) return known;
  const computed = toNumber(divide(from.size, to.size));
  ratios.set(key, computed);
  return computed;
}

/** By which link a dimension reaches grams; length, temperature and time never do. */
const LINK_TO_GRAMS: Partial<Record<Dimension, Link>> = {
  mass: "unit",
  volume: "density",
  count: "piece weight",
};

function routeOf(from: UnitFacts, to: UnitFacts, bridge: Bridge): Route | Refusal {
  const refuse = (missing: Missing[], why: string): Refusal => {
    const what = bridge.of ? ` of ${bridge.of}` : "";
    return { ok: false, missing, message: `${from.symbol}${what} to ${to.symbol} ${why}` };
  };
  if (from.dimension === to.dimension) {
    if (from.pieceName === to.pieceName) return { ok: true, times: 1, over: 1, via: ["unit"] };
    return refuse(["piece weight"], "needs the grams of each: they are different pieces");
  }
  const [inward, outward] = [LINK_TO_GRAMS[from.dimension], LINK_TO_GRAMS[to.dimension]];
  if (!inward || !outward) {
    return refuse(["nothing joins them"], `is impossible: ${from.dimension} is never ${to.dimension}`);
  }
  const gramsPer = { unit: 1, density: bridge.densityKgPerL, "piece weight": bridge.gPerPiece };
  const links = [inward, outward].filter((link): link is Exclude<Link, "unit"> => link !== "unit");
  const missing = links.filter((link) => !usable(gramsPer[link]));
  if (missing.length > 0) {
    const piece = from.pieceName ?? to.pieceName ?? "piece";
    const wanted = missing.map((link) =>
      link === "density" ? "a density (kg/L)" : `the grams of one ${piece}`,
    );
    return refuse(missing, `needs ${wanted.join(" and ")}${bridge.of ? ` of ${bridge.of}` : ""}`);
  }
  return { ok: true, times: gramsPer[inward]!, over: gramsPer[outward]!, via: ["unit", ...links] };
}

const usable = (factor: number | undefined) => factor !== undefined && Number.isFinite(factor) && factor > 0;
