import { describe, expect, test } from "vitest";
import { indexBook, parseBook } from "../../core/book/index.ts";
import type { Allergen } from "../../core/pantry/schema.ts";
import type { Need } from "../../core/plating/schema.ts";
import { Contents } from "../../core/safety/contents.ts";
import { pantryBook } from "./book.ts";

const read = parseBook(pantryBook);
if (!read.ok) throw new Error(JSON.stringify(read.problems[0]));
const contents = new Contents(indexBook(read.value));
const state = (id: string, allergen: Allergen) => contents.allergen([{ ingredient: id }], allergen);
const fits = (id: string, need: Need) => contents.meetsWith([need], [{ ingredient: id }]);

/**
 * Foods in which an allergen hides behind another name. Regulation (EU) 1169/2011, Annex II: cereals with gluten (1),
 * crustaceans, egg, fish, peanut, soy, milk, nuts, celery, mustard, sesame, sulphites above 10 mg/kg (12), lupin, molluscs;
 * FALCPA 2004 (21 U.S.C. 321(qq)) and the FASTER Act of 2021 (sesame) name nine of these.
 */
const HIDDEN: readonly (readonly [string, readonly Allergen[]])[] = [
  ["fish-sauce", ["fish"]],
  ["bonito-flakes", ["fish"]],
  ["anchovy-paste", ["fish"]],
  ["worcester-sauce", ["fish", "gluten"]],
  ["surimi", ["fish"]],
  ["oyster-sauce", ["mollusc", "soy", "gluten"]],
  ["soy-sauce", ["soy", "wheat", "gluten"]],
  ["miso-barley", ["soy", "gluten"]],
  ["malt-vinegar", ["gluten"]],
  ["malt-syrup", ["gluten"]],
  ["barley-malt-flour", ["gluten"]],
  ["malted-milk-powder", ["milk", "wheat", "gluten"]],
  ["yeast-extract", ["gluten", "celery"]],
  ["soy-lecithin", ["soy"]],
  ["whey-powder", ["milk"]],
  ["celeriac", ["celery"]],
  ["vegetable-bouillon", ["celery"]],
  ["lupin-flour", ["lupin"]],
  ["dijon-mustard", ["mustard", "sulphite"]],
  ["mustard-cress", ["mustard"]],
  ["praline-paste", ["tree-nut"]],
];

describe("S1, S3 allergens behind other names, in the starter pantry", () => {
  test.each(HIDDEN)("%s", (id, allergens) => {
    for (const allergen of allergens) expect(state(id, allergen), allergen).toBe("contains");
  });

  test("barley and rye are gluten and no wheat: the US list alone would let them by", () => {
    for (const id of ["pearl-barley", "rye-flour", "malt-syrup"]) {
      expect(state(id, "gluten"), id).toBe("contains");
      expect(fits(id, "coeliac"), id).toBe(false);
      expect(fits(id, "no-wheat"), id).toBe(state(id, "wheat") === "free");
    }
  });

  test("of a bought stock, sauce or pastry whose label nobody has read nothing is free", () => {
    for (const id of ["beef-stock", "chicken-stock", "puff-pastry", "surimi"])
      for (const need of ["coeliac", "no-celery", "no-sesame", "no-egg"] as const)
        expect(fits(id, need), `${id} ${need}`).toBe(false);
  });

  test.each<[Need, string[]]>([
    ["vegan", ["honey", "puff-pastry", "gelatin-leaf", "beef-stock", "chicken-stock", "whey", "fish-sauce"]],
    ["vegetarian", ["gelatin-leaf", "beef-stock", "fish-sauce", "worcester-sauce", "anchovy-oil", "whey"]],
    ["pescatarian", ["gelatin-leaf", "beef-stock", "chicken-stock", "whey"]],
    ["no-alcohol", ["vanilla-extract", "vanilla-paste", "sake", "red-wine", "brandy"]],
    ["pregnant", ["vanilla-extract", "red-wine", "anchovy"]],
  ])("not for %s", (need, ids) => {
    for (const id of ids) expect(fits(id, need), id).toBe(false);
  });
});
