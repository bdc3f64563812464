import { expect, test } from "vitest";
import { demoBook } from "../../data/demo/book.ts";
import { starterPantry } from "../../data/pantry/index.ts";
import { type Ingredient, IngredientSchema } from "../pantry/schema.ts";
import { answerRecipe, doubtKey } from "./answers.ts";
import { shelfBehind } from "./doubts.ts";
import { PantryIndex } from "./link.ts";
import { readText } from "./read-text.ts";

const pantry: Ingredient[] = (demoBook.ingredients ?? []).map((one) => IngredientSchema.parse(one));
const byId = new Map(pantry.map((one) => [one.id, one]));
const index = new PantryIndex(pantry);
const read = readText(
  "Leek broth\nServes 4\n600 g leeks\nMoon dust, 20 g\n1-2 shallots\n20 g moon dust\nSimmer 20 min.",
);
const answered = (answers: Parameters<typeof answerRecipe>[1], taken: ReadonlySet<string> = new Set()) =>
  answerRecipe(read, answers, index, byId, taken);

test("IN20 what is not in the pantry is asked once, and added with nothing known when a person says so", () => {
  const before = answered({});
  expect(before.doubts.filter((one) => one.about === "link")).toHaveLength(1);
  const { fresh, doubts, drafted, linked } = answered({ lines: { 1: { asNew: true }, 3: { asNew: true } } });
  expect(doubts.filter((one) => one.about === "link")).toEqual([]);
  expect(fresh).toHaveLength(1);
  expect(fresh[0]).toMatchObject({ id: "moon-dust", allergens: { status: "unknown", contains: [] } });
  // Nothing known counts as everything, for every diet.
  expect(fresh[0]!.origin).toEqual(expect.arrayContaining(["meat", "dairy", "egg", "fish", "alcohol"]));
  expect([linked.links[1]?.ingredient, linked.links[3]?.ingredient]).toEqual(["moon-dust", "moon-dust"]);
  expect(drafted.preparations.at(-1)!.lines).toHaveLength(4);
});

test("IN20 a line written anew is read anew, one left out is not asked of, one settled is asked no more", () => {
  const line = answered({ lines: { 2: { text: "2 shallots" } } });
  expect(line.linked.recipe.lines[2]).toMatchObject({ low: 2, high: 2 });
  expect(line.doubts.some((one) => /low end/.test(one.ask))).toBe(false);
  const left = answered({ lines: { 1: { leave: true }, 3: { leave: true } } });
  expect(left.drafted.preparations.at(-1)!.lines).toHaveLength(2);
  const low = answered({}).doubts.find((one) => /low end/.test(one.ask))!;
  expect(answered({ settled: [doubtKey(low)] }).doubts.map(doubtKey)).not.toContain(doubtKey(low));
  expect(answered({ yield: "1.2 kg" }).drafted.preparations.at(-1)!.yield.amount).toEqual({
    value: 1.2,
    unit: "kg",
  });
});

test("IN20 a draft takes no id that the book has; answers to no place change nothing", () => {
  expect(answered({}, new Set(["leek-broth"])).drafted.preparations.at(-1)!.id).toBe("leek-broth-2");
  expect(answered({ lines: { 99: { ingredient: "leek" } }, steps: { 7: "x" } })).toEqual(answered({}));
});

test("IN20 what the book lacks comes from the shelf with its figures; what the book has stays the book's", () => {
  const others = starterPantry.map((one) => IngredientSchema.parse(one));
  const shelf = shelfBehind(byId, others);
  expect([...shelf.ingredients.keys()].some((id) => byId.has(id))).toBe(false);
  const text = readText(
    "Stew\n1 kg leeks\n500 mL chicken stock\n2 cans tomatoes\n20 g moon dust\nSimmer 20 min.",
  );
  const { linked, fresh, doubts } = answerRecipe(text, {}, index, byId, new Set(), shelf);
  expect(linked.links[0]).not.toHaveProperty("shelf");
  expect(linked.links[1]).toMatchObject({ ingredient: "chicken-stock", shelf: true });
  expect(linked.links[2]!.ingredient).toBe("tinned-tomato");
  expect(fresh.find((one) => one.id === "chicken-stock")).toEqual(shelf.ingredients.get("chicken-stock"));
  expect(doubts.filter((one) => one.about === "link").map((one) => one.path)).toEqual(["/lines/3"]);
  // A person may take another from the shelf, or have it as new.
  const { fresh: chosen } = answerRecipe(
    text,
    { lines: { 3: { ingredient: "sumac" } } },
    index,
    byId,
    new Set(),
    shelf,
  );
  expect(chosen.map((one) => one.id)).toContain("sumac");
  const { fresh: anew } = answerRecipe(
    text,
    { lines: { 1: { asNew: true } } },
    index,
    byId,
    new Set(),
    shelf,
  );
  expect(anew.find((one) => /chicken stock/i.test(one.name))!.allergens.status).toBe("unknown");
});
