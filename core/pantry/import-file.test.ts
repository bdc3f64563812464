import { expect, test } from "vitest";
import { importFile } from "./import-file.ts";

test("I7 I8 a file is told by name and content; the rest of several is kept", () => {
  const list = "name;allergens;origin\nBlack barley;barley;plant\nMoon dust;;plant\n;none;plant\n";
  const json = JSON.stringify({
    FoundationFoods: [
      {
        fdcId: 1,
        description: "Leeks, raw",
        foodCategory: { description: "Vegetables and Vegetable Products" },
        foodNutrients: [],
      },
    ],
  });
  const { ingredients, doubts, problems } = importFile([
    { name: "own.csv", text: list },
    { name: "folder/foundation.json", text: json },
    { name: "food_portion.csv", text: "fdc_id,gram_weight\n1,30\n" },
  ]);
  expect(ingredients.map((one) => [one.name, one.allergens.status])).toEqual([
    ["Black barley", "known"],
    ["Moon dust", "unknown"],
    ["Leeks, raw", "unknown"],
  ]);
  expect(doubts.map((one) => one.ingredient)).toContain("moon-dust");
  expect(problems.map((one) => one.at)).toEqual(
    expect.arrayContaining(["own.csv, line 4", "food_portion.csv"]),
  );
  expect(importFile([{ name: "x.csv", text: "\0\0" }]).ingredients).toEqual([]);
});
