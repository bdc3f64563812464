import type { Larder } from "../formula/larder.ts";
import type { Preparation } from "../formula/schema.ts";
import { ALLERGENS, type Allergen, type Ingredient, type Origin } from "../pantry/schema.ts";
import type { Need, Placement } from "../plating/schema.ts";
import { ruleOf } from "./needs.ts";
import { cookedAtC, stepCoreC } from "./raw.ts";

export type AllergenState = "contains" | "may" | "unknown" | "free";

/** An allergen word of a supplier's offer, beyond the ingredient's own. */
export interface Declared {
  readonly contains: readonly Allergen[];
  readonly mayContain: readonly Allergen[];
}

/** Something a guest eats: a preparation or an ingredient. */
export interface Eaten {
  readonly preparation?: string | undefined;
  readonly ingredient?: string | undefined;
}

/** How many ways of arrival are listed for one allergen; the state never depends on this. */
const MOST_PATHS = 60;

/**
 * What is in the food, by whom it arrives: allergens, origins, and what is still raw, for any preparation of any
 * depth. Each preparation is looked into once. An ingredient whose allergens are not known counts as containing
 * all of them, until someone says; a line "to taste" counts as much as any other.
 */
export class Contents {
  readonly #larder: Larder;
  readonly #declared: (ingredient: string) => Declared | undefined;
  readonly #ingredients = new Map<string, ReadonlySet<string>>();
  readonly #raw = new Map<string, ReadonlyMap<string, number>>();
  readonly #states = new Map<string, Uint8Array>();

  constructor(larder: Larder, declared: (ingredient: string) => Declared | undefined = () => undefined) {
    this.#larder = larder;
    this.#declared = declared;
  }

  /** Every ingredient that goes into this, at any depth. */
  ingredientsOf(eaten: Eaten): ReadonlySet<string> {
    if (eaten.ingredient !== undefined) return new Set([eaten.ingredient]);
    return this.#ofPreparation(eaten.preparation!);
  }

  /** Every ingredient in the food of a step: of its own lines and of all that entered before it. */
  ingredientsAt(preparation: string, step: string): ReadonlySet<string> {
    const whole = this.#preparation(preparation);
    const before = stepsInto(whole, step);
    const all = new Set<string>();
    for (const line of whole.lines)
      if (before.has(line.step)) for (const id of this.ingredientsOf(partOf(line.item))) all.add(id);
    return all;
  }

  /** Every preparation in what is eaten, at any depth, itself included. */
  preparationsOn(eaten: readonly Eaten[]): ReadonlySet<string> {
    const found = new Set<string>();
    const open = eaten.flatMap((one) => one.preparation ?? []);
    for (let id = open.pop(); id !== undefined; id = open.pop()) {
      if (found.has(id)) continue;
      found.add(id);
      open.push(...partsOf(this.#preparation(id)).flatMap((part) => part.preparation ?? []));
    }
    return found;
  }

  /** The shortest way from what is eaten down to a preparation in it, both ends included. */
  wayTo(eaten: readonly Eaten[], preparation: string): readonly string[] {
    const from = new Map<string, string | undefined>();
    const open = eaten.flatMap((one) => one.preparation ?? []);
    for (const id of open) from.set(id, undefined);
    for (let i = 0; i < open.length && !from.has(preparation); i++)
      for (const { preparation: part } of partsOf(this.#preparation(open[i]!)))
        if (part !== undefined && !from.has(part)) {
          from.set(part, open[i]!);
          open.push(part);
        }
    const way: string[] = [];
    for (let id: string | undefined = preparation; id !== undefined; id = from.get(id)) way.unshift(id);
    return way;
  }

  /** The state of one allergen in one ingredient. Wheat is gluten. */
  stateOf(ingredient: Ingredient, allergen: Allergen): AllergenState {
    const declared = this.#declared(ingredient.id);
    const has = (list: readonly Allergen[]) =>
      list.includes(allergen) || (allergen === "gluten" && list.includes("wheat"));
    if (has(ingredient.allergens.contains) || has(declared?.contains ?? [])) return "contains";
    if (ingredient.allergens.status === "unknown") return "unknown";
    if (has(ingredient.allergens.mayContain) || has(declared?.mayContain ?? [])) return "may";
    return "free";
  }

  /** The worst state of an allergen over all that is eaten. */
  allergen(eaten: readonly Eaten[], allergen: Allergen): AllergenState {
    const at = ALLERGENS.indexOf(allergen);
    let worst = 0;
    for (const one of eaten) worst = Math.max(worst, this.#statesOf(one)[at]!);
    return STATES[worst]!;
  }

  /** The worst state of every allergen in one thing eaten, by their order; kept, since it is asked for again and again. */
  #statesOf(eaten: Eaten): Uint8Array {
    const key = eaten.preparation ?? `ingredient ${eaten.ingredient}`;
    const known = this.#states.get(key);
    if (known) return known;
    const worst = new Uint8Array(ALLERGENS.length);
    for (const id of this.ingredientsOf(eaten)) {
      const ingredient = this.#ingredient(id);
      ALLERGENS.forEach((allergen, i) => {
        worst[i] = Math.max(worst[i]!, STATES.indexOf(this.stateOf(ingredient, allergen)));
      });
    }
    this.#states.set(key, worst);
    return worst;
  }

  /** All allergens of a state, in the order of the list. */
  allergens(eaten: readonly Eaten[], states: readonly AllergenState[]): Allergen[] {
    return ALLERGENS.filter((allergen) => states.includes(this.allergen(eaten, allergen)));
  }

  /** Ways by which ingredients that satisfy `bad` arrive: ids from what is eaten down to the ingredient. */
  paths(eaten: readonly Eaten[], bad: (ingredient: Ingredient) => boolean): string[][] {
    const found: string[][] = [];
    const reaches = new Map<string, boolean>();
    const leads = (preparation: string): boolean => {
      const known = reaches.get(preparation);
      if (known !== undefined) return known;
      const answer = [...this.#ofPreparation(preparation)].some((id) => bad(this.#ingredient(id)));
      reaches.set(preparation, answer);
      return answer;
    };
    // A list of what is still to walk, not a call within a call: a book may nest thousands deep.
    const trails = uniqueBy(eaten, (e) => e.preparation ?? e.ingredient!).map((one) => ({
      one,
      trail: [] as readonly string[],
    }));
    trails.reverse();
    for (let next = trails.pop(); next && found.length < MOST_PATHS; next = trails.pop()) {
      const { one, trail } = next;
      if (one.ingredient !== undefined) {
        if (bad(this.#ingredient(one.ingredient))) found.push([...trail, one.ingredient]);
      } else if (leads(one.preparation!)) {
        const deeper = [...trail, one.preparation!];
        for (const part of partsOf(this.#preparation(one.preparation!)).reverse())
          trails.push({ one: part, trail: deeper });
      }
    }
    return found;
  }

  /** Ingredients still raw (or cooked below their limit) when eaten, with the core temperature each would need. */
  raw(eaten: Eaten): ReadonlyMap<string, number> {
    if (eaten.ingredient !== undefined) {
      const limit = cookedAtC(this.#ingredient(eaten.ingredient));
      return limit === undefined ? new Map() : new Map([[eaten.ingredient, limit]]);
    }
    return this.#rawOf(eaten.preparation!);
  }

  /** What speaks against serving this to a guest with the need; empty when it meets the need. */
  against(need: Need, eaten: readonly Eaten[]): { readonly why: string; readonly paths: string[][] }[] {
    const rule = ruleOf(need);
    const found: { why: string; paths: string[][] }[] = [];
    const origin = (ingredient: Ingredient): Origin | undefined =>
      ingredient.origin.find((word) => rule.origins.includes(word));
    const byOrigin = this.paths(eaten, (ingredient) => origin(ingredient) !== undefined);
    if (byOrigin.length > 0) {
      const words = new Set(byOrigin.map((path) => origin(this.#ingredient(path.at(-1)!))));
      found.push({ why: [...words].join(", "), paths: byOrigin });
    }
    for (const allergen of rule.allergens) {
      const state = this.allergen(eaten, allergen);
      if (state === "free") continue;
      const paths = this.paths(eaten, (ingredient) => this.stateOf(ingredient, allergen) !== "free");
      found.push({ why: state === "contains" ? allergen : `${allergen} (${state})`, paths });
    }
    if (rule.cookedOnly) {
      const raw = new Set(eaten.flatMap((one) => [...this.raw(one).keys()]));
      if (raw.size > 0) {
        const paths = this.paths(eaten, (ingredient) => raw.has(ingredient.id));
        found.push({ why: "raw or cooked below its limit", paths });
      }
    }
    return found;
  }

  /** Whether a plate meets every need. Anything unknown does not. */
  meets(needs: readonly Need[], placements: readonly Placement[]): boolean {
    return this.meetsWith(needs, placements);
  }

  /** As `meets`, for anything eaten. */
  meetsWith(needs: readonly Need[], eaten: readonly Eaten[]): boolean {
    return needs.every((need) => !this.#forbids(need, eaten));
  }

  /** Ingredients in it of which nobody has said what allergens they have. */
  unsaidIn(eaten: Eaten): string[] {
    return [...this.ingredientsOf(eaten)].filter((id) => this.#ingredient(id).allergens.status === "unknown");
  }

  /** As `against`, but only yes or no: the quick answer for choosing plates. */
  #forbids(need: Need, eaten: readonly Eaten[]): boolean {
    const rule = ruleOf(need);
    for (const one of eaten)
      for (const id of this.ingredientsOf(one)) {
        const ingredient = this.#ingredient(id);
        if (ingredient.origin.some((word) => rule.origins.includes(word))) return true;
        if (rule.allergens.some((allergen) => this.stateOf(ingredient, allergen) !== "free")) return true;
      }
    return rule.cookedOnly === true && eaten.some((one) => this.raw(one).size > 0);
  }

  #ofPreparation(id: string): ReadonlySet<string> {
    const known = this.#ingredients.get(id);
    if (known) return known;
    this.#partsFirst(id, this.#ingredients, (part) => this.#ofPreparation(part));
    const all = new Set<string>();
    for (const part of partsOf(this.#preparation(id)))
      for (const ingredient of this.ingredientsOf(part)) all.add(ingredient);
    this.#ingredients.set(id, all);
    return all;
  }

  /** Raw parts enter at their line's step and stay raw until a step's core limit cooks them. */
  #rawOf(id: string): ReadonlyMap<string, number> {
    const known = this.#raw.get(id);
    if (known) return known;
    this.#partsFirst(id, this.#raw, (part) => this.#rawOf(part));
    const preparation = this.#preparation(id);
    const after = new Map<string, Map<string, number>>();
    const finish = (stepId: string): Map<string, number> => {
      const done = after.get(stepId);
      if (done) return done;
      const step = preparation.steps.find((s) => s.id === stepId)!;
      const raw = new Map<string, number>();
      for (const from of step.from)
        for (const [ingredient, limit] of finish(typeof from === "string" ? from : from.step))
          raw.set(ingredient, limit);
      for (const line of preparation.lines)
        if (line.step === stepId) {
          const part = partOf(line.item);
          for (const [ingredient, limit] of this.raw(part)) raw.set(ingredient, limit);
        }
      const coreC = stepCoreC(step);
      if (coreC !== undefined)
        for (const [ingredient, limit] of raw) if (coreC >= limit) raw.delete(ingredient);
      after.set(stepId, raw);
      return raw;
    };
    const used = new Set(
      preparation.steps.flatMap((s) => s.from.map((f) => (typeof f === "string" ? f : f.step))),
    );
    const all = new Map<string, number>();
    for (const step of preparation.steps)
      if (!used.has(step.id)) for (const [ingredient, limit] of finish(step.id)) all.set(ingredient, limit);
    this.#raw.set(id, all);
    return all;
  }

  /** Looks into every part below `id` before `id` itself, without recursion: depth must not exhaust the stack. */
  #partsFirst(id: string, done: ReadonlyMap<string, unknown>, look: (part: string) => unknown): void {
    const below = (preparation: string) =>
      partsOf(this.#preparation(preparation)).flatMap((part) =>
        part.preparation !== undefined && !done.has(part.preparation) ? [part.preparation] : [],
      );
    const trail = below(id);
    while (trail.length > 0) {
      const top = trail.at(-1)!;
      const open = below(top);
      if (open.length > 0) trail.push(...open);
      else {
        trail.pop();
        if (!done.has(top)) look(top);
      }
    }
  }

  #ingredient(id: string): Ingredient {
    return this.#larder.ingredients.get(id)!;
  }

  #preparation(id: string): Preparation {
    return this.#larder.preparations.get(id)!;
  }
}

/** From best to worst. */
const STATES: readonly AllergenState[] = ["free", "may", "unknown", "contains"];

/** A step and all whose output enters it. */
function stepsInto(preparation: Preparation, step: string): ReadonlySet<string> {
  const found = new Set<string>();
  const open = [step];
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    if (found.has(id)) continue;
    found.add(id);
    const from = preparation.steps.find((one) => one.id === id)?.from ?? [];
    open.push(...from.map((one) => (typeof one === "string" ? one : one.step)));
  }
  return found;
}

function partOf(item: Preparation["lines"][number]["item"]): Eaten {
  return "preparation" in item ? { preparation: item.preparation } : { ingredient: item.ingredient };
}

function partsOf(preparation: Preparation): Eaten[] {
  return uniqueBy(
    preparation.lines.map((line) => partOf(line.item)),
    (part) => part.preparation ?? part.ingredient!,
  );
}

function uniqueBy<T>(list: readonly T[], key: (item: T) => string): T[] {
  return [...new Map(list.map((item) => [key(item), item])).values()];
}
