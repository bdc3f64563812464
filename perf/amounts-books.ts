import type { z } from "zod";
import type { BookInput } from "../core/book/index.ts";
import type { PreparationSchema } from "../core/formula/schema.ts";
import { Random } from "../core/numerics/random.ts";

type PreparationInput = z.input<typeof PreparationSchema>;

const source = { doc: "invented for this bench", kind: "invented" } as const;
const g = (value: number) => ({ value, unit: "g" as const });

/** Ingredients i0 … with a cut each, bought whole; prices invented. */
export function ingredientsFor(count: number): NonNullable<BookInput["ingredients"]> {
  return Array.from({ length: count }, (_, i) => ({
    ...{
      id: `i${i}`,
      name: `Ingredient ${i}`,
      allergens: { status: "known" as const },
      origin: ["plant" as const],
    },
    storage: { state: "cold" as const, days: 30 },
    densities: [{ state: "plain", kgPerL: 0.6 + (i % 7) / 10, source }],
    pieces: [{ name: "piece", g: 40 + (i % 11) * 20, source }],
    cuts: [{ id: "trimmed", name: "Trimmed", trimYield: 0.6 + (i % 5) / 12, source }],
  }));
}

/** Suppliers with two pack sizes of most ingredients, some with a price break. */
export function suppliersFor(ingredients: number, count: number): NonNullable<BookInput["suppliers"]> {
  return Array.from({ length: count }, (_, s) => ({
    ...{ id: `s${s}`, name: `Supplier ${s}`, minimumOrder: `${20 * s}`, deliveryCharge: `${3 + s}` },
    ...{
      deliveryDays: ["mon" as const, "wed" as const, "fri" as const],
      cutoff: { daysBefore: 1, clock: "14:00" },
    },
    offers: Array.from({ length: ingredients }, (_, i) => i)
      .filter((i) => i % count === s || i % (count + 1) === s)
      .flatMap((i) => {
        const each = 1.5 + ((i * 37) % 90) / 10;
        return [
          {
            id: `o${s}-${i}-1`,
            ingredient: `i${i}`,
            inner: g(1000),
            innerPerPack: 1,
            price: each.toFixed(2),
          },
          {
            ...{ id: `o${s}-${i}-5`, ingredient: `i${i}`, inner: g(1000), innerPerPack: 5 },
            price: (each * 4.4).toFixed(2),
            breaks: [{ fromPacks: 4, price: (each * 4.1).toFixed(2) }],
          },
        ];
      }),
  }));
}

/** A preparation of so many ingredient lines and of these parts, with four steps that lose mass by name. */
export function preparationOf(
  random: Random,
  id: string,
  items: readonly string[],
  parts: readonly string[],
): PreparationInput {
  const lines = [
    ...items.map((ingredient, k) => ({
      ...{ id: `l${k}`, step: k % 2 === 0 ? "cut" : "cook" },
      item: { ingredient, ...(k % 3 === 0 ? { cut: "trimmed" } : {}) },
      amount:
        k % 4 === 1 ? { value: 100 + random.below(400), unit: "mL" as const } : g(50 + random.below(900)),
    })),
    ...parts.map((preparation, k) => ({
      ...{ id: `p${k}`, step: "cook", item: { preparation }, amount: g(50 + random.below(400)) },
    })),
  ];
  const pieces = random.below(3) === 0 ? 4 + random.below(20) : undefined;
  const policy = (["even", "full-then-rest", "whole-only"] as const)[random.below(3)]!;
  const text = "x";
  return {
    ...{ id, name: id, overage: random.below(2) === 0 ? 0.05 : 0, lines },
    yield: { amount: g(1000), tolerance: 1e9, ...(pieces ? { pieces } : {}) },
    steps: [
      { id: "cut", name: "Cut", text, discard: { factor: 0.05, as: "trim" } },
      { id: "cook", name: "Cook", text, from: ["cut"], change: { factor: 0.8 } },
      { id: "strain", name: "Strain", text, from: ["cook"], discard: { factor: 0.1, as: "strain" } },
      { id: "finish", name: "Finish", text, from: ["strain"], change: { factor: 0.98, as: "stuck" } },
    ],
    batch: { policy, maxAmount: g(3000 + random.below(3000)) },
  };
}

/** A service of `preparations` preparations on ten dishes in four courses, with guests of several needs. */
export function serviceBook(preparations: number, seed: number): BookInput {
  const random = Random.of(seed);
  const ingredients = 120;
  const pick = () => `i${random.below(ingredients)}`;
  const list = Array.from({ length: preparations }, (_, i) => {
    const items = Array.from({ length: 5 + random.below(4) }, pick);
    const parts = i < 10 ? [] : Array.from({ length: random.below(3) }, () => `p${random.below(i)}`);
    return preparationOf(random, `p${i}`, items, [...new Set(parts)]);
  });
  const placement = (n: number, i: number) => ({
    ...{ n, preparation: `p${i}`, amount: g(20 + random.below(120)), form: "mound" as const },
    ...{ xMm: 0, yMm: 0, gesture: "spoon", seconds: 4 },
  });
  const dishes = Array.from({ length: 10 }, (_, d) => ({
    ...{ id: `d${d}`, name: `Dish ${d}`, description: "x", windowMin: 10, sell: "20" },
    plate: { outline: "round" as const, widthMm: 280, depthMm: 20, wellMm: 200 },
    // Every preparation is on some plate.
    placements: Array.from({ length: Math.ceil(preparations / 10) }, (_, k) => k * 10 + d)
      .filter((i) => i < preparations)
      .map((i, k) => placement(k + 1, i)),
    variants: [{ need: "vegan" as const, drop: [1] }],
  }));
  const options = [[0], [1, 2, 3], [4, 5, 6], [7, 8, 9]];
  return {
    ...{ format: "tournant-book", version: 1 },
    ingredients: ingredientsFor(ingredients),
    suppliers: suppliersFor(ingredients, 5),
    preparations: list,
    dishes,
    menus: [
      {
        ...{ id: "menu", name: "Menu" },
        courses: options.map((ids, c) => ({
          ...{ id: `c${c}`, name: `Course ${c}`, afterMin: 30 * c },
          options: ids.map((d, k) => ({ dish: `d${d}`, share: 0.5 - k / 10 })),
        })),
      },
    ],
    kitchens: [
      {
        ...{
          id: "k",
          name: "Kitchen",
          zone: "Europe/London",
          altitudeM: 0,
          currency: "EUR",
          crew: [],
          equipment: [],
        },
        stations: [{ id: "hot", name: "Hot" }],
        skills: [{ id: "any", name: "Any" }],
        measures: { scaleStepG: [0.1, 1, 5] },
        suppliers: ["s0", "s1", "s2", "s3", "s4"],
      },
    ],
    services: [
      {
        ...{
          id: "service",
          name: "Service",
          menu: "menu",
          kitchen: "k",
          at: "2027-01-30T19:30",
          horizon: "D-2 06:00",
        },
        ...{ covers: 72, tasting: 2, priceAsOf: "2027-01-15" },
        guests: [{ id: "vegan", count: 3, needs: ["vegan"] }],
      },
    ],
  };
}

/**
 * A library of `count` preparations in which the price of ingredient i0 reaches exactly `reach` of them, most
 * through other preparations: those it reaches are made of one another, the others never of them.
 */
export function libraryBook(count: number, reach: number, seed: number): BookInput {
  const random = Random.of(seed);
  const ingredients = 300;
  const other = () => `i${1 + random.below(ingredients - 1)}`;
  const reached: number[] = [];
  const free: number[] = [];
  const preparations = Array.from({ length: count }, (_, i) => {
    const isReached = reached.length < reach && i % Math.floor(count / reach) === 0;
    const items = Array.from({ length: 5 }, other);
    const parts: string[] = [];
    if (isReached) {
      if (reached.length < reach / 10) items[0] = "i0";
      else parts.push(`p${reached[random.below(reached.length)]}`);
    }
    if (free.length > 0) parts.push(`p${free[random.below(free.length)]}`);
    (isReached ? reached : free).push(i);
    return preparationOf(random, `p${i}`, items, parts);
  });
  return {
    ...serviceBook(10, seed),
    ingredients: ingredientsFor(ingredients),
    suppliers: suppliersFor(ingredients, 5),
    preparations,
  };
}
