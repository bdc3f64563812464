import { recalled } from "./composition/row.ts";
import { about, ambient, cold, fill } from "./measures.ts";
import { known } from "./sources.ts";
import { sr28 } from "./sr28.ts";
import type { IngredientInput } from "./types.ts";

/** Coffee, tea and flower waters. */
export const coffeeTea = [
  {
    id: "matcha",
    name: "Green tea powder",
    aliases: ["matcha"],
    densities: [about(0.35)],
    composition: recalled([5, 30, 5.3, 0.6, 52.5, 0, 38, 7.2, 0, 0.02, 0, 378]),
    allergens: known(),
    origin: ["plant"],
    storage: cold(180),
  },
  {
    id: "coffee-beans",
    name: "Coffee beans, roasted",
    densities: [about(0.37)],
    composition: recalled([3, 14, 15, 5.5, 63.5, 1, 30, 4.5, 0, 0.02, 0, 445]),
    allergens: known(),
    origin: ["plant"],
    storage: ambient(180),
  },
  {
    id: "espresso",
    name: "Espresso, brewed",
    densities: [fill("14210", "1 fl oz", 29.6)],
    composition: sr28("14210"),
    allergens: known(),
    origin: ["plant"],
    storage: cold(1),
  },
  {
    id: "coffee-brewed",
    name: "Filter coffee, brewed",
    densities: [fill("14209", "1 cup (8 fl oz)", 237)],
    composition: sr28("14209"),
    allergens: known(),
    origin: ["plant"],
    storage: cold(1),
  },
  {
    id: "black-tea-brewed",
    name: "Black tea, brewed",
    densities: [fill("14355", "1 cup (8 fl oz)", 237)],
    composition: sr28("14355"),
    allergens: known(),
    origin: ["plant"],
    storage: cold(1),
  },
  {
    id: "green-tea-brewed",
    name: "Green tea, brewed",
    densities: [fill("14278", "1 cup", 245)],
    composition: sr28("14278"),
    allergens: known(),
    origin: ["plant"],
    storage: cold(1),
  },
  {
    id: "malted-milk-powder",
    name: "Malted milk powder",
    densities: [about(0.5)],
    composition: recalled([2.5, 13, 8.5, 4.5, 72.5, 50, 0.5, 3.3, 0, 1, 25, 415]),
    allergens: known("milk", "gluten", "wheat"),
    origin: ["dairy", "plant"],
    storage: ambient(360),
  },
  {
    id: "rose-water",
    name: "Rose water",
    densities: [about(1)],
    allergens: known(),
    origin: ["plant"],
    storage: ambient(540),
  },
  {
    id: "orange-flower-water",
    name: "Orange flower water",
    densities: [about(1)],
    allergens: known(),
    origin: ["plant"],
    storage: ambient(540),
  },
] satisfies IngredientInput[];
