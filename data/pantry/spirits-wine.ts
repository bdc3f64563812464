import { known, memory, sr } from "./sources.ts";
import { sr28 } from "./sr28.ts";
import type { IngredientInput } from "./types.ts";

/** Wines and spirits for the kitchen. */
export const spiritsWine = [
  {
    id: "red-wine",
    name: "Red wine, dry, for cooking",
    densities: [{ state: "plain", kgPerL: 0.9941, source: sr("14096", "1 fl oz = 29.4 g") }],
    pieces: [{ name: "bottle", g: 745, source: memory }],
    composition: sr28("14096"),
    allergens: known("sulphite"),
    origin: ["plant", "alcohol"],
    storage: { state: "ambient", days: 720 },
  },
  {
    id: "white-wine",
    name: "White wine, dry, for cooking",
    densities: [{ state: "plain", kgPerL: 0.9941, source: sr("14106", "1 fl oz = 29.4 g") }],
    pieces: [{ name: "bottle", g: 745, source: memory }],
    composition: sr28("14106"),
    allergens: known("sulphite"),
    origin: ["plant", "alcohol"],
    storage: { state: "ambient", days: 720 },
  },
  {
    id: "dry-vermouth",
    name: "Vermouth, dry",
    densities: [{ state: "plain", kgPerL: 0.9975, source: sr("14536", "1 fl oz = 29.5 g") }],
    composition: sr28("14536", "dry dessert wine"),
    allergens: known("sulphite"),
    origin: ["plant", "alcohol"],
    storage: { state: "ambient", days: 720 },
  },
  {
    id: "port",
    name: "Port, ruby",
    densities: [{ state: "plain", kgPerL: 0.9975, source: sr("14057", "1 fl oz = 29.5 g") }],
    composition: sr28("14057", "sweet dessert wine"),
    allergens: known("sulphite"),
    origin: ["plant", "alcohol"],
    storage: { state: "ambient", days: 720 },
  },
  {
    id: "madeira",
    name: "Madeira, medium dry",
    densities: [{ state: "plain", kgPerL: 0.9975, source: sr("14057", "1 fl oz = 29.5 g") }],
    composition: sr28("14057", "sweet dessert wine"),
    allergens: known("sulphite"),
    origin: ["plant", "alcohol"],
    storage: { state: "ambient", days: 720 },
  },
  {
    id: "brandy",
    name: "Brandy, 40 % by volume",
    densities: [{ state: "plain", kgPerL: 0.94, source: sr("14051", "1 fl oz = 27.8 g") }],
    pieces: [{ name: "bottle", g: 658, source: memory }],
    composition: sr28("14051", "spirit of 80 proof"),
    allergens: known(),
    origin: ["plant", "alcohol"],
    storage: { state: "ambient", days: 1800 },
  },
] satisfies IngredientInput[];
