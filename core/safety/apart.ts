import type { Allergen } from "../pantry/schema.ts";
import { ALLERGENS } from "../pantry/schema.ts";
import type { Need } from "../plating/schema.ts";
import type { Apart } from "../production/apart.ts";
import type { Contents, Eaten } from "./contents.ts";
import { ruleOf } from "./needs.ts";

/** A plate and the needs of those who get it. */
export interface NeededPlate {
  readonly needs: readonly Need[];
  readonly placements: readonly Eaten[];
}

/** Allergens of which a guest with this need must not get traces: an allergy or coeliac disease, not a diet. */
export function tracesOf(need: Need): readonly Allergen[] {
  const rule = ruleOf(need);
  return rule.traces ? rule.allergens : [];
}

/** What must be kept apart in a kitchen for these guests: all that lies on their plates, at any depth (README, S19). */
export function apartFor(contents: Contents, plates: readonly NeededPlate[]): Apart {
  const kept = new Map<string, Set<Allergen>>();
  for (const { needs, placements } of plates) {
    const traces = needs.flatMap(tracesOf);
    if (traces.length === 0) continue;
    for (const preparation of contents.preparationsOn(placements)) {
      const known = kept.get(preparation) ?? new Set();
      for (const allergen of traces) known.add(allergen);
      kept.set(preparation, known);
    }
  }
  const carried = new Map<string, ReadonlySet<Allergen>>();
  return {
    carried(preparation, step) {
      const key = `${preparation} ${step}`;
      const known = carried.get(key) ?? allergensAt(contents, preparation, step);
      carried.set(key, known);
      return known;
    },
    keptFrom: (preparation) => kept.get(preparation) ?? NOTHING,
  };
}

const NOTHING: ReadonlySet<Allergen> = new Set();

/** Allergens that the food of a step has, may have, or of which nobody has spoken. */
function allergensAt(contents: Contents, preparation: string, step: string): ReadonlySet<Allergen> {
  const eaten = [...contents.ingredientsAt(preparation, step)].map((ingredient) => ({ ingredient }));
  return new Set(ALLERGENS.filter((allergen) => contents.allergen(eaten, allergen) !== "free"));
}
