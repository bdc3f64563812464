import type { Dish, Need, Placement, Variant } from "../plating/schema.ts";
import { speaksAgainst } from "./contents.ts";
import type { Scope } from "./scope.ts";

/** What lies on a plate of a dish, its variants merged: leaving off wins, then the variant written later. */
export function merged(dish: Dish, variants: readonly Variant[]): Placement[] {
  const left = new Set(variants.flatMap((variant) => variant.drop));
  const instead = new Map(variants.flatMap((v) => v.replace.map((r) => [r.n, r.placement] as const)));
  const kept = dish.placements.filter((placement) => !left.has(placement.n));
  return [...kept.map((p) => instead.get(p.n) ?? p), ...variants.flatMap((variant) => variant.add)];
}

/**
 * The plate that a row of the result names: "standard", or the needs of the variants joined by "+".
 * Undefined when the dish has no such variants.
 */
export function namedForm(dish: Dish, name: string): Placement[] | undefined {
  if (name === "standard") return merged(dish, []);
  const wanted = name.split("+");
  const seen = new Map<string, number>();
  const places: number[] = [];
  const picked: Variant[] = [];
  for (const variant of dish.variants) {
    const nth = (seen.get(variant.need) ?? 0) + 1;
    seen.set(variant.need, nth);
    // A second variant for the same need is told apart by its number.
    const at = wanted.indexOf(nth === 1 ? variant.need : `${variant.need}-${nth}`);
    if (at < 0) continue;
    places.push(at);
    picked.push(variant);
  }
  if (picked.length !== wanted.length) return undefined;
  // Named the other way round the earlier wins where two change one place.
  return merged(dish, places.length > 1 && places[0]! > places.at(-1)! ? picked.toReversed() : picked);
}

/** Whether the dish can be served to somebody with all these needs, with as many of its variants as they have needs. */
export function canServe(scope: Scope, dish: Dish, needs: readonly Need[]): boolean {
  const most = Math.max(1, needs.length);
  const choose = (from: number, picked: readonly Variant[]): boolean => {
    if (keeps(scope, needs, merged(dish, picked))) return true;
    if (picked.length === most) return false;
    for (let i = from; i < dish.variants.length; i++)
      if (choose(i + 1, [...picked, dish.variants[i]!])) return true;
    return false;
  };
  return choose(0, []);
}

/** Whether nothing on the plate speaks against any of the needs. */
export function keeps(scope: Scope, needs: readonly Need[], placements: readonly Placement[]): boolean {
  return needs.every((need) => speaksAgainst(scope, need, placements) === undefined);
}
