import type { Ingredient } from "../pantry/schema.ts";
import { convert, pieceName } from "../quantity/index.ts";
import type { Amount } from "../quantity/schema.ts";

/** Grams of an amount of an ingredient by its density or piece; undefined when it has none that fits. */
export function gramsOf(amount: Amount, ingredient: Ingredient): number | undefined {
  const density = ingredient.densities.find((one) => one.state === "plain") ?? ingredient.densities[0];
  const kind = pieceName(amount.unit);
  const piece =
    ingredient.pieces.find((one) => one.name === (kind ?? "piece")) ??
    (kind ? undefined : ingredient.pieces[0]);
  const inG = convert(amount, "g", {
    ...(density ? { densityKgPerL: density.kgPerL } : {}),
    ...(piece ? { gPerPiece: piece.g } : {}),
  });
  return inG.ok ? inG.value : undefined;
}
