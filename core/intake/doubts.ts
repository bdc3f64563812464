import type { Ingredient } from "../pantry/schema.ts";
import type { Doubt } from "./doubt.ts";
import { type Link, PantryIndex, SURE } from "./link.ts";
import { linkSeveral } from "./link-several.ts";
import { measuresDoubt } from "./measures.ts";
import { SEASONING } from "./split-note.ts";
import { lineChoices, stepChoices } from "./text-choices.ts";
import type { ReadRecipe } from "./types.ts";

/** A recipe with its lines linked to the pantry and all its doubts in one list. */
export interface LinkedRecipe {
  readonly recipe: ReadRecipe;
  /** One for each line; null where the pantry has nothing near. */
  readonly links: readonly (Link | null)[];
  readonly doubts: readonly Doubt[];
}

/** A second pantry behind the book's own: what it lacks is taken from there, with all its figures. */
export interface Shelf {
  readonly index: PantryIndex;
  readonly ingredients: ReadonlyMap<string, Ingredient>;
}

/** The shelf without what the book has already. */
export function shelfBehind(
  pantry: ReadonlyMap<string, Ingredient>,
  ingredients: Iterable<Ingredient>,
): Shelf {
  const rest = new Map([...ingredients].filter(({ id }) => !pantry.has(id)).map((one) => [one.id, one]));
  return { index: new PantryIndex(rest.values()), ingredients: rest };
}

/**
 * Links every line of a recipe to the pantry, what is not surely there to the shelf, and gathers what is to be asked:
 * each thing once, in order.
 */
export function linkRecipe(
  recipe: ReadRecipe,
  pantry: PantryIndex | Iterable<Ingredient>,
  shelf?: Shelf,
): LinkedRecipe {
  const index = pantry instanceof PantryIndex ? pantry : new PantryIndex(pantry);
  const find = (said: string): Link | null => {
    const own = index.find(said) ?? null;
    if (own && own.confidence >= SURE) return own;
    const other = shelf?.index.find(said);
    return other && other.confidence > (own?.confidence ?? 0) ? { ...other, shelf: true } : own;
  };
  // What comes by the can is the canned one, where there is one.
  const canned = (said: string) => {
    const link = find(`tinned ${said}`);
    return link && link.confidence >= SURE ? link : undefined;
  };
  const links = recipe.lines.map((line) => {
    const { ingredient, unit } = line;
    if (!ingredient) return null;
    const one = (unit === "can" && canned(ingredient)) || find(ingredient);
    return one && one.confidence >= SURE && !SEASONING.test(line.note)
      ? one
      : (linkSeveral(line, find) ?? one);
  });
  const doubts: Doubt[] = [];
  const whose = measuresDoubt(recipe);
  if (whose) doubts.push(whose);
  for (const { name, at, guessed } of recipe.parts)
    if (guessed && (index.find(name)?.confidence ?? 0) >= SURE)
      doubts.push({
        ...{ path: "", at },
        ask: `"${name}" is taken for the name of a part: if it is an ingredient, write it with an amount or a dash before it`,
      });
  const asked = new Set<string>();
  recipe.lines.forEach(({ text, doubt, ingredient, at }, i) => {
    const path = `/lines/${i}`;
    const choices = doubt ? lineChoices(text, doubt) : [];
    const ready = choices.length > 0 ? { choices } : {};
    if (doubt) doubts.push({ path, at, ask: `${ingredient || "this line"}: ${doubt}`, ...ready });
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
      doubts.push({
        ...{ path, at, about: "link" },
        ask: `is "${ingredient}" the ${link.shelf ? "starter " : ""}pantry's ${link.ingredient}?`,
      });
    if (!link || link.confidence < SURE) asked.add(key);
  });
  recipe.steps.forEach((step, i) => {
    if (!step.doubt) return;
    const choices = stepChoices(step);
    const ready = choices.length > 0 ? { choices } : {};
    doubts.push({ path: `/steps/${i}`, at: step.at, ask: step.doubt, ...ready });
  });
  if (recipe.yields.length === 0 && recipe.lines.length > 0)
    doubts.push({ path: "/yields", at: 1, ask: "how much does it make?" });
  return { recipe, links, doubts };
}
