import type { Ingredient } from "../../../core/pantry/schema.ts";

/** What is least known of an ingredient, the most harmful first. */
export type Weakness = "allergens" | "offer" | "density" | "invented" | "memory" | "composition";

/** @param offers how many suppliers offer it */
export function weakest(ingredient: Ingredient, offers: number): Weakness[] {
  const weak: Weakness[] = [];
  const sources = [...ingredient.densities, ...ingredient.pieces, ...ingredient.cuts].map(
    (fact) => fact.source.kind,
  );
  if (ingredient.allergens.status === "unknown") weak.push("allergens");
  if (offers === 0 && !ingredient.free) weak.push("offer");
  if (sources.includes("invented")) weak.push("invented");
  if (sources.includes("memory") || ingredient.composition?.source.kind === "memory") weak.push("memory");
  if (ingredient.composition === undefined && !ingredient.free) weak.push("composition");
  return weak;
}

/** Whether it can harm a guest or stop a run, and so needs a decision; the others only want a better source. */
export function isGrave(weak: Weakness): boolean {
  return weak === "allergens" || weak === "offer";
}
