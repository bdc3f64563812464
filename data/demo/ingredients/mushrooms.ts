import type { IngredientInput } from "../types.ts";
import { known, memory, practice, sr } from "./sources.ts";

/** Mushrooms and seaweed. */
export const mushrooms = [
  {
    id: "king-oyster",
    name: "King oyster mushroom, farmed",
    pieces: [{ name: "piece", g: 90, source: memory }],
    cuts: [{ id: "trimmed", name: "foot off, wiped", trimYield: 0.93, refuse: "foot", source: practice }],
    composition: { water: 87, protein: 3.3, fat: 0.4, saturated: 0.1, carbohydrate: 8.4, sugars: 1.2, fibre: 3.3, ash: 0.9, salt: 0.01, energyKcal: 44, source: memory },
    allergens: known(),
    origin: ["fungus"],
    storage: { state: "cold", days: 6 },
  },
  {
    id: "chestnut-mushroom",
    name: "Chestnut mushroom, farmed",
    aliases: ["brown mushroom"],
    pieces: [{ name: "piece", g: 18, source: memory }],
    cuts: [{ id: "trimmed", name: "trimmed", trimYield: 0.97, refuse: "trimmings", source: sr("11266") }, { id: "trimmed-kitchen", name: "foot off, wiped, marked ones out", trimYield: 0.9, refuse: "feet, marked ones", source: practice }],
    composition: { water: 92.12, protein: 2.5, fat: 0.1, saturated: 0.01, carbohydrate: 4.3, sugars: 1.72, fibre: 0.6, ash: 0.98, salt: 0.01, energyKcal: 22, source: sr("11266") },
    allergens: known(),
    origin: ["fungus"],
    storage: { state: "cold", days: 5 },
  },
  {
    id: "dried-shiitake",
    name: "Shiitake, dried, farmed",
    composition: { water: 9.5, protein: 9.58, fat: 0.99, saturated: 0.23, carbohydrate: 75.37, sugars: 2.21, fibre: 11.5, ash: 4.56, salt: 0.03, energyKcal: 296, source: sr("11268") },
    allergens: known(),
    origin: ["fungus"],
    storage: { state: "ambient", days: 360 },
  },
  {
    id: "dried-cep",
    name: "Cep, dried, wild",
    composition: { water: 10, protein: 29, fat: 3.5, saturated: 0.6, carbohydrate: 50, sugars: 2, fibre: 26, ash: 6.5, salt: 0.1, energyKcal: 296, source: memory },
    allergens: known(),
    origin: ["fungus", "wild-mushroom"],
    storage: { state: "ambient", days: 360 },
    notes: "Wild: keep the identification record of the gatherer with the delivery note.",
  },
  {
    id: "kombu",
    name: "Kombu, dried",
    composition: { water: 11, protein: 8, fat: 1.2, saturated: 0.3, carbohydrate: 57, sugars: 1, fibre: 29, ash: 22, salt: 7, energyKcal: 213, source: memory },
    allergens: known(),
    origin: ["plant"],
    storage: { state: "ambient", days: 540 },
  },
] satisfies IngredientInput[];
