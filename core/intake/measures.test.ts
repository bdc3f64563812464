import { describe, expect, test } from "vitest";
import { convert, unitFacts } from "../quantity/index.ts";
import { answerRecipe } from "./answers.ts";
import { linkRecipe } from "./doubts.ts";
import { PantryIndex } from "./link.ts";
import { inCountry, measuresOf } from "./measures.ts";
import { readText } from "./read-text.ts";

const US =
  "Biscuits\n2 cups all-purpose flour\n1 stick unsalted butter\n1 tbsp kosher salt\n1 cup buttermilk\n";
const BRITISH = "Scones\n225 g self-raising flour\n50 g caster sugar\n1 pint milk\n2 tbsp double cream\n";
const AUSTRALIAN =
  "Slice\n150 g butter\n2 tbs caster sugar\n1 cup desiccated coconut\n1 tbsp thickened cream\n";
const PLAIN = "Batter\n1 cup flour\n2 eggs\n1 cup milk\n";

describe("IN21 whose spoons, cups and pints", () => {
  test("judged by the words of the text, sure where they agree", () => {
    expect(measuresOf(readText(US))).toEqual({ country: "us", sure: true });
    expect(measuresOf(readText(BRITISH))).toMatchObject({ country: "imperial" });
    expect(measuresOf(readText(AUSTRALIAN))).toMatchObject({ country: "australian" });
    expect(measuresOf(readText(PLAIN))).toEqual({ country: "us", sure: false });
    expect(measuresOf(readText("Batter\n100 g flour\n1 cup milk\n"))).toEqual({
      country: "metric",
      sure: false,
    });
    expect(measuresOf(readText("Pasta\n100 g flour\n1 egg\n"))).toBeUndefined();
  });

  test("the reading keeps the words; the draft takes the country's measures", () => {
    const read = readText(AUSTRALIAN);
    expect(read.lines.map(({ unit }) => unit)).toEqual(["g", "tbsp", "cup", "tbsp"]);
    expect(inCountry(read).lines.map(({ unit }) => unit)).toEqual([
      "g",
      "australian tbsp",
      "metric cup",
      "australian tbsp",
    ]);
    expect(inCountry(readText(BRITISH)).lines[2]!.unit).toBe("imp pt");
    expect(inCountry(readText(US)).lines[0]!.unit).toBe("cup");
    const named = inCountry({ ...readText("Cake\n1 US cup flour\n1 cup milk\n"), country: "japanese" });
    expect(named.lines.map(({ unit }) => unit)).toEqual(["cup", "japanese cup"]);
  });

  test("asked once, with the likely one first, and not where it does not matter", () => {
    const asked = (text: string) =>
      linkRecipe(readText(text), []).doubts.filter(({ about }) => about === "measures");
    expect(asked(PLAIN)).toHaveLength(1);
    expect(asked(PLAIN)[0]!.choices![0]).toEqual({ kind: "country", country: "us" });
    expect(asked(US)).toEqual([]);
    expect(asked("Dressing\n2 tbsp double cream\n1 tsp honey\n")).toEqual([]);
  });

  test("an answer settles it and changes the draft", () => {
    const read = readText(PLAIN);
    const index = new PantryIndex([]);
    const ask = (country?: "japanese") => answerRecipe(read, country ? { country } : {}, index, new Map());
    expect(ask().doubts.some(({ about }) => about === "measures")).toBe(true);
    expect(ask("japanese").doubts.some(({ about }) => about === "measures")).toBe(false);
  });

  test("sizes: NIST SP 811 for the US ones, AS 1325 (from memory) for the Australian, else common practice", () => {
    const inML = (unit: Parameters<typeof unitFacts>[0]) => {
      const made = convert({ value: 1, unit }, "mL");
      return made.ok ? made.value : Number.NaN;
    };
    expect(inML("tbsp")).toBeCloseTo(14.786765, 6);
    expect(inML("cup")).toBeCloseTo(236.588237, 5);
    expect(inML("australian tbsp")).toBe(20);
    expect(inML("metric cup")).toBe(250);
    expect(inML("japanese cup")).toBe(200);
    expect(inML("rice cup")).toBe(180);
    expect(unitFacts("australian tbsp").source).toContain("AS 1325");
    expect(unitFacts("japanese cup").source).toContain("no source");
  });
});
