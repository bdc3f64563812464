import type { KitchenInput } from "../types.ts";

/** Stations and skills have the same ids in every kitchen, so that a preparation can be made in each. */
export const stations: KitchenInput["stations"] = [
  { id: "store", name: "Store and receiving" },
  { id: "larder", name: "Larder: meat, fish, birds" },
  { id: "garde-manger", name: "Garde-manger" },
  { id: "sauce", name: "Sauce and range" },
  { id: "roast", name: "Ovens and bath" },
  { id: "veg", name: "Vegetables and soups" },
  { id: "pastry", name: "Pastry" },
  { id: "bakery", name: "Bakery" },
  { id: "pass", name: "The pass" },
];

export const skills: KitchenInput["skills"] = [
  { id: "prep", name: "Weigh, peel, cut, pack, portion" },
  { id: "butchery", name: "Meat, birds and fish" },
  { id: "sauces", name: "Stocks, jus, emulsions" },
  { id: "hot", name: "Braise, roast, fry, finish" },
  { id: "cold", name: "Salting, pickles, dressings, cold plates" },
  { id: "pastry-work", name: "Pastry" },
  { id: "bread-work", name: "Doughs and breads" },
  { id: "vacuum", name: "Sealer, bath and chiller, with their records" },
  { id: "plating", name: "Plating" },
  { id: "lead", name: "Tasting, line check, release" },
];

/** What people with these trades can do. */
export const can = {
  chef: ["lead", "prep", "butchery", "sauces", "hot", "cold", "vacuum", "plating"],
  sous: ["lead", "prep", "butchery", "sauces", "hot", "cold", "vacuum", "plating"],
  sauce: ["prep", "sauces", "hot", "vacuum", "plating"],
  roast: ["prep", "butchery", "hot", "vacuum", "plating"],
  larder: ["prep", "butchery", "cold", "vacuum", "plating"],
  cold: ["prep", "cold", "vacuum", "plating"],
  veg: ["prep", "hot", "plating"],
  pastry: ["prep", "pastry-work", "bread-work", "plating"],
  baker: ["prep", "bread-work", "pastry-work", "plating"],
  commis: ["prep", "plating"],
};

/** A shift with its breaks, all on one day: shift("D-1", "08:00", "17:00", ["12:30", "13:00"]). */
export function shift(day: string, from: string, to: string, ...breaks: [string, string][]) {
  return {
    from: `${day} ${from}`,
    to: `${day} ${to}`,
    breaks: breaks.map(([start, end]) => ({ from: `${day} ${start}`, to: `${day} ${end}` })),
  };
}

/** Minutes on foot between stations, the same both ways. */
export function walks(...pairs: [string, string, number][]): NonNullable<KitchenInput["walk"]> {
  return pairs.flatMap(([from, to, min]) => [
    { from, to, min },
    { from: to, to: from, min },
  ]);
}

/** The suppliers who drive to all three kitchens. */
export const served = [
  "ossenby-dairy",
  "kelder-voss",
  "quernside-greens",
  "tarrenmoor-provisions",
  "saltbeck-wines",
];
