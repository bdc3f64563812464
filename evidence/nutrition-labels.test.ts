import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { euEnergy, euGrams, euSalt, euSaturates, REFERENCE_INTAKES } from "../core/safety/nutrition-eu.ts";
import {
  energyByGeneralFactors,
  energyKcalAnnexXIV,
  energyKjAnnexXIV,
} from "../core/safety/nutrition-rules.ts";
import {
  DAILY_VALUES,
  usCalories,
  usCholesterol,
  usFat,
  usGrams,
  usMicro,
  usMicroPercent,
  usPercent,
  usSodium,
} from "../core/safety/nutrition-us.ts";
import { checkData } from "./check-data.ts";

describe("21 CFR 101.9(c): rounding at each boundary (FDA Food Labeling Guide, Appendix H; halves go up)", () => {
  test.each([
    [4.9, 0],
    [5, 5],
    [7.4, 5],
    [7.5, 10],
    [47.5, 50],
    [50, 50],
    [50.1, 50],
    [52, 50],
    [55, 60],
    [54.9, 50],
    [123, 120],
  ])("calories %d are %d", (kcal, shown) => expect(usCalories(kcal)).toBe(shown));

  test.each([
    [0.49, "0 g"],
    [0.5, "0.5 g"],
    [0.74, "0.5 g"],
    [0.75, "1 g"],
    [2.26, "2.5 g"],
    [4.74, "4.5 g"],
    [4.75, "5 g"],
    [4.99, "5 g"],
    [5, "5 g"],
    [5.5, "6 g"],
    [78.4, "78 g"],
  ])("fat %d g is %s", (g, shown) => expect(usFat(g)).toBe(shown));

  test.each([
    [1.9, "0 mg"],
    [2, "less than 5 mg"],
    [3, "less than 5 mg"],
    [5, "less than 5 mg"],
    [5.1, "5 mg"],
    [7.5, "10 mg"],
    [212, "210 mg"],
  ])("cholesterol %d mg is %s", (mg, shown) => expect(usCholesterol(mg)).toBe(shown));

  test.each([
    [4.9, "0 mg"],
    [5, "5 mg"],
    [138, "140 mg"],
    [140, "140 mg"],
    [142, "140 mg"],
    [145, "150 mg"],
    [2213.9, "2210 mg"],
  ])("sodium %d mg is %s", (mg, shown) => expect(usSodium(mg)).toBe(shown));

  test.each([
    [0.49, "0 g"],
    [0.5, "less than 1 g"],
    [0.7, "less than 1 g"],
    [0.99, "less than 1 g"],
    [1, "1 g"],
    [1.49, "1 g"],
    [1.5, "2 g"],
  ])("carbohydrate, fibre, sugars, protein %d g is %s", (g, shown) => expect(usGrams(g)).toBe(shown));

  // The increments are those of (c)(8)(iii): by 2 up to 10 %, by 5 up to 50 %, by 10 above.
  test.each([
    [1.9, "0 %"],
    [2, "2 %"],
    [2.9, "2 %"],
    [3, "4 %"],
    [10, "10 %"],
    [12.4, "10 %"],
    [12.5, "15 %"],
    [50, "50 %"],
    [54, "50 %"],
    [55, "60 %"],
  ])("%d percent of a mineral's daily value is %s", (percent, shown) =>
    expect(usMicroPercent((percent / 100) * 1300, 1300)).toBe(shown),
  );

  // The label printed in 101.9(d)(12): fat 8 g 10 %, saturated 1 g 5 %, sodium 160 mg 7 %, carbohydrate 37 g 13 %, fibre
  // 4 g 14 %, added sugars 10 g 20 %, vitamin D 2 mcg 10 %, calcium 260 mg 20 %, iron 8 mg 45 %, potassium 235 mg 6 %.
  test("percentages of the label that the regulation prints", () => {
    const of = (key: keyof typeof DAILY_VALUES, amount: number) => usPercent(amount, DAILY_VALUES[key]);
    expect([
      of("fat", 8),
      of("saturated", 1),
      of("sodiumMg", 160),
      of("carbohydrate", 37),
      of("fibre", 4),
      of("addedSugars", 10),
    ]).toEqual(["10 %", "5 %", "7 %", "13 %", "14 %", "20 %"]);
    const micro = (key: keyof typeof DAILY_VALUES, amount: number) =>
      usMicroPercent(amount, DAILY_VALUES[key]);
    expect([
      micro("vitaminDUg", 2),
      micro("calciumMg", 260),
      micro("ironMg", 8),
      micro("potassiumMg", 235),
    ]).toEqual(["10 %", "20 %", "45 %", "6 %"]);
    expect([usMicro(2, 20, "mcg"), usMicro(260, 1300, "mg"), usMicro(8, 18, "mg")]).toEqual([
      "2 mcg",
      "260 mg",
      "8 mg",
    ]);
  });
});

describe("Commission guidance on tolerances, December 2012, table 4 (from memory): rounding of EU declarations", () => {
  test.each([
    [0.4, 0],
    [0.5, 1],
    [531.4, 531],
  ])("energy %d is %d", (value, shown) => expect(euEnergy(value)).toBe(shown));
  test.each([
    [0, "0 g"],
    [0.5, "<0.5 g"],
    [0.51, "0.5 g"],
    [0.55, "0.6 g"],
    [9.94, "9.9 g"],
    [9.96, "10 g"],
    [10.4, "10 g"],
    [10.5, "11 g"],
  ])("fat, carbohydrate, sugars, fibre, protein %d g is %s", (g, shown) => expect(euGrams(g)).toBe(shown));
  test.each([
    [0.1, "<0.1 g"],
    [0.14, "0.1 g"],
    [9.94, "9.9 g"],
    [12.6, "13 g"],
  ])("saturates %d g is %s", (g, shown) => expect(euSaturates(g)).toBe(shown));
  test.each([
    [0.0125, "<0.01 g"],
    [0.013, "0.01 g"],
    [0.884, "0.88 g"],
    [0.999, "1 g"],
    [1, "1 g"],
    [1.25, "1.3 g"],
    [1.901, "1.9 g"],
  ])("salt %d g is %s", (g, shown) => expect(euSalt(g)).toBe(shown));
});

describe("energy factors", () => {
  // Regulation (EU) 1169/2011, Annex XIV: carbohydrate 17 kJ 4 kcal, protein 17 and 4, fat 37 and 9, ethanol 29 and 7,
  // fibre 8 and 2. Each unit by its own factors: one is not the other times 4.184.
  test("Annex XIV, a gram of each", () => {
    const gram = (i: number) =>
      [0, 1, 2, 3, 4].map((k) => Number(k === i)) as [number, number, number, number, number];
    expect([0, 1, 2, 3, 4].map((i) => energyKcalAnnexXIV(...gram(i)))).toEqual([4, 4, 9, 2, 7]);
    expect([0, 1, 2, 3, 4].map((i) => energyKjAnnexXIV(...gram(i)))).toEqual([17, 17, 37, 8, 29]);
    expect(energyByGeneralFactors(1, 1, 1, 1)).toBe(24);
  });

  // Annex XIII, Part B.
  test("reference intakes of an average adult", () => {
    expect(REFERENCE_INTAKES).toEqual({
      energyKj: 8400,
      energyKcalEu: 2000,
      fat: 70,
      saturated: 20,
      availableCarbohydrate: 260,
      sugars: 90,
      protein: 50,
      salt: 6,
    });
  });
});

const data = checkData("2 tests of daily values and rounding", "reference/labelling.json");
describe.runIf(data !== undefined)("restated figures of labelling", () => {
  const told = data ? JSON.parse(readFileSync(data[0], "utf8")) : undefined;
  const NAMES: Record<keyof typeof DAILY_VALUES, string> = {
    fat: "total fat",
    saturated: "saturated fat",
    cholesterolMg: "cholesterol",
    sodiumMg: "sodium",
    carbohydrate: "total carbohydrate",
    fibre: "dietary fibre",
    addedSugars: "added sugars",
    protein: "protein",
    vitaminDUg: "vitamin D",
    calciumMg: "calcium",
    ironMg: "iron",
    potassiumMg: "potassium",
  };

  test("daily values of the 2016 rule", () => {
    for (const [key, name] of Object.entries(NAMES)) {
      const printed = told.daily_values.items.find((item: { nutrient: string }) => item.nutrient === name);
      expect(DAILY_VALUES[key as keyof typeof DAILY_VALUES], name).toBe(printed.dv);
    }
  });

  test("worked roundings", () => {
    const by: Record<string, (value: number) => string | number> = {
      calories: usCalories,
      "fat g": usFat,
      "sodium mg": usSodium,
      "cholesterol mg": usCholesterol,
      "fibre g": usGrams,
    };
    for (const { nutrient, inn, out } of told.rounding_tests) {
      const shown = by[nutrient]!(inn);
      expect(typeof out === "number" ? Number.parseFloat(String(shown)) : shown, `${nutrient} ${inn}`).toBe(
        out,
      );
    }
  });
});
