import { ALLERGENS, type Allergen } from "../pantry/schema.ts";
import type { Contents, Eaten } from "./contents.ts";
import type { Label } from "./labels.ts";
import type { Exposure } from "./shared.ts";

/** What the plan may bring to food, or to anything in it, beside what is already said of it; each food is looked into once. */
export function tracesBy(
  contents: Contents,
  exposures: readonly Exposure[],
): (eaten: Eaten, ...said: (readonly Allergen[])[]) => Allergen[] {
  const byPreparation = Map.groupBy(exposures, (one) => one.preparation);
  const found = new Map<string, ReadonlySet<Allergen>>();
  const broughtTo = (eaten: Eaten) => {
    const key = `${eaten.preparation ?? ""} ${eaten.ingredient ?? ""}`;
    const known = found.get(key);
    if (known) return known;
    const inside = [...contents.preparationsOn([eaten])];
    const brought = new Set(
      inside.flatMap((id) => byPreparation.get(id) ?? []).flatMap((each) => each.allergens),
    );
    found.set(key, brought);
    return brought;
  };
  return (eaten, ...said) => {
    const brought = broughtTo(eaten);
    const known = new Set(said.flat());
    return ALLERGENS.filter((allergen) => brought.has(allergen) && !known.has(allergen));
  };
}

/** Container labels with what the plan may bring to the food or to anything in it, beside what they already say. */
export function labelsWithTraces(
  labels: readonly Label[],
  contents: Contents,
  exposures: readonly Exposure[],
): Label[] {
  const tracesOf = tracesBy(contents, exposures);
  return labels.map((label) => {
    const traces = tracesOf({ preparation: label.preparation }, label.allergens, label.mayContain);
    return traces.length > 0 ? { ...label, traces } : label;
  });
}
