import { describe, expect, test } from "vitest";
import {
  divide,
  multiply,
  parseRational,
  type Rational,
  rational,
  toNumber,
} from "../core/numerics/rational.ts";
import { convertExactly, UNIT_SYMBOLS, type Unit } from "../core/quantity/index.ts";
import { labelMeasures, ladles, scoops } from "./icn-measures.ts";

const mL = (value: string, unit: Unit): Rational => {
  const done = convertExactly(parseRational(value)!, unit, "mL");
  if (!done.ok) throw new Error(done.message);
  return done.value;
};

describe("USDA/ICN Basics at a Glance: scoops and ladles", () => {
  test("the number of a scoop is its level fills to a quart, exactly", () => {
    for (const { number } of scoops) {
      expect(multiply(mL("1", `scoop ${number}`), rational(number))).toEqual(mL("1", "qt"));
    }
    expect(UNIT_SYMBOLS.filter((unit) => unit.startsWith("scoop "))).toHaveLength(scoops.length);
  });
  test("the printed measures are within 6.3 % of the rule; which are off by more than 1 % is known", () => {
    const off = scoops.map(({ number, printed, unit }) => {
      const ratio = toNumber(divide(mL(printed, unit), mL("1", `scoop ${number}`))) - 1;
      expect(Math.abs(ratio), `No. ${number}`).toBeLessThan(0.063);
      return Math.abs(ratio) > 0.01 ? [number, Math.round(ratio * 1000) / 10] : null;
    });
    expect(off.filter((row) => row !== null)).toEqual([
      [10, -6.2],
      [20, 4.2],
      [30, -6.2],
      [40, 4.2],
      [50, -2.3],
      [60, 1.6],
      [100, 4.2],
    ]);
  });
  test("a ladle holds its fluid ounces, exactly the printed share of a cup", () => {
    for (const [ounces, cups] of ladles) expect(mL("1", `ladle ${ounces}`)).toEqual(mL(cups, "cup"));
  });
});

describe("21 CFR 101.9(b)(5)(viii): measures of food labels", () => {
  test("cup 240 mL, tablespoon 15 mL, teaspoon 5 mL", () => {
    for (const [unit, size] of Object.entries(labelMeasures)) {
      expect(mL("1", unit as Unit), unit).toEqual(parseRational(size));
    }
  });
});
