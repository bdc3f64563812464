import { type Preparation, PreparationSchema } from "../core/formula/schema.ts";
import { type Ingredient, IngredientSchema } from "../core/pantry/schema.ts";
import { type Dish, DishSchema } from "../core/plating/schema.ts";
import type { Amounts } from "../core/production/amounts.ts";
import { computeAmounts } from "../core/production/compute-amounts.ts";
import type { Documents } from "../core/production/documents.ts";
import { openSite } from "../core/production/open-site.ts";
import {
  type Kitchen,
  KitchenSchema,
  type Menu,
  MenuSchema,
  type Service,
  ServiceSchema,
} from "../core/production/schema.ts";
import type { FillTarget, Site } from "../core/production/site.ts";

/** A book of a few documents for tests: what is not given is the plainest that works. */
export interface SmallBook {
  readonly ingredients?: readonly object[];
  readonly preparations: readonly object[];
  readonly dishes?: readonly object[];
  readonly menu?: object;
  readonly kitchen?: object;
  readonly service?: object;
}

const PLAIN_STEP = { name: "Step", text: "Do it." };

/** A step of work at the one station. */
export function step(id: string, more: object = {}): object {
  return { id, ...PLAIN_STEP, ...more };
}

/** Work by any cook: minutes fixed unless said otherwise. */
export function work(fixedMin: number, more: object = {}): object {
  return {
    fixedMin,
    hands: { least: 1, most: 1, split: "divides" },
    skill: "prep",
    station: "bench",
    ...more,
  };
}

/** A preparation of 1 kg flour in its first step and no losses, 1 kg out. */
export function preparation(id: string, steps: readonly object[], more: object = {}): object {
  const first = (steps[0] as { id: string }).id;
  return {
    id,
    name: id[0]!.toUpperCase() + id.slice(1),
    yield: { amount: { value: 1, unit: "kg" } },
    lines: [{ id: "flour", item: { ingredient: "flour" }, amount: { value: 1, unit: "kg" }, step: first }],
    steps,
    ...more,
  };
}

/** A dish that puts `grams` of each preparation on a plate. */
export function dish(id: string, preparations: readonly string[], grams = 100, more: object = {}): object {
  return {
    id,
    name: id,
    description: id,
    plate: { outline: "round", widthMm: 280, depthMm: 20, wellMm: 200 },
    placements: preparations.map((preparation, i) => ({
      n: i + 1,
      preparation,
      amount: { value: grams, unit: "g" },
      form: "mound",
      xMm: 0,
      yMm: 0,
      gesture: "put",
      seconds: 6,
    })),
    windowMin: 10,
    ...more,
  };
}

const FLOUR = {
  id: "flour",
  name: "Flour",
  allergens: { status: "known" },
  origin: ["plant"],
  storage: { state: "ambient", days: 100 },
};

const KITCHEN = {
  id: "kitchen",
  name: "The kitchen",
  zone: "Europe/London",
  altitudeM: 0,
  currency: "GBP",
  stations: [
    { id: "bench", name: "Bench" },
    { id: "pass", name: "Pass" },
  ],
  skills: [{ id: "prep", name: "Any cook" }],
  crew: [
    { id: "ann", name: "Ann", skills: ["prep"], shifts: [{ from: "D 08:00", to: "D 22:00" }] },
    { id: "bob", name: "Bob", skills: ["prep"], shifts: [{ from: "D 08:00", to: "D 22:00" }] },
  ],
  equipment: [
    { id: "oven", name: "Oven", kind: "oven", capacity: [{ unit: "shelf", value: 4 }], rangeC: [50, 250] },
  ],
  around: 0,
  suppliers: [],
};

const SERVICE = {
  id: "service",
  name: "Supper",
  menu: "menu",
  kitchen: "kitchen",
  at: "2027-01-30T19:30",
  horizon: "D-1 06:00",
  covers: 10,
  slackMin: 0,
  priceAsOf: "2027-01-01",
};

/** Documents of a small book, read through their schemas. */
export function smallDocuments(book: SmallBook): Documents {
  const dishes = book.dishes ?? [
    dish(
      "plate",
      book.preparations.map((p) => (p as { id: string }).id),
    ),
  ];
  const menu = {
    id: "menu",
    name: "Menu",
    courses: [
      {
        id: "main",
        name: "Main",
        afterMin: 0,
        options: dishes.map((d) => ({ dish: (d as { id: string }).id, share: 1 })),
      },
    ],
    ...book.menu,
  };
  const lists = {
    ingredients: [FLOUR, ...(book.ingredients ?? [])].map((x): Ingredient => IngredientSchema.parse(x)),
    preparations: book.preparations.map((x): Preparation => PreparationSchema.parse(x)),
    dishes: dishes.map((x): Dish => DishSchema.parse(x)),
    menus: [MenuSchema.parse(menu)] as Menu[],
    kitchens: [KitchenSchema.parse({ ...KITCHEN, ...book.kitchen })] as Kitchen[],
    services: [ServiceSchema.parse({ ...SERVICE, ...book.service })] as Service[],
  };
  const byId = <T extends { id: string }>(list: readonly T[]) => new Map(list.map((x) => [x.id, x]));
  return {
    ingredients: byId(lists.ingredients),
    preparations: byId(lists.preparations),
    dishes: byId(lists.dishes),
    menus: byId(lists.menus),
    kitchens: byId(lists.kitchens),
    services: byId(lists.services),
    pointer: (kind, id) => `/${kind}/${lists[kind as keyof typeof lists].findIndex((x) => x.id === id)}`,
  };
}

/** Amounts of the one service: everybody's needs are met by everything. */
export function smallAmounts(docs: Documents, covers?: number): Amounts {
  return computeAmounts(docs, "service", { covers, meets: () => true });
}

/** A target that takes an hour. */
export const anHour: FillTarget = () => ({ minutes: 60 });

/** The kitchen of a small book on its time axis. */
export function smallSite(book: SmallBook, fillTarget: FillTarget = anHour): Site {
  const docs = smallDocuments(book);
  return openSite(docs, smallAmounts(docs), { fillTarget });
}
