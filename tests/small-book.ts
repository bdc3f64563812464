import { type BookInput, type DocumentKind, indexBook, type Library, parseBook } from "../core/book/index.ts";
import type { Meets } from "../core/production/amounts.ts";
import { Contents } from "../core/safety/contents.ts";

export type { BookInput };

/** Whether a plate meets needs, by what is in it. */
export function meetsOf(docs: Library): Meets {
  const contents = new Contents(docs);
  return (needs, placements) => contents.meets(needs, placements);
}

type Docs<K extends DocumentKind> = NonNullable<BookInput[K]>[number];

const invented = { doc: "invented for this test", kind: "invented" } as const;

/** An ingredient of which a test says only what matters to it. */
export function ingredient(id: string, more: Partial<Docs<"ingredients">> = {}): Docs<"ingredients"> {
  return {
    id,
    name: id,
    allergens: { status: "known" },
    origin: ["plant"],
    storage: { state: "cold", days: 7 },
    ...more,
  };
}

/** A step of which a test says only what matters to it. */
export function step(
  id: string,
  more: Partial<Docs<"preparations">["steps"][number]> = {},
): Docs<"preparations">["steps"][number] {
  return { id, name: id, text: `${id}.`, ...more };
}

/** A cut with its trim yield. */
export function cut(id: string, trimYield: number) {
  return { id, name: id, trimYield, source: invented };
}

/** A placement of `grams` g of a preparation. */
export function placement(
  n: number,
  preparation: string,
  grams: number,
  more: object = {},
): Docs<"dishes">["placements"][number] {
  return {
    n,
    preparation,
    amount: { value: grams, unit: "g" },
    form: "mound",
    xMm: 0,
    yMm: 0,
    gesture: "spoon",
    seconds: 5,
    ...more,
  };
}

export const g = (value: number | string) => ({ value, unit: "g" as const });
export const kg = (value: number | string) => ({ value, unit: "kg" as const });

/** A kitchen with one cook. */
export function kitchen(more: Partial<Docs<"kitchens">> = {}): Docs<"kitchens"> {
  return {
    id: "fell",
    name: "Fell kitchen",
    zone: "Europe/London",
    altitudeM: 1150,
    currency: "GBP",
    stations: [{ id: "hot", name: "Hot" }],
    skills: [{ id: "prep", name: "Any cook" }],
    crew: [],
    equipment: [],
    suppliers: ["valley", "coast"],
    ...more,
  };
}

/**
 * A small supper at the observatory: a soup for all, then short rib or a barley pie, with a vegetarian coeliac
 * and a vegan among the guests. Small enough to follow by hand.
 */
export const SMALL_BOOK: BookInput & { [kind in DocumentKind]: Docs<kind>[] } = {
  format: "tournant-book",
  version: 1,
  ingredients: [
    ingredient("water", { free: true, origin: ["mineral"] }),
    ingredient("salt", {
      origin: ["mineral"],
      densities: [{ state: "plain", kgPerL: 1.2, source: invented }],
    }),
    ingredient("celeriac", {
      cuts: [cut("peeled", 0.8)],
      pieces: [{ name: "piece", g: 900, source: invented }],
    }),
    ingredient("cream", {
      origin: ["dairy"],
      densities: [{ state: "plain", kgPerL: 1.01, source: invented }],
    }),
    ingredient("oat-cream", { allergens: { status: "known", contains: ["gluten"] } }),
    ingredient("butter", { origin: ["dairy"], allergens: { status: "known", contains: ["milk"] } }),
    ingredient("hazelnut", { allergens: { status: "known", contains: ["tree-nut"] } }),
    ingredient("short-rib", { origin: ["meat"], cuts: [cut("trimmed", 0.75)] }),
    ingredient("beef-bones", { origin: ["meat"] }),
    ingredient("barley", { allergens: { status: "known", contains: ["gluten"] } }),
    ingredient("mushroom", { origin: ["fungus"], cuts: [cut("trimmed", 0.9)] }),
    ingredient("flour", { allergens: { status: "known", contains: ["wheat", "gluten"] } }),
  ],
  suppliers: [
    {
      id: "valley",
      name: "Valley Produce",
      minimumOrder: "40",
      deliveryCharge: "5",
      deliveryDays: ["mon", "wed", "thu", "fri"],
      cutoff: { daysBefore: 1, clock: "14:00" },
      offers: [
        { id: "v-celeriac", ingredient: "celeriac", inner: kg(5), innerPerPack: 1, price: "9.00" },
        { id: "v-mushroom", ingredient: "mushroom", inner: kg(1), innerPerPack: 3, price: "16.50" },
        { id: "v-barley", ingredient: "barley", inner: kg(1), innerPerPack: 1, price: "1.80" },
        { id: "v-flour", ingredient: "flour", inner: kg(1.5), innerPerPack: 1, price: "1.60" },
        { id: "v-salt", ingredient: "salt", inner: kg(1), innerPerPack: 1, price: "0.90" },
        { id: "v-hazelnut", ingredient: "hazelnut", inner: g(500), innerPerPack: 1, price: "8.40" },
        { id: "v-oat", ingredient: "oat-cream", inner: kg(1), innerPerPack: 1, price: "2.20" },
      ],
    },
    {
      id: "coast",
      name: "Coast Butchers and Dairy",
      minimumOrder: "0",
      deliveryCharge: "8",
      deliveryDays: ["tue", "thu", "sat"],
      cutoff: { daysBefore: 2, clock: "11:00" },
      offers: [
        {
          id: "c-rib",
          ingredient: "short-rib",
          inner: kg(5),
          innerPerPack: 1,
          price: "60.00",
          breaks: [{ fromPacks: 4, price: "54.00" }],
        },
        { id: "c-bones", ingredient: "beef-bones", inner: kg(10), innerPerPack: 1, price: "12.00" },
        {
          id: "c-cream",
          ingredient: "cream",
          inner: { value: 1, unit: "L" },
          innerPerPack: 6,
          price: "21.00",
        },
        {
          id: "c-cream-1",
          ingredient: "cream",
          inner: { value: 1, unit: "L" },
          innerPerPack: 1,
          price: "3.90",
        },
        { id: "c-butter", ingredient: "butter", inner: g(250), innerPerPack: 20, price: "45.00" },
        { id: "c-celeriac", ingredient: "celeriac", inner: kg(1), innerPerPack: 1, price: "2.60" },
      ],
    },
  ],
  preparations: [
    {
      id: "stock",
      name: "Beef stock",
      yield: { amount: kg(6), tolerance: 0.02 },
      lines: [
        { id: "bones", item: { ingredient: "beef-bones" }, amount: kg(4), step: "simmer" },
        { id: "water", item: { ingredient: "water" }, amount: kg(9), step: "simmer" },
      ],
      steps: [
        step("simmer", { change: { factor: 0.8, as: "evaporated" } }),
        step("strain", { from: ["simmer"], discard: { factor: 0.42, as: "strain" } }),
      ],
      batch: { maxAmount: kg(20), policy: "even" },
    },
    {
      id: "jus",
      name: "Jus",
      yield: { amount: kg(1) },
      lines: [
        { id: "stock", item: { preparation: "stock" }, amount: kg(4), step: "reduce" },
        { id: "salt", item: { ingredient: "salt" }, amount: null, toTaste: true, step: "reduce" },
      ],
      steps: [step("reduce", { change: { toAmount: kg(1) } })],
      overage: 0.1,
    },
    {
      id: "rib",
      name: "Braised rib",
      yield: { amount: kg(5), pieces: 25 },
      lines: [
        { id: "rib", item: { ingredient: "short-rib", cut: "trimmed" }, amount: kg(6), step: "braise" },
        { id: "stock", item: { preparation: "stock" }, amount: kg(2), step: "braise" },
      ],
      steps: [
        step("braise", { change: { factor: 0.75, as: "evaporated" } }),
        step("portion", { from: ["braise"], discard: { factor: 1 / 6, as: "trim" } }),
      ],
      batch: { maxPieces: 20, policy: "even" },
      overage: 0.03,
    },
    {
      id: "dough",
      name: "Dough",
      yield: { amount: kg(1.5) },
      lines: [
        { id: "flour", item: { ingredient: "flour" }, amount: kg(1), step: "mix" },
        { id: "butter", item: { ingredient: "butter" }, amount: g(500), step: "mix" },
      ],
      steps: [step("mix")],
    },
    {
      id: "barley-cooked",
      name: "Cooked barley",
      yield: { amount: kg(3) },
      lines: [{ id: "barley", item: { ingredient: "barley" }, amount: kg(1), step: "boil" }],
      steps: [step("boil", { change: { addWaterFactor: 2 } })],
    },
    {
      id: "pie",
      name: "Mushroom and barley pie",
      yield: { amount: kg(2.2), pieces: 8 },
      lines: [
        { id: "dough", item: { preparation: "dough" }, amount: g(900), step: "fill" },
        { id: "barley", item: { preparation: "barley-cooked" }, amount: g(700), step: "fry" },
        { id: "mushroom", item: { ingredient: "mushroom", cut: "trimmed" }, amount: kg(1), step: "fry" },
      ],
      steps: [
        step("fry", { change: { factor: 0.9 } }),
        step("fill", { from: ["fry"] }),
        step("bake", { from: ["fill"], change: { factor: 0.905660377358 } }),
      ],
      batch: { maxPieces: 8, policy: "whole-only" },
    },
    {
      id: "soup",
      name: "Celeriac soup",
      yield: { amount: kg(4) },
      lines: [
        { id: "celeriac", item: { ingredient: "celeriac", cut: "peeled" }, amount: kg(2), step: "cook" },
        { id: "water", item: { ingredient: "water" }, amount: kg(2), step: "cook" },
        {
          id: "cream",
          item: { ingredient: "cream" },
          amount: { value: "1/2", unit: "L" },
          step: "blend",
        },
        { id: "salt", item: { ingredient: "salt" }, amount: { value: "1 1/2", unit: "tbsp" }, step: "blend" },
      ],
      steps: [
        step("cook", { change: { factor: 0.88 } }),
        step("blend", { from: ["cook"], change: { factor: 0.99, as: "stuck" } }),
      ],
      batch: { maxAmount: kg(8), policy: "full-then-rest" },
      overage: 0.05,
    },
    {
      id: "soup-oat",
      name: "Celeriac soup with oat cream",
      yield: { amount: kg(2) },
      lines: [
        { id: "celeriac", item: { ingredient: "celeriac", cut: "peeled" }, amount: kg(1), step: "cook" },
        { id: "water", item: { ingredient: "water" }, amount: kg(1), step: "cook" },
        { id: "oat", item: { ingredient: "oat-cream" }, amount: g(250), step: "cook" },
      ],
      steps: [step("cook", { change: { factor: 0.89 } })],
    },
    {
      id: "nut-butter",
      name: "Hazelnut brown butter",
      yield: { amount: g(400) },
      lines: [
        { id: "butter", item: { ingredient: "butter" }, amount: g(400), step: "brown" },
        { id: "nuts", item: { ingredient: "hazelnut" }, amount: g(100), step: "brown" },
      ],
      steps: [step("brown", { change: { factor: 0.8, as: "rendered" } })],
      overage: 0.05,
    },
  ],
  dishes: [
    {
      id: "soup",
      name: "Celeriac soup",
      description: "Celeriac, hazelnut brown butter.",
      plate: { outline: "bowl", widthMm: 220, depthMm: 45, wellMm: 150 },
      sell: "9",
      placements: [placement(1, "soup", 180), placement(2, "nut-butter", 8)],
      variants: [
        { need: "vegan", drop: [2], replace: [{ n: 1, placement: placement(1, "soup-oat", 180) }] },
        { need: "no-tree-nut", drop: [2] },
      ],
      windowMin: 8,
    },
    {
      id: "rib",
      name: "Short rib",
      description: "Braised short rib, jus.",
      plate: { outline: "round", widthMm: 280, depthMm: 25, wellMm: 200 },
      placements: [
        placement(1, "rib", 200, { amount: { value: 1, unit: "piece" } }),
        placement(2, "jus", 40, { amount: { value: 40, unit: "g" } }),
      ],
      windowMin: 8,
    },
    {
      id: "pie",
      name: "Mushroom pie",
      description: "Mushroom and barley pie.",
      plate: { outline: "round", widthMm: 280, depthMm: 25, wellMm: 200 },
      placements: [placement(1, "pie", 275, { amount: { value: 1, unit: "piece" } })],
      windowMin: 8,
    },
  ],
  menus: [
    {
      id: "small",
      name: "Small supper",
      courses: [
        { id: "first", name: "First", afterMin: 0, options: [{ dish: "soup", share: 1 }] },
        {
          id: "main",
          name: "Main",
          afterMin: 30,
          options: [
            { dish: "rib", share: 0.7 },
            { dish: "pie", share: 0.3, for: ["vegetarian"] },
          ],
        },
      ],
    },
  ],
  kitchens: [kitchen()],
  services: [
    {
      id: "small",
      name: "Small supper",
      menu: "small",
      kitchen: "fell",
      at: "2027-01-30T19:30",
      horizon: "D-2 06:00",
      covers: 40,
      guests: [
        { id: "greens", count: 4, needs: ["vegetarian"], seat: "1-4" },
        {
          id: "nutless",
          count: 2,
          needs: ["no-tree-nut"],
          seat: "5-6",
          choices: [{ course: "main", dish: "rib" }],
        },
        { id: "vegan", count: 1, needs: ["vegan"], seat: "7" },
      ],
      tasting: 1,
      stock: [
        { item: { ingredient: "barley" }, amount: kg(0.5), useBy: "2027-06-01" },
        { item: { ingredient: "cream" }, amount: { value: 1, unit: "L" }, useBy: "2027-01-20" },
      ],
      priceAsOf: "2027-01-15",
      sellPerCover: "55",
    },
  ],
};

/** The small book with some of its documents changed: `change` gets a deep copy. */
export function changed(change: (book: typeof SMALL_BOOK) => void): BookInput {
  const copy = structuredClone(SMALL_BOOK);
  change(copy);
  return copy;
}

/** The book read and indexed. @throws with every problem when it is refused: a mistake of the test. */
export function library(book: BookInput = SMALL_BOOK): Library {
  const read = parseBook(book);
  if (!read.ok) throw new Error(read.problems.map((p) => `${p.path}: ${p.what}; ${p.mend}`).join("\n"));
  return indexBook(read.value);
}
