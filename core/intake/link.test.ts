import { describe, expect, test } from "vitest";
import { demoBook } from "../../data/demo/book.ts";
import { type Ingredient, IngredientSchema } from "../pantry/schema.ts";
import { linkRecipe } from "./doubts.ts";
import { draftPreparations } from "./draft.ts";
import { PantryIndex, SURE, singular } from "./link.ts";
import { readText } from "./read-text.ts";
import { cpuMs } from "./testing/cpu.ts";

const pantry: Ingredient[] = (demoBook.ingredients ?? []).map((one) => IngredientSchema.parse(one));
const index = new PantryIndex(pantry);
const found = (said: string) => index.find(said)?.ingredient;
const sure = (said: string) => (index.find(said)?.confidence ?? 0) >= SURE;

describe("IN10 links to the pantry", () => {
  test("every ingredient is found by its own name, surely", () => {
    for (const { id, name } of pantry)
      expect(index.find(name), name).toMatchObject({ ingredient: id, confidence: 1 });
  });
  test("by alias, in the plural, past adjectives", () => {
    const table: Record<string, string> = {
      ...{
        carrots: "carrot",
        shallots: "shallot",
        "celery root": "celeriac",
        "all-purpose flour": "plain-flour",
      },
      ...{
        "large eggs": "eggs",
        "unsalted butter": "butter",
        "fresh thyme": "thyme",
        quinces: "quince",
        "chopped parsley": "parsley",
      },
      ...{
        "Double cream": "cream",
        "finely chopped shallots": "shallot",
        "Crème fraîche": "creme-fraiche",
        "bay leaves": "bay-leaf",
      },
    };
    for (const [said, id] of Object.entries(table)) {
      expect(found(said), said).toBe(id);
      expect(sure(said), said).toBe(true);
    }
  });
  test("another thing with a word in common is not taken surely", () => {
    for (const said of [
      "peanut butter",
      "coconut milk",
      "apple pie spice",
      "chicken stock",
      "butter beans",
      "oyster sauce",
      "vegan sour cream",
      "wheat-free rye flour",
      "flour",
      "soy milk",
      "almond flour",
      "cream of tartar",
    ])
      expect(sure(said), `${said} -> ${found(said)}`).toBe(false);
    expect(index.find("")).toBeUndefined();
    expect(index.find("zzz")).toBeUndefined();
  });
  test("one stem for singular and plural", () => {
    for (const [one, many] of [
      ["carrot", "carrots"],
      ["leaf", "leaves"],
      ["berry", "berries"],
      ["tomato", "tomatoes"],
      ["poireau", "poireaux"],
      ["radish", "radishes"],
    ])
      expect(singular(many!)).toBe(singular(one!));
    expect(singular("couscous")).toBe("couscous");
  });
  test("ten thousand names are searched in well under 50 ms a line", () => {
    const many = Array.from({ length: 10_000 }, (_, i) => ({
      ...pantry[i % pantry.length]!,
      id: `p${i}`,
      name: `Thing ${i} oil of kind ${i % 97}`,
    }));
    const large = new PantryIndex(many);
    const start = cpuMs();
    for (let i = 0; i < 20; i++) large.find(`kind ${i} oil`);
    expect((cpuMs() - start) / 20).toBeLessThan(50);
  });
});

const SOUP = `Leek soup
Serves 4
600 g leeks, sliced
1-2 shallots
Salt to taste
Moon dust
For the crumb:
50 g butter
100 g dark rye bread
Sweat the leeks in the shallots for 10 minutes.
Blend.`;

describe("IN11 doubts and documents", () => {
  const linked = linkRecipe(readText(SOUP), index);
  test("one quiet list: what is not in the pantry, what has no amount, each once", () => {
    expect(linked.doubts.map((one) => one.ask)).toEqual([
      expect.stringMatching(/^Moon dust: no amount/),
      expect.stringMatching(/"Moon dust" is not in the pantry/),
    ]);
  });
  test("sub-preparations first, the whole takes them, what is left out is asked", () => {
    const { preparations, doubts } = draftPreparations(linked, new Map(pantry.map((one) => [one.id, one])));
    expect(preparations.map((one) => one.id)).toEqual(["leek-soup-crumb", "leek-soup"]);
    const [crumb, soup] = preparations;
    expect(crumb!.yield.amount).toEqual({ value: 150, unit: "g" });
    expect(soup!.lines.at(-1)).toMatchObject({
      item: { preparation: "leek-soup-crumb" },
      amount: { value: 150, unit: "g" },
    });
    expect(soup!.lines[0]).toMatchObject({
      item: { ingredient: "leek" },
      amount: { value: "600", unit: "g" },
      step: "step-1",
    });
    expect(soup!.lines.find((line) => line.toTaste)).toMatchObject({
      amount: null,
      item: { ingredient: "salt" },
    });
    expect(soup!.yield).toMatchObject({ pieces: 4, basis: "computed" });
    expect(doubts.map((one) => one.ask).join("\n")).toMatch(/low end is taken[\s\S]*the yield is taken/);
  });
});

test("IN12 a thousand recipes are read in under 10 s", () => {
  const start = cpuMs();
  for (let i = 0; i < 1000; i++) linkRecipe(readText(SOUP.replace("600", String(600 + i))), index);
  expect(cpuMs() - start).toBeLessThan(10_000);
});
