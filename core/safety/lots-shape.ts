import type { Preparation } from "../formula/schema.ts";
import type { Ingredient, Item } from "../pantry/schema.ts";
import type { Dish } from "../plating/schema.ts";
import type { PlateAmount } from "../production/amounts.ts";
import { placementsOf } from "../production/placements-of.ts";
import type { Menu, Service } from "../production/schema.ts";
import type { Shape } from "./lots-schema.ts";

/** What a service makes, as its result says. */
export interface MadeAndServed {
  readonly needs: readonly { readonly preparation: string; readonly batches: readonly unknown[] }[];
  readonly plates: readonly Pick<
    PlateAmount,
    "course" | "dish" | "variant" | "needs" | "count" | "spare" | "seats"
  >[];
}

interface Documents {
  readonly ingredients: ReadonlyMap<string, Ingredient>;
  readonly preparations: ReadonlyMap<string, Preparation>;
  readonly dishes: ReadonlyMap<string, Dish>;
}

/** What is laid or set down for everyone, and for whom. */
export interface ForEveryone {
  readonly menu: Pick<Menu, "surround">;
  readonly covers: number;
  readonly guests: Service["guests"];
}

/**
 * What a service makes of what, to be kept beside its records. Tap water and the like have no lot and are left out; what is
 * to taste is in it.
 * @param span ISO instants in UTC
 * @param everyone what goes with every cover reaches every seat, also one that gets no plate, or must not have it: that it
 *   was kept away is no record
 */
export function shapeOf(
  name: string,
  result: MadeAndServed,
  docs: Documents,
  span: { readonly from: string; readonly to: string },
  everyone?: ForEveryone,
): Shape {
  const split = (items: readonly Item[]) => ({
    ingredients: distinct(
      items.flatMap((item) =>
        "ingredient" in item && !docs.ingredients.get(item.ingredient)?.free ? [item.ingredient] : [],
      ),
    ),
    preparations: distinct(items.flatMap((item) => ("preparation" in item ? [item.preparation] : []))),
  });
  const { surround } = everyone?.menu ?? {};
  const items = surround && "items" in surround ? surround.items.map(({ item }) => item) : [];
  const seated = [
    ...result.plates.flatMap(({ seats }) => seats),
    ...(everyone?.guests ?? []).flatMap(({ seat }) => seat ?? []),
  ];
  return {
    kind: "shape",
    name,
    ...span,
    made: result.needs.flatMap(({ preparation, batches }) => {
      const written = docs.preparations.get(preparation);
      if (!written || batches.length === 0) return [];
      return [{ preparation, batches: batches.length, ...split(written.lines.map(({ item }) => item)) }];
    }),
    plates: result.plates.flatMap(({ course, dish, variant, needs, count, spare, seats }) => {
      const written = docs.dishes.get(dish);
      if (!written || count + spare === 0) return [];
      const placed = placementsOf(written, variant).map(
        (one): Item =>
          one.preparation === undefined ? { ingredient: one.ingredient! } : { preparation: one.preparation },
      );
      return [
        {
          ...{ course, dish, variant, needs: [...needs], count: count + spare, seats: [...seats] },
          ...split(placed),
        },
      ];
    }),
    ...(everyone && items.length > 0
      ? { beside: { covers: everyone.covers, seats: distinct(seated), ...split(items) } }
      : {}),
  };
}

function distinct(ids: readonly string[]): string[] {
  return [...new Set(ids)];
}
