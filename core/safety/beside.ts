import type { Need } from "../plating/schema.ts";
import type { Menu } from "../production/schema.ts";
import type { Contents, Eaten } from "./contents.ts";

/** Something that goes with every cover and that this guest must not have, with why. */
export interface Beside {
  readonly item: Eaten;
  readonly against: readonly { readonly need: Need; readonly why: string }[];
}

/**
 * What goes with every cover stands on no plate, and so no variant keeps it away: of each of its items, what speaks
 * against a guest with these needs (README, S22). Where the menu names only its cost, nobody knows what it is.
 */
export function besideOf(contents: Contents, menu: Menu, needs: readonly Need[]): Beside[] {
  const { surround } = menu;
  if (!surround || !("items" in surround)) return [];
  return surround.items.flatMap(({ item }) => {
    const eaten: Eaten =
      "preparation" in item ? { preparation: item.preparation } : { ingredient: item.ingredient };
    const against = needs.flatMap((need) => {
      const found = contents.against(need, [eaten]);
      return found.length > 0 ? [{ need, why: found.map(({ why }) => why).join(", ") }] : [];
    });
    return against.length > 0 ? [{ item: eaten, against }] : [];
  });
}
