import {
  add,
  compare,
  divide,
  multiply,
  type Rational,
  rational,
  roundRational,
  subtract,
  toNumber,
  ZERO,
} from "../numerics/rational.ts";
import { exactValue } from "./convert.ts";
import type { Amount } from "./schema.ts";
import { type Unit, unitFacts } from "./units.ts";
import { placesFor, writeFraction } from "./write-number.ts";
import { decimalPart, exactly, type Part, within } from "./write-part.ts";
import { writeUs } from "./write-us.ts";

export type WriteOptions = {
  /** "given" keeps the amount's own unit; the others choose a fitting one. */
  readonly system?: "given" | "metric" | "us";
  readonly decimal?: "." | ",";
  /** Significant figures of a decimal with "given"; 6 when left out. */
  readonly figures?: number;
};

/** An amount as it is put on paper, and what the rounding changed. */
export type Written = {
  /** "1 ¾ cups", "1 lb 4 oz", "227 g". A plain count is the number alone: "3". */
  readonly text: string;
  /** The same in pieces, for a writer of another language. */
  readonly parts: readonly { readonly number: string; readonly unit: Unit }[];
  /** What is written, in the base unit (g, mL, piece, mm, °C, min). */
  readonly value: number;
  /** Written − given, in the base unit. */
  readonly error: number;
  /** error / given; 0 when nothing is given. */
  readonly ratio: number;
};

const SYSTEMS: Readonly<Record<string, "us" | "metric">> = {
  ...{ oz: "us", lb: "us", tsp: "us", tbsp: "us", "fl oz": "us", cup: "us", pt: "us", qt: "us", gal: "us" },
  ...{ in: "us", ft: "us" },
  ...{ mg: "metric", g: "metric", kg: "metric", mL: "metric", cL: "metric", dL: "metric", L: "metric" },
  ...{ mm: "metric", cm: "metric", m: "metric" },
};
/** Written with decimals, never with fractions. */
const isDecimal = (unit: Unit) => {
  const { dimension } = unitFacts(unit);
  return SYSTEMS[unit] === "metric" || dimension === "temperature" || dimension === "time";
};

/** Between two measures of one amount. */
const JOIN: Partial<Record<Unit, string>> = { gal: " + ", qt: " + ", cup: " + ", tbsp: " + " };
/**
 * Writes an amount for a cook, with fractions for spoons, cups and pounds and decimals for metric units.
 * `given` never changes the unit; `metric` and `us` round to what the measures show:
 * 0.01 g under 1 g, 0.1 g under 10 g, then 1 g, and two figures at least; spoons, cups and ounces to their own fractions.
 * A volume stays a volume: crossing to mass is `convert`'s business.
 */
export function writeAmount(amount: Amount, options: WriteOptions = {}): Written {
  const mark = options.decimal ?? ".";
  const value = exactValue(amount.value);
  const system = options.system ?? "given";
  const parts =
    system === "given" ? [asGiven(amount, options.figures ?? 6, mark)] : inSystem(amount, system, mark);
  const given = toBaseExactly(value, amount.unit);
  const written = parts.reduce((sum, part) => add(sum, toBaseExactly(part.value, part.unit)), ZERO);
  const error = subtract(written, given);
  return {
    text: parts
      .map(({ number, unit, value: n }) => `${number}${spelled(unit, n)}`)
      .join(JOIN[parts[0]!.unit] ?? " "),
    parts: parts.map(({ number, unit }) => ({ number, unit })),
    value: toNumber(written),
    error: toNumber(error),
    ratio: given.n === 0n ? 0 : toNumber(divide(error, given)),
  };
}

const toBaseExactly = (value: Rational, unit: Unit) => {
  const { size, offset } = unitFacts(unit);
  return offset ? add(multiply(value, size), offset) : multiply(value, size);
};

function asGiven(amount: Amount, figures: number, mark: "." | ","): Part {
  const { unit } = amount;
  const value = exactValue(amount.value);
  const fraction = isDecimal(unit) ? undefined : kitchenFraction(value, String(amount.value).includes("/"));
  return fraction
    ? { value: fraction, unit, number: writeFraction(fraction) }
    : decimalPart(value, unit, placesFor(value, figures), mark);
}

/** The fraction an amount was written with, or the half, third or eighth its decimal stands for within 0.2 %. */
function kitchenFraction(value: Rational, writtenSo: boolean): Rational | undefined {
  if (writtenSo && value.d <= 64n) return value;
  return [1n, 3n, 8n]
    .map((d) => rational(roundRational(multiply(value, rational(d)), "half-even"), d))
    .find((near) => near.n !== 0n && within(near, value, rational(2, 1000)));
}

function inSystem(amount: Amount, system: "metric" | "us", mark: "." | ","): Part[] {
  const { unit } = amount;
  const value = exactValue(amount.value);
  const { dimension } = unitFacts(unit);
  if (dimension === "count") return [asGiven(amount, 6, mark)];
  if (dimension === "time") return clockParts(toBaseExactly(value, unit), mark);
  if (dimension === "temperature") {
    const degrees: Unit = system === "us" ? "°F" : "°C";
    return [decimalPart(exactly(value, unit, degrees), degrees, 1, mark)];
  }
  return system === "metric" ? [metric(value, unit, mark)] : writeUs(value, unit, mark);
}

function metric(value: Rational, unit: Unit, mark: "." | ","): Part {
  const base = toBaseExactly(value, unit);
  const size = Math.abs(toNumber(base));
  const { dimension } = unitFacts(unit);
  if (dimension === "length") {
    const length: Unit = size < 19.95 ? "mm" : "cm";
    return decimalPart(exactly(value, unit, length), length, 1, mark);
  }
  const [small, large]: [Unit, Unit] = dimension === "mass" ? ["g", "kg"] : ["mL", "L"];
  if (size < 999.5) return decimalPart(base, small, size < 0.995 ? 2 : size < 9.95 ? 1 : 0, mark);
  return decimalPart(exactly(base, small, large), large, size < 9999.5 ? 3 : 2, mark);
}

/** Whole minutes from ten minutes up, whole seconds from ten seconds up. */
function clockParts(minutes: Rational, mark: "." | ","): Part[] {
  const inSeconds = multiply(minutes, rational(60));
  if (compare(inSeconds, rational(199, 20)) < 0) return [decimalPart(inSeconds, "s", 0, mark)];
  const finer = compare(minutes, rational(10)) < 0;
  const total = finer ? roundRational(inSeconds, "half-even") : 60n * roundRational(minutes, "half-even");
  const part = (n: bigint, unit: Unit): Part => ({ value: rational(n), unit, number: String(n) });
  const parts = [part(total / 3600n, "h"), part((total / 60n) % 60n, "min"), part(total % 60n, "s")];
  return parts.filter(({ value }) => value.n > 0n);
}

const PLURAL: Partial<Record<Unit, string>> = {
  ...{ cup: "cups", "metric cup": "metric cups", "label cup": "label cups", drop: "drops", pinch: "pinches" },
  ...{ dash: "dashes", day: "days", bottle: "bottles", bunch: "bunches", can: "cans", clove: "cloves" },
  ...{ fillet: "fillets", handful: "handfuls", head: "heads", leaf: "leaves", packet: "packets" },
  ...{ sheet: "sheets", slice: "slices", sprig: "sprigs", stalk: "stalks", stick: "sticks" },
};

function spelled(unit: Unit, count: Rational): string {
  if (unit === "piece") return "";
  const several = compare(count, rational(1)) > 0;
  const tool = /^(scoop|ladle) (\d+)$/.exec(unit);
  if (tool?.[1] === "scoop") return ` scoop${several ? "s" : ""} No. ${tool[2]}`;
  if (tool) return ` ladle${several ? "s" : ""} of ${tool[2]} oz`;
  return ` ${several ? (PLURAL[unit] ?? unit) : unit}`;
}
