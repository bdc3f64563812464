import { ALLERGENS, type Allergen } from "../pantry/schema.ts";
import type { Contents } from "./contents.ts";
import type { Label } from "./labels.ts";
import type { Exposure } from "./shared.ts";

/** Container labels with what the plan may bring to the food or to anything in it, beside what they already say. */
export function labelsWithTraces(
  labels: readonly Label[],
  contents: Contents,
  exposures: readonly Exposure[],
): Label[] {
  const byPreparation = Map.groupBy(exposures, (one) => one.preparation);
  const found = new Map<string, ReadonlySet<Allergen>>();
  const passedTo = (preparation: string) => {
    const known = found.get(preparation);
    if (known) return known;
    const inside = [...contents.preparationsOn([{ preparation }])];
    const passed = new Set(
      inside.flatMap((id) => byPreparation.get(id) ?? []).flatMap((each) => each.allergens),
    );
    found.set(preparation, passed);
    return passed;
  };
  return labels.map((label) => {
    const passed = passedTo(label.preparation);
    const said = new Set([...label.allergens, ...label.mayContain]);
    const traces = ALLERGENS.filter((allergen) => passed.has(allergen) && !said.has(allergen));
    return traces.length > 0 ? { ...label, traces } : label;
  });
}
