import { describe, expect, test } from "vitest";
import { starterPantry } from "../../data/pantry/index.ts";
import { type Ingredient, IngredientSchema } from "../pantry/schema.ts";
import { linkRecipe } from "./doubts.ts";
import { draftPreparations } from "./draft.ts";
import { readSource } from "./read.ts";
import { readText } from "./read-text.ts";

const pantry: Ingredient[] = starterPantry.map((one) => IngredientSchema.parse(one));
const byId = new Map(pantry.map((one) => [one.id, one]));
const list = (...lines: string[]) => readText(["Test", ...lines, "", "Mix for 5 min."].join("\n"));
const brief = (...lines: string[]) =>
  list("100 g butter", ...lines)
    .lines.slice(1)
    .map(({ text, low, unit, ingredient }) => [text, low, unit, ingredient]);

describe("IN24 several things in one line", () => {
  test("each with its amount becomes a line of its own, word for word", () => {
    expect(brief("nduja 50g / sugar 10g")).toEqual([
      ["nduja 50g", 50, "g", "nduja"],
      ["sugar 10g", 10, "g", "sugar"],
    ]);
    expect(brief("1 egg yolk + 1 Tbsp milk + 2 g salt").map(([text]) => text)).toEqual([
      "1 egg yolk",
      "1 Tbsp milk",
      "2 g salt",
    ]);
    expect(brief("2 l de lait / 2 l de crème").map(([, low, unit, name]) => [low, unit, name])).toEqual([
      [2, "L", "lait"],
      [2, "L", "crème"],
    ]);
  });
  test("one thing in two measures, another for the same, more of it, its juice: one line", () => {
    for (const text of [
      "200 g / 7 oz butter",
      "butter 200 g / 7 oz",
      "200 g beef mince / 200 g soya mince",
      "250 g sugar + 20 g for dusting",
      "2 cups + 2 tbsp flour",
      "60 g (2 oz / 1/4 cup) muscovado sugar",
      "2 limes / 40 ml juice",
      "50 g de beurre + un peu pour le plat",
      "vin jaune 1 btl, reduced to 200ml",
    ])
      expect(brief(text).map(([said]) => said)).toEqual([text]);
  });
  test("what stays one line and names another amount is asked", () => {
    const [, line] = list("100 g butter", "200 g beef mince / 200 g soya mince").lines;
    expect(line!.doubt).toMatch(/another amount/);
  });
  test("a page's line is parted, too", () => {
    const page = JSON.stringify({
      "@type": "Recipe",
      name: "x",
      recipeIngredient: ["50 g miso / 20 g mirin", "1 egg"],
    });
    expect(readSource(page).recipes[0]!.lines.map((one) => one.text)).toEqual([
      "50 g miso",
      "20 g mirin",
      "1 egg",
    ]);
  });
});

describe("IN10 salt and pepper", () => {
  test.each([
    "salt and pepper",
    "Sel et poivre",
    "sal y pimienta",
    "sale e pepe",
    "Salz und Pfeffer",
    "Salt, pepper",
  ])("%s is linked to both and drafted as two lines, nobody is asked", (text) => {
    const linked = linkRecipe(list("100 g butter", text), pantry);
    expect(linked.links[1]).toMatchObject({ ingredient: "salt", also: [{ ingredient: "black-pepper" }] });
    expect(linked.doubts.filter((one) => one.path === "/lines/1")).toEqual([]);
    const { preparations } = draftPreparations(linked, byId);
    expect(
      preparations[0]!.lines.map(({ item, toTaste }) => [Object.values(item)[0], toTaste ?? false]),
    ).toEqual([
      ["butter", false],
      ["salt", true],
      ["black-pepper", true],
    ]);
  });
  test("a name with and, an amount for both, something unknown: not taken apart", () => {
    for (const text of ["2 tsp salt and pepper", "salt and moon dust"])
      expect(linkRecipe(list("100 g butter", text), pantry).links[1]?.also).toBeUndefined();
  });
});

describe("IN25 bare headings", () => {
  const rows = (...text: string[]) => {
    const { lines, parts } = list(...text);
    return [lines.map((one) => one.text), parts.map((one) => one.name)];
  };
  const [a, b, c, d] = ["100 g butter", "50 g sugar", "2 eggs", "200 g flour"];
  test("a list that opens with one holds others", () => {
    expect(rows("Ingredients", "Parfait", a, b, "Brioche", c, d)).toEqual([
      [a, b, c, d],
      ["Parfait", "Brioche"],
    ]);
  });
  test("several in a list where all else has an amount are headings, one alone is a line", () => {
    expect(rows(a, b, "Craquelin", c, d, "Chouquettes", a, b)[1]).toEqual(["Craquelin", "Chouquettes"]);
    expect(rows(a, b, "Nutmeg", c, d)[1]).toEqual([]);
    expect(rows(a, b, "Nutmeg", c, d, "Vanilla", a, "Mace", b)[1]).toEqual([]);
  });
  test("one that the pantry knows as an ingredient is asked about", () => {
    const asks = (name: string) =>
      linkRecipe(list("Ingredients", "Parfait", a, b, name, c, d), pantry).doubts.filter((one) =>
        /taken for the name of a part/.test(one.ask),
      );
    expect(asks("Nutmeg")).toHaveLength(1);
    expect(asks("Chouquettes")).toEqual([]);
  });
});
