import type { Random } from "../../numerics/random.ts";
import { between, chance, type Docs } from "./draw.ts";

interface Drawn {
  readonly ingredients: readonly Docs<"ingredients">[];
  readonly suppliers: readonly Docs<"suppliers">[];
  readonly service: Docs<"services">;
}

/**
 * Adds to the documents what makes orders hard: yields and covers that vary, goods that keep a day, suppliers that come
 * twice a week, what may stand in for what (with every allergen), and leftovers that are worth something.
 */
export function randomOrders(random: Random, { ingredients, suppliers, service }: Drawn): Drawn {
  const bought = ingredients.filter((each) => !each.free);
  const weights = random.derive("weights");
  const catchWeights = (each: Docs<"suppliers">) => ({
    ...each,
    offers: (each.offers ?? []).map((offer) =>
      chance(weights, 0.2)
        ? { ...offer, catchWeight: true, weightSpread: between(weights, 2, 25) / 100 }
        : offer,
    ),
  });
  return {
    ingredients: ingredients.map((each) => ({
      ...each,
      storage: chance(random, 0.15)
        ? { ...each.storage, days: between(random, 1, 2) / 2 + 0.5 }
        : each.storage,
      cuts: (each.cuts ?? []).map((cut) =>
        chance(random, 0.4) ? { ...cut, spread: between(random, 1, 8) / 100 } : cut,
      ),
      ...(chance(random, 0.3) && !each.free
        ? {
            substitutes: random
              .shuffled(bought.filter((other) => other.id !== each.id))
              .slice(0, 2)
              .map((other) => {
                const cut = random.pick([undefined, ...(other.cuts ?? [])]);
                return {
                  ...{ ingredient: other.id, factor: between(random, 5, 20) / 10 },
                  ...{ when: random.pick(["missing", "cheaper"] as const), ...(cut ? { cut: cut.id } : {}) },
                };
              }),
          }
        : {}),
    })),
    suppliers: suppliers.map(catchWeights).map((each) =>
      chance(random, 0.5)
        ? {
            ...each,
            deliveryDays: random
              .pick([
                ["tue", "fri"],
                ["wed", "sat"],
                ["thu", "sat"],
              ] as const)
              .slice(),
          }
        : each,
    ),
    service: {
      ...service,
      chance: random.pick([0.9, 0.95, 0.99]),
      ...(chance(random, 0.3) ? { coversSpread: between(random, 1, 10) / 100 } : {}),
      ...(chance(random, 0.5) ? { leftover: { worth: between(random, 0, 9) / 10, keepsDays: 5 } } : {}),
    },
  };
}
