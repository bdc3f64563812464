import type { Line, Preparation } from "../formula/schema.ts";
import type { Ingredient } from "../pantry/schema.ts";
import { CARRIED, type Goes } from "./nutrients.ts";
import type { Known, Notes } from "./nutrition-notes.ts";
import { type Cooked, cookedShare, type Retained } from "./retention.ts";

/** What the minerals of a preparation are carried by. */
export interface MineralWays {
  readonly preparation: Preparation;
  readonly notes: Notes;
  readonly path: string;
  readonly heats: (step: string) => boolean;
  readonly ingredientOf: (id: string) => Ingredient | undefined;
  readonly takersOf: (step: string) => readonly string[];
  /** Shares a step itself keeps of what is carried. */
  readonly own: (step: string, line: string | undefined) => Record<Goes, Known>;
  readonly keptFrom: (step: string, here: (step: string) => Known, as: string) => Known;
}

/**
 * Share of a mineral of a line that reaches the yield: through each step by the factor of the table where it cooks, which
 * takes the place of what the step drains. Undefined where nothing cooks it: it goes as its like.
 */
export function keptMinerals(ways: MineralWays) {
  const { preparation, notes, path, heats, ingredientOf, takersOf, own, keptFrom } = ways;
  const steps = new Map(preparation.steps.map((step) => [step.id, step]));
  const alike = new Map<string, Known>();

  return (line: Line, named: string | undefined, nutrient: Retained): Known | undefined => {
    const ingredient = "ingredient" in line.item ? ingredientOf(line.item.ingredient) : undefined;
    const cooked = new Map<string, Cooked>();
    // Each step with whether the food was cooked on the way to it.
    const open: [step: string, again: boolean][] = [[line.step, false]];
    const seen = new Set<string>();
    for (let next = open.pop(); next !== undefined; next = open.pop()) {
      const [id, again] = next;
      if (seen.has(`${id} ${again}`)) continue;
      seen.add(`${id} ${again}`);
      const step = steps.get(id)!;
      const found = cookedShare(step, line, ingredient, nutrient, heats(id), again, notes);
      if (found && (again || !cooked.has(id))) cooked.set(id, found);
      for (const taker of takersOf(id)) open.push([taker, again || step.cooks !== undefined]);
    }
    if (cooked.size === 0) return undefined;
    const signature = [...cooked].map(([id, { share }]) => `${id} ${share.input as string}`).sort();
    const key = [line.step, named ?? "", nutrient, ...signature].join("|");
    const known = alike.get(key);
    if (known) return known;
    const as = `${nutrient}/of/${line.id}`;
    const here = (id: string): Known => {
      const goes = own(id, named);
      const there = cooked.get(id);
      if (!there) return goes[CARRIED[nutrient].goes];
      const kept = there.drainedWithin ? goes.solid : goes[CARRIED[nutrient].goes];
      return notes.derived(`${path}/${id}/cooked/${as}`, kept.value * there.share.value, "ratio", "times", [
        kept,
        there.share,
      ]);
    };
    const found = keptFrom(line.step, here, as);
    alike.set(key, found);
    return found;
  };
}
