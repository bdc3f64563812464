import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { importFdcCsv, importFdcJson } from "./import-fdc.ts";
import { IngredientSchema } from "./schema.ts";

// Made up in the form of the download; the foods and figures are invented.
const CATEGORIES =
  '"id","code","description"\n"1","0100","Dairy and Egg Products"\n"9","0900","Fruits and Fruit Juices"\n"13","1300","Beef Products"\n"18","1800","Baked Products"\n';
const FOOD = `"fdc_id","data_type","description","food_category_id","publication_date"
"100","sr_legacy_food","Moonfruit, raw","9","2019-04-01"
"101","sr_legacy_food","Beef, cloud cut, raw","13","2019-04-01"
"102","sample_food","Moonfruit sample 7","9","2019-04-01"
"103","sr_legacy_food","Pie, of nobody knows","18","2019-04-01"
"103","sr_legacy_food","Pie, again","18","2019-04-01"
"104","sr_legacy_food","","9","2019-04-01"
"105","sr_legacy_food","Beef, ""cloud""
cut, cooked","13","2019-04-01"
`;
const NUTRIENT = `"id","fdc_id","nutrient_id","amount"
"1","100","1051","85.5"
"2","100","1003","0.5"
"3","100","1004","0.2"
"4","100","1005","13.4"
"5","100","1007","0.4"
"6","100","1093","4"
"7","100","2048","55"
"8","100","1087","6"
"9","101","1051","60"
"10","101","1005","50"
"11","101","1003","oops"
"12","102","1051","85"
"13","999","1051","85"
"14","101","1003"
"15","103","255.0","30"
`;
const PORTION = `"id","fdc_id","seq_num","amount","measure_unit_id","portion_description","modifier","gram_weight"
"1","100","1","1","9999","","cup, sliced","160"
"2","100","2","1","9999","","tbsp, sliced","12"
"3","100","3","1","9999","","medium (3"" dia)","182"
"4","100","4","1","1000","","","240"
"5","100","5","2","9999","","slices","50"
"6","100","6","1","9999","","NLEA serving","154"
"7","101","1","3","9999","","oz","85"
"8","101","2","0","9999","","piece","85"
"9","101","3","1","9999","","piece","none"
`;
const csv = () =>
  importFdcCsv({
    "food.csv": FOOD,
    "food_nutrient.csv": NUTRIENT,
    "food_portion.csv": PORTION,
    "food_category.csv": CATEGORIES,
  });

describe("USDA FoodData Central, CSV", () => {
  test("I4 foods become ingredients that the schema accepts; samples behind them do not", () => {
    const { ingredients } = csv();
    expect(ingredients.map(({ id }) => id)).toEqual([
      "moonfruit-raw",
      "beef-cloud-cut-raw",
      "pie-of-nobody-knows",
      "beef-cloud-cut-cooked",
    ]);
    for (const each of ingredients) expect(IngredientSchema.safeParse(each).success).toBe(true);
  });

  test("I4 composition in our words: salt is sodium × 2.5, energy falls back to the food's own factors", () => {
    const [fruit] = csv().ingredients;
    expect(fruit!.composition).toEqual({
      ...{ water: 85.5, protein: 0.5, fat: 0.2, carbohydrate: 13.4, ash: 0.4, salt: 0.01, energyKcal: 55 },
      source: { doc: "USDA FoodData Central, FDC ID 100", kind: "published" },
    });
    // The older numbers of nutrients are read too.
    expect(csv().ingredients[2]!.composition).toMatchObject({ water: 30 });
  });

  test("I5 measures of volume become densities, the largest of a form; counted ones become pieces", () => {
    const [fruit] = csv().ingredients;
    expect(fruit!.densities!.map(({ state, kgPerL }) => [state, kgPerL])).toEqual([
      ["sliced", Number((160 / 236.5882365).toFixed(4))],
      ["plain", Number((240 / 236.5882365).toFixed(4))],
    ]);
    expect(fruit!.densities![0]!.source.table).toBe("1 cup, sliced = 160 g");
    expect(fruit!.pieces!.map(({ name, g }) => [name, g])).toEqual([
      ["piece", 182],
      ["slice", 25],
    ]);
  });

  test("I6 nothing is guessed on the bold side: allergens unknown, mixed groups of every origin, flesh raw", () => {
    const { ingredients, doubts } = csv();
    for (const { allergens } of ingredients) expect(allergens.status).toBe("unknown");
    expect(ingredients[0]!.origin).toEqual(["plant"]);
    expect(ingredients[1]!.origin).toEqual(["meat", "raw-animal"]);
    expect(ingredients[3]!.origin).toEqual(["meat"]);
    expect(ingredients[2]!.origin).toEqual(expect.arrayContaining(["pork", "alcohol", "gelatin", "raw-egg"]));
    expect(doubts.map(({ ingredient }) => ingredient)).toContain("pie-of-nobody-knows");
  });

  test("I6 a composition that overfills 100 g is left out and said", () => {
    const more = importFdcCsv({
      "food.csv": FOOD,
      "food_nutrient.csv": `${NUTRIENT}"16","101","1004","20"\n`,
    });
    expect(more.ingredients[1]!.composition).toBeUndefined();
    expect(more.doubts.find(({ ingredient }) => ingredient === "beef-cloud-cut-raw")!.what).toMatch(/130/);
  });

  test("I7 a bad row is named by file and line, the rest is kept", () => {
    expect(csv().problems.map(({ file, line }) => `${file}:${line}`)).toEqual([
      "food.csv:6",
      "food.csv:7",
      "food_nutrient.csv:12",
      "food_nutrient.csv:14",
      "food_nutrient.csv:15",
      "food_portion.csv:9",
      "food_portion.csv:10",
    ]);
    expect(csv().problems[2]!.what).toBe('"oops" is no amount of nutrient 1003 of Beef, cloud cut, raw');
  });

  test("I7 the wrong file, an empty file and files in the wrong place are said, not thrown", () => {
    expect(
      importFdcCsv({ "food.csv": PORTION, "food_nutrient.csv": "" }).problems.map((p) => p.what),
    ).toEqual(["the headings lack data_type, description", "the file is empty"]);
    fc.assert(
      fc.property(fc.string({ maxLength: 200 }), fc.string({ maxLength: 200 }), (a, b) => {
        const read = importFdcCsv({
          "food.csv": `fdc_id,data_type,description\n${a}`,
          "food_nutrient.csv": b,
        });
        for (const each of read.ingredients) expect(IngredientSchema.safeParse(each).success).toBe(true);
        importFdcJson(a);
      }),
      { seed: 5 },
    );
  });

  test("I7 beyond 500 problems the rest is counted", () => {
    const rows = Array.from({ length: 700 }, (_, i) => `"${i}","77${i}","1051","1"`).join("\n");
    const { problems } = importFdcCsv({
      "food.csv": FOOD,
      "food_nutrient.csv": `"id","fdc_id","nutrient_id","amount"\n${rows}`,
    });
    expect(problems).toHaveLength(501);
    expect(problems.at(-1)!.what).toBe("202 further rows have problems");
  });
});

test("I6 weights and energies that no food has are left out and said", () => {
  const nutrients = [
    { nutrient: { id: 1051 }, amount: 10 },
    { nutrient: { id: 1008 }, amount: 3740 },
  ];
  const portion = (gramWeight: number, modifier: string) => ({ amount: 1, modifier, gramWeight });
  const foodPortions = [portion(1e-9, "cup"), portion(9e9, "piece"), portion(100, "cup, cut")];
  const { ingredients, doubts } = importFdcJson(
    JSON.stringify([{ fdcId: 1, description: "Odd", foodNutrients: nutrients, foodPortions }]),
  );
  expect(ingredients[0]).not.toHaveProperty("composition");
  expect(ingredients[0]!.densities!.map(({ state }) => state)).toEqual(["cut"]);
  expect(ingredients[0]!.pieces).toEqual([]);
  expect(doubts.map(({ what }) => what.slice(0, 14))).toEqual([
    "energyKcal is ",
    "its group does",
    "1 cup = 1e-9 g",
    "1 piece = 9000",
  ]);
});

describe("USDA FoodData Central, JSON", () => {
  const one = {
    fdcId: 200,
    description: "Starch root, raw",
    dataType: "Foundation",
    foodCategory: { description: "Vegetables and Vegetable Products" },
    foodNutrients: [
      { nutrient: { id: 1051, number: "255", unitName: "g" }, amount: 70 },
      { nutrient: { id: 1005, number: "205" }, amount: 28 },
      { nutrient: { id: 1003, number: "203" }, amount: -1 },
      { nutrient: { id: 1093 } },
    ],
    foodPortions: [
      { amount: 1, measureUnit: { name: "cup" }, modifier: "grated", gramWeight: 110 },
      { value: 1, measureUnit: { name: "undetermined" }, portionDescription: "1 whole", gramWeight: 300 },
      { amount: 1, measureUnit: { name: "cup" }, gramWeight: -3 },
    ],
  };

  test("I4 the same words from the other form; what is bad is named by its place", () => {
    const list = { FoundationFoods: [one, { fdcId: 1 }, "x", { ...one, dataType: "Branded" }, one] };
    const { ingredients, problems } = importFdcJson(`\uFEFF${JSON.stringify(list)}`);
    expect(ingredients.map(({ id }) => id)).toEqual(["starch-root-raw", "starch-root-raw-2"]);
    expect(ingredients[0]!.composition).toMatchObject({ water: 70, carbohydrate: 28 });
    expect(ingredients[0]!.composition).not.toHaveProperty("protein");
    expect(ingredients[0]!.densities!.map(({ state }) => state)).toEqual(["grated"]);
    expect(ingredients[0]!.pieces).toEqual([expect.objectContaining({ name: "piece", g: 300 })]);
    expect(problems.map(({ what }) => what.slice(0, 22))).toEqual([
      "food 1 of the list: -1",
      'food 1 of the list: "-',
      "food 2 of the list has",
      "food 3 of the list has",
      "food 4 of the list, St",
      "food 5 of the list: -1",
      'food 5 of the list: "-',
    ]);
  });

  test("I7 no JSON, and JSON of another kind", () => {
    expect(importFdcJson("{").problems[0]!.what).toMatch(/no JSON/);
    expect(importFdcJson('{"a":1}').problems[0]!.what).toBe("the file holds no list of foods");
  });
});
