import { normalChance } from "../numerics/normal.ts";
import type { Scope } from "./scope.ts";
import type { Use } from "./uses.ts";

/** How many times the mean must be there, by what is to be trimmed here and by what is cut already. */
export interface Enough {
  readonly whole: number;
  readonly cut: number;
}

/**
 * The chance that r times the mean is enough, when covers (by their mean) and the trim yield of the lot (by its mean) are
 * normal with standard deviations k and a: that r × yield − covers is not below nothing.
 */
function chanceOf(r: number, a: number, k: number): number {
  return normalChance((r - 1) / Math.sqrt((r * a) ** 2 + k ** 2));
}

/** The least that is enough with the chance the service wants, found by halving. */
export function enoughFor(scope: Scope, use: Use): Enough {
  const { chance, coversSpread = 0 } = scope.service;
  const cut = scope.ingredients.get(use.ingredient)!.cuts.find((each) => each.id === use.cut);
  const a = (cut?.spread ?? 0) / use.trim;
  const least = (trimSpread: number): number => {
    if (trimSpread === 0 && coversSpread === 0) return 1;
    let [low, high] = [0, 10];
    if (chanceOf(high, trimSpread, coversSpread) < chance) return high;
    for (let step = 0; step < 80; step++) {
      const middle = (low + high) / 2;
      if (chanceOf(middle, trimSpread, coversSpread) < chance) low = middle;
      else high = middle;
    }
    return high;
  };
  return { whole: least(a), cut: least(0) };
}
