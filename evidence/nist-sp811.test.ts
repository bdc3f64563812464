import { describe, expect, test } from "vitest";
import { multiply, parseRational, rational, toDecimal } from "../core/numerics/rational.ts";
import { BASE_UNIT, convertExactly, type Unit, unitFacts } from "../core/quantity/index.ts";
import { exact, ladders, sevenFigures, temperatures } from "./nist-units.ts";

const read = (text: string) => parseRational(text)!;
function exactly(value: string, from: Unit, to: Unit) {
  const done = convertExactly(read(value), from, to);
  if (!done.ok) throw new Error(done.message);
  return done.value;
}

describe("NIST Handbook 44 App. C and SP 811 App. B.8", () => {
  test("exact sizes (HB 44 App. C) hold exactly", () => {
    for (const { unit, base } of exact) {
      expect(exactly("1", unit, BASE_UNIT[unitFacts(unit).dimension]), unit).toEqual(read(base));
    }
  });
  test("roots: 231 cubic inches to the gallon, 1/160 imperial gallon to its fluid ounce", () => {
    const cubicInch = multiply(multiply(read("25.4"), read("25.4")), read("25.4"));
    expect(exactly("1", "gal", "mL")).toEqual(multiply(cubicInch, rational(231n, 1000n)));
    expect(multiply(exactly("1", "imp fl oz", "mL"), rational(160))).toEqual(exactly("1", "imp gal", "mL"));
  });
  test("ladders of units hold exactly, both ways", () => {
    for (const { many, one, count } of ladders) {
      expect(exactly("1", one, many), one).toEqual(rational(count));
      expect(exactly(String(count), many, one), many).toEqual(rational(1));
    }
  });
  test("the seven figures of SP 811 are our sizes, rounded", () => {
    for (const [unit, printed, si] of sevenFigures) {
      const places = printed.split(".")[1]!.length;
      expect(toDecimal(exactly("1", unit, si), places, "half-even"), unit).toBe(printed);
    }
  });
  test("temperatures", () => {
    for (const { f, c } of temperatures) {
      expect(exactly(f, "°F", "°C")).toEqual(read(c));
      expect(exactly(c, "°C", "°F")).toEqual(read(f));
    }
    expect(exactly("0", "°C", "K")).toEqual(read("273.15"));
  });
});
