import { describe, expect, test } from "vitest";
import { convertText } from "./index.ts";

const flour = { of: "bread flour", densityKgPerL: 0.55 };

describe("Q13 an amount in words, converted", () => {
  test("value, exact value, text and the way", () => {
    expect(convertText("1 3/4 cup", flour, "g")).toEqual({
      input: "1 3/4 cup",
      value: 227.71617763125, // 1.75 × 236.5882365 × 0.55
      unit: "g",
      exact: "227.71617763125",
      text: "227.7 g",
      via: ["unit", "density"],
    });
    expect(convertText("350 °F", {}, "C")).toMatchObject({ unit: "°C", exact: "530/3", text: "176.7 °C" });
    expect(convertText("350 °F", {}, "°C").value).toBe(530 / 3);
    expect(convertText("1 gallon", {}, "cups")).toMatchObject({ value: 16, unit: "cup", text: "16 cups" });
  });
  test("a range gives both ends", () => {
    const { value, high, text } = convertText("2-3 Tbsp", {}, "mL");
    expect([value, high]).toEqual([29.5735295625, 44.36029434375]);
    expect(text).toBe("29.57 mL to 44.36 mL");
  });
  test("the text's own measure goes before a bridge", () => {
    const bunch = convertText("½ bunch (about 40 g)", { gPerPiece: 100 }, "g");
    expect(bunch).toMatchObject({ value: 40, via: ["stated", "unit"] });
    expect(convertText("2 (14 oz) cans", {}, "oz")).toMatchObject({ value: 28, via: ["stated", "unit"] });
    expect(convertText("½ bunch", { gPerPiece: 100 }, "g")).toMatchObject({ value: 50 });
  });
  test("the bridge may be looked up by measure and ingredient", () => {
    const asked: string[] = [];
    const finder = (unit: string, ingredient: string) => {
      asked.push(`${unit} of ${ingredient}`);
      return { gPerPiece: unit === "clove" ? 5 : 50 };
    };
    expect(convertText("3 cloves garlic", finder, "g").value).toBe(15);
    expect(convertText("1 head garlic", finder, "g").value).toBe(50);
    expect(asked).toEqual(["clove of garlic", "head of garlic"]);
  });
  test("refusals carry an error and no value; doubts are passed on", () => {
    const error = (text: string, to: string) => {
      const done = convertText(text, {}, to);
      expect(done).toMatchObject({ input: text, value: null, unit: null, text: null, via: [] });
      return done.error;
    };
    expect(error("1 cup bread flour", "g")).toBe(
      "cup of bread flour to g needs a density (kg/L) of bread flour",
    );
    expect(error("to taste", "g")).toContain("nothing to convert");
    expect(error("", "g")).toContain("nothing to read");
    expect(error("1 cup", "furlongs")).toContain('"furlongs" is not a known unit');
    expect(error("1 cup", "min")).toContain("is impossible");
    expect(convertText("1,500 g", {}, "kg")).toMatchObject({
      value: 1.5,
      doubt: expect.stringContaining("1500 g"),
    });
    expect(convertText("1,500 g", {}, "kg", { decimal: "," }).value).toBe(0.0015);
  });
});
