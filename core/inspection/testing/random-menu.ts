import type { Random } from "../../numerics/random.ts";
import type { Need } from "../../plating/schema.ts";
import { between, chance, type Docs } from "./draw.ts";

type Dish = Docs<"dishes">;
type Placement = Dish["placements"][number];

export const SOME_NEEDS: readonly Need[] = [
  "vegetarian",
  "vegan",
  "pescatarian",
  "coeliac",
  "no-alcohol",
  "pregnant",
  "no-pork",
  "no-shellfish",
  "no-milk",
  "no-gluten",
  "no-tree-nut",
];

/** One to four courses of one to three dishes. */
export function randomMenu(
  random: Random,
  ingredients: readonly Docs<"ingredients">[],
  preparations: readonly Docs<"preparations">[],
): { dishes: Dish[]; menu: Docs<"menus"> } {
  const dishes: Dish[] = [];
  const courses = Array.from({ length: between(random, 1, 4) }, (_, c) => {
    const options = Array.from({ length: between(random, 1, 3) }, (_, o) => {
      const dish = dishOf(random, `dish-${c + 1}-${o + 1}`, ingredients, preparations);
      dishes.push(dish);
      const share = o === 0 ? between(random, 1, 5) : random.pick([0, 0.5, 1, 3]);
      return { dish: dish.id, share, ...(chance(random, 0.2) ? { for: [random.pick(SOME_NEEDS)] } : {}) };
    });
    return { id: `course-${c + 1}`, name: `Course ${c + 1}`, afterMin: 35 * c, options };
  });
  const surround = randomSurround(random.derive("surround"), ingredients, preparations);
  return { dishes, menu: { id: "menu-1", name: "Menu 1", ...surround, courses } };
}

/** Now and then what goes with every cover: preparations and plain ingredients. */
function randomSurround(
  random: Random,
  ingredients: readonly Docs<"ingredients">[],
  preparations: readonly Docs<"preparations">[],
): Pick<Docs<"menus">, "surround"> {
  if (!chance(random, 0.35)) return {};
  const items = Array.from({ length: between(random, 1, 3) }, () => {
    const grams = { value: between(random, 3, 60), unit: "g" } as const;
    if (chance(random, 0.25))
      return { item: { ingredient: random.pick(ingredients.slice(0, 4)).id }, amount: grams };
    const preparation = random.pick(preparations);
    const inPieces = preparation.yield.pieces !== undefined && chance(random, 0.5);
    return {
      item: { preparation: preparation.id },
      amount: inPieces ? ({ value: 1, unit: "piece" } as const) : grams,
    };
  });
  return { surround: { items } };
}

function dishOf(
  random: Random,
  id: string,
  ingredients: readonly Docs<"ingredients">[],
  preparations: readonly Docs<"preparations">[],
): Dish {
  const placements = Array.from({ length: between(random, 1, 4) }, (_, i) =>
    placement(random, i + 1, ingredients, random.pick(preparations)),
  );
  const needs = random.shuffled(SOME_NEEDS).slice(0, between(random, 0, 4));
  return {
    ...{ id, name: id, description: `${id}.`, placements },
    plate: { outline: "round", widthMm: 280, depthMm: 25, wellMm: 200 },
    variants: needs.map((need) => ({
      need,
      drop: placements.length > 1 && chance(random, 0.3) ? [placements.length] : [],
      // The first preparation is of plain ingredients: what replaces the rest can be served to everyone.
      replace: placements
        .filter((_, i) => chance(random, 0.7) || i === 0)
        .map(({ n }) => ({ n, placement: placement(random, n, ingredients, preparations[0]!) })),
      add: chance(random, 0.2)
        ? [placement(random, placements.length + 1, ingredients, preparations[0]!)]
        : [],
    })),
    windowMin: between(random, 8, 20),
  };
}

function placement(
  random: Random,
  n: number,
  ingredients: readonly Docs<"ingredients">[],
  preparation: Docs<"preparations">,
): Placement {
  const loose = n > 1 && chance(random, 0.1);
  const grams = between(random, 5, 90);
  const inPieces = !loose && preparation.yield.pieces !== undefined && chance(random, 0.5);
  return {
    ...(loose ? { ingredient: random.pick(ingredients.slice(0, 4)).id } : { preparation: preparation.id }),
    ...{ n, form: "mound", xMm: 0, yMm: 0, gesture: "put", seconds: between(random, 2, 8) },
    amount: inPieces ? { value: 1, unit: "piece" } : { value: grams, unit: "g" },
  };
}
