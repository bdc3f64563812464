import type { Preparation, Step } from "../formula/schema.ts";
import { lineG, yieldG } from "./grams.ts";
import { enteringOf, massesOf } from "./masses.ts";
import type { Made } from "./needs.ts";
import type { Scope } from "./scope.ts";
import type { Use } from "./uses.ts";

/** How far what the pots make of a use strays by its mean: on its own, and that of all uses of the food in the cut. */
export interface Cooking {
  readonly own: number;
  readonly all: number;
}

type Strays = ReadonlyMap<string, number>;

/**
 * Of each use, how far what is made of it strays. Each preparation strays by itself; what goes through it strays with it. All uses of
 * a food in a cut stray by the length of the sum of theirs; the own part of a use is its part in the direction of that sum, so that
 * whichever of the uses are bought for together, their parts add to no more than they stray.
 */
export function cookingOf(
  scope: Scope,
  made: ReadonlyMap<string, Made>,
  uses: readonly Use[],
): Map<Use, Cooking> {
  const ways = waysOf(scope, made);
  const none: Strays = new Map();
  const straysOf = (use: Use) => (use.line === undefined ? none : ways.get(use.line.split("/")[0]!)!);
  const found = new Map<Use, Cooking>();
  for (const own of Map.groupBy(uses, (use) => `${use.ingredient} ${use.cut}`).values()) {
    const sum = new Map<string, number>();
    for (const use of own)
      for (const [of, stray] of straysOf(use)) sum.set(of, (sum.get(of) ?? 0) + wholeOf(use) * stray);
    const length = Math.hypot(...sum.values());
    const whole = own.reduce((all, use) => all + wholeOf(use), 0);
    for (const use of own) {
      const along = [...straysOf(use)].reduce((all, [of, stray]) => all + stray * sum.get(of)!, 0);
      found.set(use, length > 0 ? { own: along / length, all: length / whole } : { own: 0, all: 0 });
    }
  }
  return found;
}

/** As purchased whole, g. */
const wholeOf = (use: Use) => use.epG / use.trim;

/** By preparation: how far it strays through each preparation from it to the plate, itself among them. */
function waysOf(scope: Scope, made: ReadonlyMap<string, Made>): ReadonlyMap<string, Strays> {
  const ways = new Map<string, Map<string, number>>();
  const wayOf = (id: string) => ways.get(id) ?? new Map<string, number>();
  // What is made of a preparation stands before it.
  for (const { preparation, grams } of made.values()) {
    const way = wayOf(preparation.id);
    const own = strayOf(scope, preparation);
    if (own > 0) way.set(preparation.id, own);
    ways.set(preparation.id, way);
    for (const line of preparation.lines) {
      const part = "preparation" in line.item ? made.get(line.item.preparation) : undefined;
      if (!part || part.grams <= 0) continue;
      const share = (lineG(scope, line) * grams) / yieldG(preparation) / part.grams;
      const below = wayOf(part.preparation.id);
      for (const [of, stray] of way) below.set(of, (below.get(of) ?? 0) + share * stray);
      ways.set(part.preparation.id, below);
    }
  }
  return ways;
}

/** How far the yield of one making strays by its mean: by making it again, with each step that strays a spread better. */
function strayOf(scope: Scope, preparation: Preparation): number {
  const usual = outputOf(scope, preparation);
  if (usual <= 0) return 0;
  const more = preparation.steps.map((step) => {
    const better = strayed(step);
    if (!better) return 0;
    const steps = preparation.steps.map((each) => (each === step ? better : each));
    return outputOf(scope, { ...preparation, steps }) / usual - 1;
  });
  return Math.hypot(...more);
}

function strayed(step: Step): Step | undefined {
  const { change } = step;
  if (change === undefined || change === "none") return undefined;
  if ("factor" in change && change.spread)
    return { ...step, change: { ...change, factor: change.factor + change.spread } };
  if ("addWaterFactor" in change && change.spread)
    return { ...step, change: { ...change, addWaterFactor: change.addWaterFactor + change.spread } };
  return undefined;
}

/** What no step takes further, g at the declared yield. */
function outputOf(scope: Scope, preparation: Preparation): number {
  const masses = massesOf(scope, preparation);
  const taken = new Map<string, number>();
  for (const { id, share } of preparation.steps.flatMap(enteringOf))
    taken.set(id, (taken.get(id) ?? 0) + share);
  return preparation.steps.reduce(
    (sum, { id }) => sum + masses.get(id)!.outG * Math.max(0, 1 - (taken.get(id) ?? 0)),
    0,
  );
}
