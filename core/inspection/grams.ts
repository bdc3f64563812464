import type { Line, Preparation } from "../formula/schema.ts";
import type { Ingredient } from "../pantry/schema.ts";
import type { Placement } from "../plating/schema.ts";
import { toBase } from "../quantity/convert.ts";
import type { Amount } from "../quantity/schema.ts";
import { pieceName } from "../quantity/units.ts";
import { named } from "./named.ts";
import type { Scope } from "./scope.ts";

/** An amount that cannot be weighed, so that nothing that follows from it can be judged. */
export class Unweighable extends Error {}

/** Grams of an amount of an ingredient. A bare piece is the piece of that name, or the only one there is. */
export function gramsOfIngredient(amount: Amount, ingredient: Ingredient): number {
  const base = toBase(amount);
  if (base.dimension === "mass") return base.value;
  if (base.dimension === "volume") {
    const density = ingredient.densities.find((d) => d.state === "plain") ?? ingredient.densities[0];
    if (density) return base.value * density.kgPerL;
  }
  if (base.dimension === "count") {
    const name = pieceName(amount.unit);
    const only = ingredient.pieces.length === 1 ? ingredient.pieces[0] : undefined;
    const piece =
      ingredient.pieces.find((p) => p.name === (name ?? "piece")) ?? (name === undefined ? only : undefined);
    if (piece) return base.value * piece.g;
  }
  throw new Unweighable(
    `${amount.value} ${amount.unit} of ${named(ingredient.id, "ingredient")} has no mass`,
  );
}

/** Grams of an amount of a preparation: by its density, or by the pieces of its yield. */
export function gramsOfPreparation(amount: Amount, preparation: Preparation): number {
  const base = toBase(amount);
  if (base.dimension === "mass") return base.value;
  if (base.dimension === "volume" && preparation.density) return base.value * preparation.density.kgPerL;
  if (base.dimension === "count" && preparation.yield.pieces !== undefined)
    return (base.value * yieldG(preparation)) / preparation.yield.pieces;
  throw new Unweighable(
    `${amount.value} ${amount.unit} of ${named(preparation.id, "preparation")} has no mass`,
  );
}

/** Declared yield, g. */
export function yieldG(preparation: Preparation): number {
  const base = toBase(preparation.yield.amount);
  if (base.dimension === "mass") return base.value;
  if (base.dimension === "volume" && preparation.density) return base.value * preparation.density.kgPerL;
  throw new Unweighable(`the yield of ${named(preparation.id, "preparation")} has no mass`);
}

/** EP grams of a line at the declared yield; nothing when it is to taste. */
export function lineG(scope: Scope, line: Line): number {
  if (line.amount === null) return 0;
  if ("preparation" in line.item)
    return gramsOfPreparation(line.amount, scope.preparations.get(line.item.preparation)!);
  const { ingredient: id, cut: cutId } = line.item;
  const ingredient = scope.ingredients.get(id)!;
  const grams = gramsOfIngredient(line.amount, ingredient);
  if (line.as !== "AP") return grams;
  const cut = ingredient.cuts.find((each) => each.id === cutId);
  return grams * (line.trimYield ?? cut?.trimYield ?? 1);
}

/** Grams that a placement puts on one plate. */
export function placementG(scope: Scope, placement: Placement): number {
  return placement.preparation !== undefined
    ? gramsOfPreparation(placement.amount, scope.preparations.get(placement.preparation)!)
    : gramsOfIngredient(placement.amount, scope.ingredients.get(placement.ingredient!)!);
}
