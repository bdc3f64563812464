import {
  add,
  compare,
  divide,
  parseRational,
  type Rational,
  rational,
  roundRational,
  subtract,
  ZERO,
} from "../numerics/rational.ts";
import { type Dimension, type Unit, unitFacts } from "./units.ts";
import { placesFor, writeFraction } from "./write-number.ts";
import { abs, decimalPart, exactly, type Part } from "./write-part.ts";

const fractions = (texts: string) => texts.split(" ").map((text) => parseRational(text)!);
const EIGHTHS = fractions("1/8 1/4 3/8 1/2 5/8 3/4 7/8");
/** Fractions a kitchen's measures of each unit come in. */
const MARKS: Partial<Record<Unit, readonly Rational[]>> = {
  tsp: fractions("1/8 1/4 1/2 3/4"),
  tbsp: fractions("1/2"),
  cup: fractions("1/4 1/3 1/2 2/3 3/4"),
  oz: EIGHTHS,
  in: EIGHTHS,
};
const ONE = rational(1);
/** US units from large to small; each is used from the given size up (in itself), smaller amounts use the next. */
const US_LADDER: Partial<Record<Dimension, readonly (readonly [Unit, from: Rational])[]>> = {
  mass: [
    ["lb", ONE],
    ["oz", ZERO],
  ],
  volume: [
    ["gal", ONE],
    ["qt", ONE],
    ["cup", rational(1, 4)],
    ["tbsp", ONE],
    ["tsp", ZERO],
  ],
  length: [["in", ZERO]],
};
/** Rounding that is written as one measure rather than two ("1 cup" for 1 cup and a few drops). */
const ONE_MEASURE = rational(1, 100);

/** The largest measures that come within 2 %, else those that come nearest. */
export function writeUs(value: Rational, unit: Unit, mark: "." | ","): Part[] {
  const ladder = US_LADDER[unitFacts(unit).dimension]!;
  const rungs = ladder.flatMap(([each, least], i) => {
    const wanted = exactly(value, unit, each);
    if (compare(nearestMark(wanted, each), least) < 0) return [];
    return [onRung(wanted, each, least, ladder[i + 1]?.[0])];
  });
  const [nearest] = [...rungs].sort((a, b) => compare(a.off, b.off));
  const chosen = rungs.find((rung) => compare(rung.off, TWO_PERCENT) <= 0) ?? nearest!;
  if (chosen.parts.length > 0 && compare(chosen.off, QUARTER) <= 0) return chosen.parts;
  // Too small for any spoon: say the number rather than a measure that is far off.
  const [smallest] = ladder.at(-1)!;
  const wanted = exactly(value, unit, smallest);
  return [decimalPart(wanted, smallest, placesFor(wanted, 2), mark)];
}
const TWO_PERCENT = rational(2, 100);
const QUARTER = rational(1, 4);

/** An amount in one unit, or in one and the next smaller; `off` is the rounding as a ratio. No parts: it vanishes. */
function onRung(wanted: Rational, unit: Unit, least: Rational, next: Unit | undefined) {
  const part = (value: Rational, of: Unit): Part => ({ value, unit: of, number: writeFraction(value) });
  const offBy = (shown: Rational) => (wanted.n === 0n ? ZERO : abs(divide(subtract(shown, wanted), wanted)));
  const single = nearestMark(wanted, unit);
  const one = { parts: single.n === 0n && wanted.n !== 0n ? [] : [part(single, unit)], off: offBy(single) };
  const most = markBelow(wanted, unit);
  if (!next || compare(one.off, ONE_MEASURE) <= 0 || compare(most, least) < 0) return one;
  const rest = nearestMark(exactly(subtract(wanted, most), unit, next), next);
  const off = offBy(add(most, exactly(rest, next, unit)));
  if (rest.n === 0n || compare(off, one.off) >= 0) return one;
  return { parts: [part(most, unit), part(rest, next)], off };
}

const marksAround = (value: Rational, unit: Unit) => {
  const whole = rational(roundRational(value, "floor"));
  return [ZERO, ...(MARKS[unit] ?? []), ONE].map((part) => add(whole, part));
};
/** The value a unit's measures show that is nearest to the wanted one. */
function nearestMark(value: Rational, unit: Unit): Rational {
  const off = (mark: Rational) => abs(subtract(mark, value));
  return marksAround(value, unit).reduce((best, mark) => (compare(off(mark), off(best)) < 0 ? mark : best));
}
/** The largest value a unit's measures show that is not above the wanted one. */
function markBelow(value: Rational, unit: Unit): Rational {
  return marksAround(value, unit).findLast((mark) => compare(mark, value) <= 0) ?? ZERO;
}
