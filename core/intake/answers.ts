import type { Ingredient } from "../pantry/schema.ts";
import { unknownIngredient } from "../pantry/unknown.ts";
import type { Country } from "../quantity/index.ts";
import type { Doubt } from "./doubt.ts";
import { type LinkedRecipe, linkRecipe, type Shelf } from "./doubts.ts";
import { type Drafted, draftPreparations } from "./draft.ts";
import type { PantryIndex } from "./link.ts";
import type { Oven } from "./ovens.ts";
import { readLine } from "./read-line.ts";
import { readStep } from "./read-step.ts";
import { readYield } from "./read-yield.ts";
import type { ReadRecipe } from "./types.ts";

/** What a person said of one line. */
export interface LineAnswer {
  /** Written anew: read again. */
  readonly text?: string;
  /** Id of the ingredient it is. */
  readonly ingredient?: string;
  /** Not in the pantry: add it, with nothing known. */
  readonly asNew?: boolean;
  /** Left out on purpose. */
  readonly leave?: boolean;
}

/** All that a person said of a reading, by place; what is left out stands as read. */
export interface Answers {
  readonly title?: string;
  /** "4 portions", "1.2 kg": read again. */
  readonly yield?: string;
  /** Whose spoons and cups they are. */
  readonly country?: Country;
  /** Kind of oven of a step, null for none. */
  readonly ovens?: Readonly<Record<number, string | null>>;
  readonly lines?: Readonly<Record<number, LineAnswer>>;
  readonly steps?: Readonly<Record<number, string>>;
  /** Doubts that are settled as they stand, as `doubtKey` names them. */
  readonly settled?: readonly string[];
}

/** A doubt by its place and words: once it is settled it is not asked again, unless it changes. */
export const doubtKey = ({ path, ask }: Doubt): string => `${path} ${ask}`;

/** A reading with the answers in it. */
export interface Answered {
  readonly linked: LinkedRecipe;
  /** Ingredients that are not in the pantry yet: from the shelf with their figures, or with nothing known of them. */
  readonly fresh: readonly Ingredient[];
  readonly drafted: Drafted;
  /** What is still to be settled, of reading and draft together. */
  readonly doubts: readonly Doubt[];
}

/**
 * Puts a person's answers into a reading and makes the documents anew. Never throws; an answer to a place that is
 * not there changes nothing.
 * @param taken ids of preparations in the book, which no draft may take. @param shelf where to look for what it lacks.
 * @param ovens that the kitchens of the book have.
 */
export function answerRecipe(
  read: ReadRecipe,
  answers: Answers,
  index: PantryIndex,
  pantry: ReadonlyMap<string, Ingredient>,
  taken: ReadonlySet<string> = new Set(),
  shelf?: Shelf,
  ovens: readonly Oven[] = [],
): Answered {
  const recipe = rewritten(read, answers);
  const first = linkRecipe(recipe, index, shelf);
  const ids = new Set([...pantry.keys(), ...(shelf?.ingredients.keys() ?? [])]);
  const fresh = new Map<string, Ingredient>();
  const settled = new Set(answers.settled);
  const links = first.links.map((link, i) => {
    const said = answers.lines?.[i];
    if (said?.leave) return null;
    if (said?.ingredient !== undefined && pantry.has(said.ingredient))
      return { ingredient: said.ingredient, confidence: 1, by: "name" as const };
    const chosen = said?.ingredient ?? (said?.asNew ? undefined : link?.ingredient);
    for (const { ingredient } of (chosen === link?.ingredient && link?.also) || []) {
      const other = pantry.has(ingredient) ? undefined : shelf?.ingredients.get(ingredient);
      if (other) fresh.set(other.id, other);
    }
    const onShelf = chosen === undefined ? undefined : shelf?.ingredients.get(chosen);
    if (onShelf) {
      fresh.set(onShelf.id, onShelf);
      const confidence = said?.ingredient === undefined ? link!.confidence : 1;
      const also = chosen === link?.ingredient && link?.also ? { also: link.also } : {};
      return { ingredient: onShelf.id, confidence, by: "name" as const, shelf: true as const, ...also };
    }
    if (!said?.asNew) return link;
    const { ingredient: name } = recipe.lines[i]!;
    const key = name.toLowerCase();
    const made = fresh.get(key) ?? unknownIngredient(name, ids);
    fresh.set(key, made);
    return { ingredient: made.id, confidence: 1, by: "name" as const };
  });
  const linked = { ...first, links };
  const all = new Map([...pantry, ...[...fresh.values()].map((one) => [one.id, one] as const)]);
  const drafted = draftPreparations(linked, all, taken, { ovens, chosen: answers.ovens ?? {} });
  const doubts = [...first.doubts, ...drafted.doubts].filter((doubt) => {
    if (settled.has(doubtKey(doubt))) return false;
    const said = answers.lines?.[Number(/^\/lines\/(\d+)$/.exec(doubt.path)?.[1] ?? -1)];
    if (said?.leave) return false;
    return !(doubt.about === "link" && (said?.ingredient !== undefined || said?.asNew));
  });
  return { linked, fresh: [...fresh.values()], drafted, doubts };
}

function rewritten(read: ReadRecipe, answers: Answers): ReadRecipe {
  const lines = read.lines.map((line, i) => {
    const text = answers.lines?.[i]?.text;
    return text === undefined ? line : { ...line, ...readLine(text) };
  });
  const steps = read.steps.map((step, i) => {
    const text = answers.steps?.[i];
    return text === undefined ? step : { ...step, ...readStep(text) };
  });
  const said = answers.yield?.trim();
  const made = said ? (readYield(said) ?? readYield(`Yield: ${said}`)) : undefined;
  const yields = made ? [{ ...made, at: read.yields[0]?.at ?? 1 }] : read.yields;
  const whose = answers.country ? { country: answers.country } : {};
  return { ...read, ...whose, title: answers.title ?? read.title, lines, steps, yields };
}
