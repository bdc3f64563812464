import type { PreparationCells } from "../formula/cells.ts";
import type { Larder } from "../formula/larder.ts";
import { presentShare } from "../formula/present.ts";
import type { Ledger } from "../ledger/ledger.ts";
import { ALLERGENS } from "../pantry/schema.ts";
import type { Contents, Eaten } from "./contents.ts";

/** Marks of the brackets, one depth inside the other. */
const BRACKETS = [
  ["(", ")"],
  ["[", "]"],
] as const;

/** Longer than any list on a package: what repeats its parts in brackets at every depth would double without end. */
const LONGEST = 8000;

/**
 * Lists of ingredients in descending weight at the time of use (21 CFR 101.4(a)(1); Regulation (EU) 1169/2011, Article
 * 18): what is made of several stands with its own in brackets, allergens stand in capitals after the name, what is
 * added to taste last. Water counts by what is put in, not by what is left; what a step takes away by name (a crust, a
 * cure) by what is taken up, since an ingredient is what is still present in the finished food (Article 2(2)(f)); taken
 * up not at all it still stands, last. Quantities in percent are left to the label.
 */
export class IngredientLists {
  readonly #larder: Larder;
  readonly #contents: Contents;
  readonly #ledger: Ledger;
  readonly #known = new Map<string, readonly string[]>();

  constructor(larder: Larder, contents: Contents, ledger: Ledger) {
    this.#larder = larder;
    this.#contents = contents;
    this.#ledger = ledger;
  }

  /** Writes the list of a preparation; its parts must have been added before. */
  add({ preparation, lines }: PreparationCells): void {
    const parts = lines.map(({ line, ep, weighed }) => ({
      item: line.item as Eaten,
      g: weighed ? this.#ledger.value(ep) * presentShare(preparation, line) : 0,
    }));
    const lists = BRACKETS.map((_, depth) => this.#list(parts, depth));
    const short = lists[0]!.length <= LONGEST;
    this.#known.set(preparation.id, short ? lists : BRACKETS.map(() => this.#flat(preparation.id)));
  }

  /** The list of a preparation's own ingredients. */
  ofPreparation(id: string): string {
    return this.#known.get(id)![0]!;
  }

  /** The list of a plate. */
  ofPlate(parts: readonly (Eaten & { readonly g: number })[]): string {
    return this.#list(
      parts.map((part) => ({ item: part, g: part.g })),
      0,
    );
  }

  /** What goes in, by name alone: for what is made of so many parts that brackets tell nobody anything. */
  #flat(preparation: string): string {
    return [...this.#contents.ingredientsOf({ preparation })]
      .map((ingredient) => this.#name({ ingredient }, 0))
      .sort()
      .join("; ");
  }

  #list(parts: readonly { readonly item: Eaten; readonly g: number }[], depth: number): string {
    const sums = new Map<string, { item: Eaten; g: number }>();
    for (const { item, g } of parts) {
      const key = item.preparation ?? `ingredient ${item.ingredient}`;
      const sum = sums.get(key) ?? { item, g: 0 };
      sum.g += g;
      sums.set(key, sum);
    }
    return (
      [...sums.values()]
        .sort((a, b) => b.g - a.g)
        .map(({ item }) => this.#name(item, depth))
        // Names have commas of their own.
        .join("; ")
    );
  }

  #name(item: Eaten, depth: number): string {
    if (item.preparation !== undefined) {
      const [open, close] = BRACKETS[depth % BRACKETS.length]!;
      const { name } = this.#larder.preparations.get(item.preparation)!;
      const inside = this.#known.get(item.preparation)![(depth + 1) % BRACKETS.length]!;
      return `${name} ${open}${inside}${close}`;
    }
    const ingredient = this.#larder.ingredients.get(item.ingredient!)!;
    const states = ALLERGENS.map(
      (allergen) => [allergen, this.#contents.stateOf(ingredient, allergen)] as const,
    );
    const contained = states.filter(([, state]) => state === "contains").map(([allergen]) => allergen);
    // Wheat says gluten.
    const marks = contained
      .filter((allergen) => !(allergen === "gluten" && contained.includes("wheat")))
      .map((allergen) => allergen.replaceAll("-", " ").toUpperCase());
    if (states.some(([, state]) => state === "unknown")) marks.push("ALLERGENS NOT KNOWN");
    return marks.length === 0 ? ingredient.name : `${ingredient.name} – ${marks.join(", ")}`;
  }
}
