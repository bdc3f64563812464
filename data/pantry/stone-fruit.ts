import { recalled } from "./composition/row.ts";
import { cold, each, fill, light, piece, season, trim, whole } from "./measures.ts";
import { known, sr } from "./sources.ts";
import { sr28 } from "./sr28.ts";
import type { IngredientInput } from "./types.ts";

/** Apples and stone fruit. */
export const stoneFruit = [
  {
    id: "eating-apple",
    name: "Apple, sweet",
    pieces: [whole("piece", "09003", '1 medium (3" dia)', 182, 10)],
    cuts: [
      light("cored", "cored, skin on", "09003", 10, "core, stem"),
      trim("peeled", "peeled, cored", 0.75, "peel, core"),
    ],
    composition: sr28("09003"),
    allergens: known(),
    origin: ["plant"],
    storage: cold(40),
    season: season(9, 4),
  },
  {
    id: "apricot",
    name: "Apricot",
    pieces: [each("piece", 45)],
    cuts: [{ id: "stoned", name: "stoned", trimYield: 0.93, refuse: "stones", source: sr("09021") }],
    composition: recalled([86.3, 1.4, 0.4, 0.03, 11.1, 9.2, 2, 0.8, 0, 0, 0, 48]),
    allergens: known(),
    origin: ["plant"],
    storage: cold(5),
    season: season(6, 8),
  },
  {
    id: "peach",
    name: "Peach, yellow",
    pieces: [whole("piece", "09236", '1 medium (2-2/3" dia)', 150, 4)],
    densities: [fill("09236", "1 cup slices", 154, "sliced")],
    cuts: [
      light("stoned", "stoned, skin on", "09236", 4, "stone"),
      trim("skinned", "skinned, stoned", 0.8, "skin, stone"),
    ],
    composition: sr28("09236"),
    allergens: known(),
    origin: ["plant"],
    storage: cold(5),
    season: season(7, 9),
  },
  {
    id: "nectarine",
    name: "Nectarine",
    densities: [fill("09191", "1 cup slices", 143, "sliced")],
    pieces: [whole("piece", "09191", '1 medium (2-1/2" dia)', 142, 9)],
    cuts: [light("stoned", "stoned", "09191", 9, "stone")],
    composition: sr28("09191"),
    allergens: known(),
    origin: ["plant"],
    storage: cold(5),
    season: season(7, 9),
  },
  {
    id: "plum",
    name: "Plum",
    pieces: [each("piece", 60)],
    cuts: [{ id: "stoned", name: "stoned", trimYield: 0.94, refuse: "stones", source: sr("09279") }],
    composition: recalled([87.2, 0.7, 0.3, 0.02, 11.4, 9.9, 1.4, 0.4, 0, 0, 0, 46]),
    allergens: known(),
    origin: ["plant"],
    storage: cold(7),
    season: season(7, 10),
  },
  {
    id: "cherry",
    name: "Cherry, sweet",
    densities: [fill("09070", "1 cup, without pits", 154, "stoned")],
    pieces: [piece("piece", "09070", "1 cherry", 8.2)],
    cuts: [light("stoned", "stoned", "09070", 8, "stones, stems")],
    composition: sr28("09070"),
    allergens: known(),
    origin: ["plant"],
    storage: cold(5),
    season: season(6, 7),
  },
  {
    id: "sour-cherry",
    name: "Cherry, sour",
    cuts: [trim("stoned", "stoned", 0.85, "stones, stems, juice")],
    composition: recalled([86.1, 1, 0.3, 0.07, 12.2, 8.5, 1.6, 0.4, 0, 0.01, 0, 50]),
    allergens: known(),
    origin: ["plant"],
    storage: cold(4),
    season: season(6, 8),
  },
] satisfies IngredientInput[];
