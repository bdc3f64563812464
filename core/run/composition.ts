import type { Larder } from "../formula/larder.ts";
import { presentShare } from "../formula/present.ts";
import type { Preparation, Step } from "../formula/schema.ts";
import type { Composition } from "../heat/schema.ts";

const PARTS = ["water", "protein", "fat", "carbohydrate", "fibre", "ash"] as const;

export type Composed =
  | { readonly ok: true; readonly composition: Composition }
  | { readonly ok: false; readonly missing: string };

/** Grams EP of a line of a preparation at its declared yield. */
export type GramsOf = (preparation: string, line: string) => number;

/**
 * Mass fractions of what is in a step, for heat: its own lines and those of the steps before it, by weight.
 * Salt counts as ash; alcohol as water, whose properties it is nearest to. Water lost or taken up on the way is
 * left out: the fractions are of what went in. What a step takes away by name (a salt crust) lies around the food and
 * counts by what is taken up, also while it is heated. Of a stock the bones, whose composition nobody knows, stay behind.
 */
export function compositionOfStep(
  larder: Larder,
  gramsOf: GramsOf,
  preparation: Preparation,
  step: Step,
): Composed {
  const before = new Set<string>();
  const open = [step.id];
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    if (before.has(id)) continue;
    before.add(id);
    const from = preparation.steps.find((one) => one.id === id)?.from ?? [];
    for (const entry of from) open.push(typeof entry === "string" ? entry : entry.step);
  }
  return composed(
    larder,
    gramsOf,
    preparation,
    preparation.lines.filter((line) => before.has(line.step)),
    false,
  );
}

/** `strained`: what has no known composition stays in the sieve and is left out. */
function composed(
  larder: Larder,
  gramsOf: GramsOf,
  preparation: Preparation,
  lines: Preparation["lines"],
  strained: boolean,
): Composed {
  const sums: Record<string, number> = {};
  for (const line of lines) {
    if (line.amount === null) continue;
    const grams = gramsOf(preparation.id, line.id) * presentShare(preparation, line);
    const found =
      "preparation" in line.item
        ? ofPreparation(larder, gramsOf, line.item.preparation)
        : compositionOfIngredient(larder, line.item.ingredient);
    if (!found.ok && strained && "ingredient" in line.item) continue;
    if (!found.ok) return found;
    for (const part of PARTS) sums[part] = (sums[part] ?? 0) + grams * (found.composition[part] ?? 0);
  }
  const total = PARTS.reduce((sum, part) => sum + (sums[part] ?? 0), 0);
  if (!(total > 0)) return { ok: false, missing: "any line with an amount" };
  return {
    ok: true,
    composition: Object.fromEntries(PARTS.map((part) => [part, (sums[part] ?? 0) / total])) as Composition,
  };
}

function ofPreparation(larder: Larder, gramsOf: GramsOf, id: string): Composed {
  const preparation = larder.preparations.get(id)!;
  const strained = preparation.steps.some((step) => step.discard?.as === "strain");
  return composed(larder, gramsOf, preparation, preparation.lines, strained);
}

/** Mass fractions of an ingredient, for heat. */
export function compositionOfIngredient(larder: Larder, id: string): Composed {
  const { composition: c } = larder.ingredients.get(id)!;
  if (!c || c.water === undefined) return { ok: false, missing: `the composition of "${id}"` };
  const fibre = c.fibre ?? 0;
  const parts = {
    water: c.water + (c.alcohol ?? 0),
    protein: c.protein ?? 0,
    fat: c.fat ?? 0,
    // As labels and tables have it, carbohydrate by difference holds the fibre.
    carbohydrate: Math.max(0, (c.carbohydrate ?? 0) - fibre),
    fibre,
    ash: c.ash ?? c.salt ?? 0,
  };
  const total = PARTS.reduce((sum, part) => sum + parts[part], 0);
  return {
    ok: true,
    composition: Object.fromEntries(PARTS.map((part) => [part, parts[part] / total])) as Composition,
  };
}
