import type { Random } from "../../numerics/random.ts";
import { between, chance, type Docs } from "./draw.ts";
import { SOME_NEEDS } from "./random-menu.ts";

/** A service of 2 to 60 covers with up to six groups of guests, some stock, in one of the kitchens. */
export function randomService(
  random: Random,
  menu: Docs<"menus">,
  preparations: readonly Docs<"preparations">[],
  ingredients: readonly Docs<"ingredients">[],
): Docs<"services"> {
  const covers = between(random, 2, 60);
  // In the nights before some of these the clocks change, in one zone or another.
  const date = random.pick([
    "2027-01-30",
    "2027-01-30",
    "2027-03-14",
    "2027-03-28",
    "2027-10-31",
    "2027-11-07",
  ]);
  let left = covers;
  const guests: NonNullable<Docs<"services">["guests"]> = [];
  const groups = between(random, 0, 6);
  for (let g = 1; g <= groups && left > 0; g++) {
    const count = Math.min(left, between(random, 1, 3));
    left -= count;
    guests.push({
      ...{ id: `group-${g}`, count, needs: random.shuffled(SOME_NEEDS).slice(0, between(random, 0, 2)) },
      ...(chance(random, 0.5) ? { seat: String(g) } : {}),
      choices: menu.courses
        .filter(() => chance(random, 0.3))
        .map((course) => ({ course: course.id, dish: random.pick(course.options).dish })),
    });
  }
  const stock: NonNullable<Docs<"services">["stock"]> = [];
  const aDate = () => random.pick(["2027-01-10", date, "2027-12-31"]);
  if (chance(random, 0.5)) {
    const { id } = random.pick(ingredients);
    stock.push({
      item: { ingredient: id },
      amount: { value: between(random, 1, 4), unit: "kg" },
      useBy: aDate(),
    });
  }
  if (chance(random, 0.3)) {
    const { id } = random.pick(preparations);
    stock.push({
      item: { preparation: id },
      amount: { value: between(random, 1, 20) * 100, unit: "g" },
      useBy: aDate(),
    });
  }
  return {
    ...{ id: "service-1", name: "Service 1", menu: menu.id, covers, guests, stock },
    kitchen: random.pick(["small", "middle", "large"]),
    at: `${date}T19:30`,
    horizon: random.pick(["D-2 06:00", "D-2 06:00", "D-1 06:00"]),
    pins: pinsOf(random, preparations),
    tasting: between(random, 0, 2),
    slackMin: random.pick([0, 15]),
    priceAsOf: "2027-01-15",
    ...(chance(random, 0.5) ? { sellPerCover: "48.00" } : {}),
  };
}

/** Sometimes a step is pinned to a start, a person or a piece of equipment. */
function pinsOf(random: Random, preparations: readonly Docs<"preparations">[]) {
  if (!chance(random, 0.25)) return [];
  const preparation = random.pick(preparations);
  const step = random.pick(preparation.steps);
  const task = `${preparation.id}/${step.id}/1`;
  const kind = step.uses?.[0]?.kind;
  return random.pick([
    [{ task, start: `D-1 ${between(random, 10, 16)}:00` }],
    [{ task, crew: ["cook-1"] }],
    [{ task, ...(kind ? { equipment: [kind] } : { crew: ["cook-2"] }) }],
  ]);
}
