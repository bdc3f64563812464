import { expect, test } from "vitest";
import type { Book } from "../book/schema.ts";
import { randomBook } from "../inspection/testing/random-book.ts";
import { ALLERGENS, type Allergen } from "../pantry/schema.ts";
import { run } from "./run.ts";

interface Item {
  readonly ingredient?: string | undefined;
  readonly preparation?: string | undefined;
}

/** Every ingredient in an item, by the book's lines alone. */
function inside(book: Book, item: Item): string[] {
  if (item.preparation === undefined) return [item.ingredient!];
  return book.preparations
    .find(({ id }) => id === item.preparation)!
    .lines.flatMap((line) => inside(book, line.item as Item));
}

/** Whether an ingredient has an allergen for sure, or may have it: by its own word, or any supplier's. */
function has(book: Book, id: string, allergen: Allergen): "sure" | "perhaps" | undefined {
  const { allergens } = book.ingredients.find((one) => one.id === id)!;
  const offers = book.suppliers.flatMap((one) => one.offers).filter((one) => one.ingredient === id);
  const wheat = (words: readonly Allergen[]) =>
    words.includes(allergen) || (allergen === "gluten" && words.includes("wheat"));
  if (allergens.status !== "unknown" && wheat(allergens.contains)) return "sure";
  if (allergens.status === "unknown") return "perhaps";
  const words = offers.flatMap((one) => [
    ...(one.allergens?.contains ?? []),
    ...(one.allergens?.mayContain ?? []),
  ]);
  return wheat([...allergens.mayContain, ...words]) ? "perhaps" : undefined;
}

test("S26 in random books the floor is told all that may be in what goes with every cover, and nothing it has not", () => {
  const seen = { sure: 0, perhaps: 0, none: 0, deep: 0 };
  for (let seed = 1200; seed < 1240; seed++) {
    const book = randomBook(seed, 5);
    const { surround } = book.menus[0]!;
    const listed = surround && "items" in surround ? surround.items : [];
    const { everyCover } = run(book, "service-1", { plan: false, trace: false });
    expect(everyCover).toHaveLength(listed.length);
    listed.forEach(({ item }, i) => {
      const told = everyCover[i]!;
      const eaten = inside(book, item as Item);
      seen.deep += eaten.length > 2 ? 1 : 0;
      for (const allergen of ALLERGENS) {
        const words = eaten.map((id) => has(book, id, allergen));
        const said = [...told.contains, ...told.mayContain].includes(allergen);
        const at = `book ${seed}, item ${i}, ${allergen}`;
        if (words.includes("sure")) expect(told.contains, at).toContain(allergen);
        if (said) expect(words.some(Boolean), at).toBe(true);
        // A supplier's word counts only where the kitchen may buy there: its own word always does.
        const own = eaten.some((id) => {
          const { allergens } = book.ingredients.find((one) => one.id === id)!;
          return allergens.status === "unknown" || allergens.mayContain.includes(allergen);
        });
        if (own) expect(said, at).toBe(true);
        seen[words.includes("sure") ? "sure" : said ? "perhaps" : "none"]++;
      }
    });
  }
  // A generator gone dull would prove nothing.
  expect(Math.min(...Object.values(seen))).toBeGreaterThan(10);
});
