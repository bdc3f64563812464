import type { Allergen } from "../pantry/schema.ts";
import type { Menu } from "../production/schema.ts";
import type { Contents, Eaten } from "./contents.ts";
import { advisoryOf } from "./front-of-house.ts";
import { tracesBy } from "./label-traces.ts";
import type { Exposure } from "./shared.ts";

/** What the floor must know of something that goes with every cover and stands on no plate. */
export interface EveryCover {
  readonly item: Eaten;
  readonly name: string;
  readonly contains: readonly Allergen[];
  readonly mayContain: readonly Allergen[];
  /** What may come to it, or to anything in it, by shared equipment and benches in the plan, beside those. */
  readonly traces?: readonly Allergen[];
  readonly advisory?: string;
}

/**
 * Tells the floor what stands on the table for everyone (README, S26), in the order of the menu's list; nothing where
 * the menu names only its cost.
 */
export function everyCover(
  contents: Contents,
  { surround }: Pick<Menu, "surround">,
  names: (eaten: Eaten) => string,
  exposures: readonly Exposure[],
): EveryCover[] {
  if (!surround || !("items" in surround)) return [];
  const tracesOf = tracesBy(contents, exposures);
  return surround.items.map(({ item }) => {
    const eaten: Eaten =
      "preparation" in item ? { preparation: item.preparation } : { ingredient: item.ingredient };
    const contains = contents.allergens([eaten], ["contains"]);
    const mayContain = contents.allergens([eaten], ["may", "unknown"]);
    const traces = tracesOf(eaten, contains, mayContain);
    return {
      ...{ item: eaten, name: names(eaten), contains, mayContain },
      ...(traces.length > 0 ? { traces } : {}),
      ...(contents.raw(eaten).size > 0 ? { advisory: advisoryOf([names(eaten)]) } : {}),
    };
  });
}
