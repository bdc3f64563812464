import { type BookInput, type DocumentKind, parseBook } from "../core/book/index.ts";
import type { Book } from "../core/book/schema.ts";
import { g, ingredient, kitchen, placement, step } from "./small-book.ts";

type Docs<K extends DocumentKind> = NonNullable<BookInput[K]>[number];

const fried = (id: string, item: string, holdMin: number): Docs<"preparations"> => ({
  id,
  name: id,
  yield: { amount: g(1000) },
  lines: [{ id: "l", item: { ingredient: item }, amount: g(1000), step: "fry" }],
  steps: [
    step("fry", {
      work: {
        fixedMin: 10,
        hands: { least: 1, most: 1, split: "each" },
        skill: "prep",
        station: "hot",
      },
      uses: [{ kind: "fryer", during: "both", space: { value: 1, unit: "litre" } }],
      hold: { state: "hot", maxMin: holdMin },
    }),
  ],
});

export interface Fry {
  /** Minutes to clean the fryer; undefined: nobody says. */
  readonly cleanMin?: number;
  /** How long fritters and chips keep hot, minutes. */
  readonly keeps?: { readonly fritters: number; readonly chips: number };
  /** Minutes after the first course at which the chips are eaten. */
  readonly chipsAfterMin?: number;
  readonly need?: "coeliac" | "vegan";
  /** Starts that are decided. */
  readonly pins?: readonly { readonly task: string; readonly start: string; readonly status?: "done" }[];
}

/** One fryer, fritters in flour for all, and chips for a guest who must have no gluten. */
export function fryBook({
  cleanMin,
  keeps = { fritters: 240, chips: 240 },
  chipsAfterMin = 0,
  need = "coeliac",
  pins = [],
}: Fry = {}): Book {
  const plate = { outline: "round" as const, widthMm: 250, depthMm: 20, wellMm: 180 };
  const dish = (id: string, preparation: string): Docs<"dishes"> => ({
    ...{ id, name: id, description: `${id}.`, plate, windowMin: 20 },
    placements: [placement(1, preparation, 100)],
  });
  const course = (id: string, afterMin: number, options: Docs<"menus">["courses"][number]["options"]) => ({
    ...{ id, name: id, afterMin, options },
  });
  const input: BookInput = {
    format: "tournant-book",
    version: 1,
    ingredients: [
      ingredient("flour-batter", { allergens: { status: "known", contains: ["wheat", "gluten"] } }),
      ingredient("potato"),
      ingredient("melon"),
    ],
    suppliers: [],
    preparations: [fried("fritters", "flour-batter", keeps.fritters), fried("chips", "potato", keeps.chips)],
    dishes: [
      dish("fritter-plate", "fritters"),
      dish("chip-plate", "chips"),
      {
        ...dish("melon-plate", "chips"),
        placements: [{ ...placement(1, "", 80), preparation: undefined, ingredient: "melon" }],
      },
    ],
    menus: [
      {
        id: "menu",
        name: "Menu",
        courses:
          chipsAfterMin === 0
            ? [
                course("only", 0, [
                  { dish: "fritter-plate", share: 1 },
                  { dish: "chip-plate", share: 0 },
                ]),
              ]
            : [
                course("first", 0, [
                  { dish: "fritter-plate", share: 1 },
                  { dish: "melon-plate", share: 0 },
                ]),
                course("second", chipsAfterMin, [{ dish: "chip-plate", share: 1 }]),
              ],
      },
    ],
    kitchens: [
      kitchen({
        crew: ["ana", "ben"].map((id) => ({
          ...{ id, name: id, skills: ["prep"] },
          shifts: [{ from: "D 10:00", to: "D 23:00", breaks: [] }],
        })),
        equipment: [
          {
            ...{ id: "fryer", name: "Fryer", kind: "fryer", station: "hot" },
            capacity: [{ unit: "litre", value: 4 }],
            ...(cleanMin === undefined ? {} : { cleanMin }),
          },
        ],
        around: 0.2,
        suppliers: [],
      }),
    ],
    services: [
      {
        ...{ id: "supper", name: "Supper", menu: "menu", kitchen: "fell", at: "2027-01-30T19:30" },
        ...{ horizon: "D 10:00", covers: 6, priceAsOf: "2027-01-20" },
        pins: [...pins],
        guests: [{ id: "one", count: 1, seat: "1-1", needs: [need] }],
      },
    ],
  };
  const read = parseBook(input);
  if (!read.ok) throw new Error(JSON.stringify(read.problems[0]));
  return read.value;
}
