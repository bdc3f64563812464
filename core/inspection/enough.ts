import { normalChance } from "../numerics/normal.ts";
import type { Cooking } from "./cooking.ts";
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

/** Spreads by the mean are told at this distance to see how fast more is needed. */
const STEP = 1e-4;
/** More than this times the mean is asked for nowhere. */
const MOST = 10;

/**
 * The least that is enough with the chance the service wants, found by halving. What cooking makes of a use strays too: more is needed
 * the faster, the further it strays, so a straight line that touches that curve where all uses together stand is never above it: what
 * is asked for use by use is no more than whoever buys for some of them together must buy.
 */
export function enoughFor(scope: Scope, use: Use, cooking: Cooking): Enough {
  const { chance, coversSpread = 0 } = scope.service;
  const cut = scope.ingredients.get(use.ingredient)!.cuts.find((each) => each.id === use.cut);
  const a = (cut?.spread ?? 0) / use.trim;
  const least = (spread: number): number => {
    if (spread === 0 && coversSpread === 0) return 1;
    let [low, high] = [0, MOST];
    if (chanceOf(high, spread, coversSpread) < chance) return high;
    for (let step = 0; step < 80; step++) {
      const middle = (low + high) / 2;
      if (chanceOf(middle, spread, coversSpread) < chance) low = middle;
      else high = middle;
    }
    return high;
  };
  const cooked = (trimSpread: number): number => {
    // For a chance below a half cooking is no reason to buy less.
    if (cooking.all === 0 || chance <= 0.5) return least(trimSpread);
    const at = (stray: number) => least(Math.sqrt((1 + trimSpread ** 2) * (1 + stray ** 2) - 1));
    const rise =
      (at(cooking.all + STEP) - at(Math.max(0, cooking.all - STEP))) /
      (cooking.all + STEP - Math.max(0, cooking.all - STEP));
    return Math.min(MOST, at(cooking.all) + rise * (cooking.own - cooking.all));
  };
  return { whole: cooked(a), cut: cooked(0) };
}
