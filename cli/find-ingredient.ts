import type { Book } from "../core/book/index.ts";
import type { Ingredient } from "../core/pantry/schema.ts";

/** The ingredient a person means: by id, then name, then alias, small and capital letters alike. */
export function findIngredient(book: Book, said: string): Ingredient | undefined {
  const plain = (text: string) =>
    text
      .trim()
      .toLowerCase()
      .replaceAll(/[\s_-]+/g, " ");
  const wanted = plain(said);
  const ways: ((ingredient: Ingredient) => boolean)[] = [
    (ingredient) => plain(ingredient.id) === wanted,
    (ingredient) => plain(ingredient.name) === wanted,
    (ingredient) => ingredient.aliases.some((alias) => plain(alias) === wanted),
  ];
  for (const way of ways) {
    const found = book.ingredients.find(way);
    if (found) return found;
  }
  return undefined;
}
