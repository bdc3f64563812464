import type { Ingredient } from "../pantry/schema.ts";
import { convert } from "../quantity/convert.ts";
import { pieceName } from "../quantity/units.ts";
import type { Weigh } from "./lots-stock.ts";

/** Weighs amounts by what the book knows of an ingredient: its density, and the grams of its pieces. */
export function weighBy(ingredients: ReadonlyMap<string, Ingredient>): Weigh {
  return (id, amount) => {
    const known = ingredients.get(id);
    const named = pieceName(amount.unit) ?? "piece";
    const pieces = known?.pieces ?? [];
    const piece =
      pieces.find(({ name }) => name === named) ??
      (pieces.length === 1 && amount.unit === "piece" ? pieces[0] : undefined);
    const density = known?.densities.find(({ state }) => state === "plain") ?? known?.densities[0];
    const there = convert(amount, "g", { densityKgPerL: density?.kgPerL, gPerPiece: piece?.g });
    return there.ok ? there.value : undefined;
  };
}
