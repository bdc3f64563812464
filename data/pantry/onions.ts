import { season } from "./measures.ts";
import { known, memory, practice, sr } from "./sources.ts";
import { sr28 } from "./sr28.ts";
import type { IngredientInput } from "./types.ts";

/** Onions, leeks and garlic. */
export const onions = [
  {
    id: "onion",
    name: "Onion, brown",
    densities: [{ state: "chopped", kgPerL: 0.6763, source: sr("11282", "1 cup, chopped = 160 g") }],
    pieces: [{ name: "piece", g: 150, source: sr("11282", "1 large = 150 g") }],
    cuts: [
      { id: "peeled", name: "peeled", trimYield: 0.9, refuse: "ends, defects", source: sr("11282") },
      {
        id: "peeled-kitchen",
        name: "peeled, root and first layer off",
        trimYield: 0.85,
        refuse: "skin, ends, first layer",
        source: practice,
      },
    ],
    composition: sr28("11282"),
    allergens: known(),
    origin: ["plant"],
    storage: { state: "ambient", days: 30 },
  },
  {
    id: "shallot",
    name: "Shallot, banana",
    pieces: [{ name: "piece", g: 30, source: memory }],
    cuts: [
      { id: "peeled", name: "peeled", trimYield: 0.88, refuse: "skins", source: sr("11677") },
      {
        id: "peeled-kitchen",
        name: "peeled, root off",
        trimYield: 0.8,
        refuse: "skin, ends, first layer",
        source: practice,
      },
    ],
    composition: sr28("11677"),
    allergens: known(),
    origin: ["plant"],
    storage: { state: "ambient", days: 30 },
  },
  {
    id: "leek",
    name: "Leek",
    pieces: [{ name: "piece", g: 220, source: memory }],
    cuts: [
      {
        id: "trimmed",
        name: "bulb and lower leaf",
        trimYield: 0.44,
        refuse: "tops, root end, skin",
        source: sr("11246"),
      },
      {
        id: "white",
        name: "white and pale green, washed",
        trimYield: 0.55,
        refuse: "dark tops, root, outer leaf",
        source: practice,
      },
    ],
    composition: sr28("11246"),
    allergens: known(),
    origin: ["plant"],
    storage: { state: "cold", days: 10 },
    season: season(9, 4),
    notes:
      "The published refuse is of untrimmed leeks; the trade buys them with short tops, so practice keeps more.",
  },
  {
    id: "garlic",
    name: "Garlic",
    pieces: [
      { name: "piece", g: 55, source: memory },
      { name: "head", g: 55, source: memory },
      { name: "clove", g: 3, source: sr("11215", "1 clove = 3 g") },
    ],
    cuts: [
      { id: "peeled", name: "peeled", trimYield: 0.87, refuse: "knob, skin", source: sr("11215") },
      {
        id: "peeled-kitchen",
        name: "peeled, germ out",
        trimYield: 0.8,
        refuse: "knob, skin, root, germ",
        source: practice,
      },
    ],
    composition: sr28("11215"),
    allergens: known(),
    origin: ["plant"],
    storage: { state: "ambient", days: 45 },
  },
  {
    id: "black-garlic",
    name: "Black garlic, whole heads",
    pieces: [
      { name: "piece", g: 45, source: memory },
      { name: "head", g: 45, source: memory },
      { name: "clove", g: 4, source: memory },
    ],
    cuts: [{ id: "peeled", name: "peeled", trimYield: 0.78, refuse: "skin, root", source: practice }],
    composition: {
      water: 45,
      protein: 9,
      fat: 0.6,
      saturated: 0.1,
      carbohydrate: 43,
      sugars: 30,
      fibre: 5,
      ash: 2.4,
      salt: 0.1,
      energyKcal: 203,
      source: memory,
    },
    allergens: known(),
    origin: ["plant"],
    storage: { state: "cold", days: 180 },
  },
] satisfies IngredientInput[];
