import type { Ingredient } from "../pantry/schema.ts";
import { type Link, PantryIndex, SURE } from "./link.ts";
import type { ReadRecipe } from "./types.ts";

/** One thing a person should settle. */
export interface Doubt {
  /** Where: "/lines/3", "/steps/0", "/yields", or "" for the whole. */
  readonly path: string;
  readonly at: number;
  readonly ask: string;
  /** "link": which ingredient a line means; left out for everything else. */
  readonly about?: "link";
}

/** A recipe with its lines linked to the pantry and all its doubts in one list. */
export interface LinkedRecipe {
  readonly recipe: ReadRecipe;
  /** One for each line; null where the pantry has nothing near. */
  readonly links: readonly (Link | null)[];
  readonly doubts: readonly Doubt[];
}

/** Links every line of a recipe to the pantry, and gathers what is to be asked: each thing once, in order. */
export function linkRecipe(recipe: ReadRecipe, pantry: PantryIndex | Iterable<Ingredient>): LinkedRecipe {
  const index = pantry instanceof PantryIndex ? pantry : new PantryIndex(pantry);
  const links = recipe.lines.map((line) => (line.ingredient ? (index.find(line.ingredient) ?? null) : null));
  const doubts: Doubt[] = [];
  const asked = new Set<string>();
  recipe.lines.forEach(({ doubt, ingredient, at }, i) => {
    const path = `/lines/${i}`;
    if (doubt) doubts.push({ path, at, ask: `${ingredient || "this line"}: ${doubt}` });
    const link = links[i];
    const key = ingredient.toLowerCase();
    if (ingredient === "" || asked.has(key)) return;
    if (!link)
      doubts.push({
        path,
        at,
        ask: `"${ingredient}" is not in the pantry: link it, or add it`,
        about: "link",
      });
    else if (link.confidence < SURE)
      doubts.push({ path, at, ask: `is "${ingredient}" the pantry's ${link.ingredient}?`, about: "link" });
    if (!link || link.confidence < SURE) asked.add(key);
  });
  recipe.steps.forEach(({ doubt, at }, i) => {
    if (doubt) doubts.push({ path: `/steps/${i}`, at, ask: doubt });
  });
  if (recipe.yields.length === 0 && recipe.lines.length > 0)
    doubts.push({ path: "/yields", at: 1, ask: "how much does it make?" });
  return { recipe, links, doubts };
}
