import type { IngredientInput } from "../types.ts";
import { known, memory, sr } from "./sources.ts";

/** Wines and spirits for the kitchen. */
export const spiritsWine = [
  {
    id: "red-wine",
    name: "Red wine, dry, for cooking",
    densities: [{ state: "plain", kgPerL: 0.9941, source: sr("14096", "1 fl oz = 29.4 g") }],
    pieces: [{ name: "bottle", g: 745, source: memory }],
    composition: { water: 86.49, protein: 0.07, fat: 0, saturated: 0, carbohydrate: 2.61, sugars: 0.62, fibre: 0, ash: 0.28, alcohol: 10.6, salt: 0.01, energyKcal: 85, source: sr("14096") },
    allergens: known("sulphite"),
    origin: ["plant", "alcohol"],
    storage: { state: "ambient", days: 720 },
  },
  {
    id: "white-wine",
    name: "White wine, dry, for cooking",
    densities: [{ state: "plain", kgPerL: 0.9941, source: sr("14106", "1 fl oz = 29.4 g") }],
    pieces: [{ name: "bottle", g: 745, source: memory }],
    composition: { water: 86.86, protein: 0.07, fat: 0, saturated: 0, carbohydrate: 2.6, sugars: 0.96, fibre: 0, ash: 0.2, alcohol: 10.3, salt: 0.01, energyKcal: 82, source: sr("14106") },
    allergens: known("sulphite"),
    origin: ["plant", "alcohol"],
    storage: { state: "ambient", days: 720 },
  },
  {
    id: "dry-vermouth",
    name: "Vermouth, dry",
    densities: [{ state: "plain", kgPerL: 0.9975, source: sr("14536", "1 fl oz = 29.5 g") }],
    composition: { water: 72.53, protein: 0.2, fat: 0, saturated: 0, carbohydrate: 11.67, sugars: 1.09, fibre: 0, ash: 0.3, alcohol: 15.3, salt: 0.02, energyKcal: 152, source: sr("14536", "dry dessert wine") },
    allergens: known("sulphite"),
    origin: ["plant", "alcohol"],
    storage: { state: "ambient", days: 720 },
  },
  {
    id: "port",
    name: "Port, ruby",
    densities: [{ state: "plain", kgPerL: 0.9975, source: sr("14057", "1 fl oz = 29.5 g") }],
    composition: { water: 70.51, protein: 0.2, fat: 0, saturated: 0, carbohydrate: 13.69, sugars: 7.78, fibre: 0, ash: 0.3, alcohol: 15.3, salt: 0.02, energyKcal: 160, source: sr("14057", "sweet dessert wine") },
    allergens: known("sulphite"),
    origin: ["plant", "alcohol"],
    storage: { state: "ambient", days: 720 },
  },
  {
    id: "madeira",
    name: "Madeira, medium dry",
    densities: [{ state: "plain", kgPerL: 0.9975, source: sr("14057", "1 fl oz = 29.5 g") }],
    composition: { water: 70.51, protein: 0.2, fat: 0, saturated: 0, carbohydrate: 13.69, sugars: 7.78, fibre: 0, ash: 0.3, alcohol: 15.3, salt: 0.02, energyKcal: 160, source: sr("14057", "sweet dessert wine") },
    allergens: known("sulphite"),
    origin: ["plant", "alcohol"],
    storage: { state: "ambient", days: 720 },
  },
  {
    id: "brandy",
    name: "Brandy, 40 % by volume",
    densities: [{ state: "plain", kgPerL: 0.94, source: sr("14051", "1 fl oz = 27.8 g") }],
    pieces: [{ name: "bottle", g: 658, source: memory }],
    composition: { water: 66.6, protein: 0, fat: 0, saturated: 0, carbohydrate: 0, sugars: 0, fibre: 0, ash: 0.01, alcohol: 33.4, salt: 0, energyKcal: 231, source: sr("14051", "spirit of 80 proof") },
    allergens: known(),
    origin: ["plant", "alcohol"],
    storage: { state: "ambient", days: 1800 },
  },
] satisfies IngredientInput[];
