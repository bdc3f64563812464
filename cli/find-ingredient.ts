import type { Book } from "../core/book/index.ts";
import type { Ingredient } from "../core/pantry/schema.ts";
import { type Bridge, pieceName, type Unit } from "../core/quantity/index.ts";

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

/**
 * How an ingredient crosses between mass, volume and count. A piece is the one the unit names, or one whose name
 * stands in the words after it ("2 cloves garlic"), or the only one there is.
 */
export function ingredientBridge(ingredient: Ingredient, unit: Unit, words: string): Bridge {
  const density = ingredient.densities.find((one) => one.state === "plain") ?? ingredient.densities[0];
  const said = pieceName(unit) ?? words.trim().toLowerCase();
  const piece =
    ingredient.pieces.find((one) => said !== "" && (one.name === said || said.startsWith(one.name))) ??
    ingredient.pieces.find((one) => one.name === "piece") ??
    (ingredient.pieces.length === 1 ? ingredient.pieces[0] : undefined);
  return {
    of: ingredient.name,
    ...(density ? { densityKgPerL: density.kgPerL } : {}),
    ...(piece ? { gPerPiece: piece.g } : {}),
  };
}
