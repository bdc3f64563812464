import { recalled } from "./composition/row.ts";
import { ambient, cold, each, fill, light, season, trim, whole } from "./measures.ts";
import { known, sr } from "./sources.ts";
import { sr28 } from "./sr28.ts";
import type { IngredientInput } from "./types.ts";

/** Red, sweet, pearl and spring onions. */
export const onionsMild = [
  {
    id: "red-onion",
    name: "Onion, red",
    densities: [
      fill("11282", "1 cup, chopped", 160, "chopped"),
      fill("11282", "1 cup, sliced", 115, "sliced"),
    ],
    pieces: [each("piece", 130)],
    cuts: [
      light("peeled", "peeled", "11282", 10, "ends, defects"),
      trim("peeled-kitchen", "peeled, root and first layer off", 0.85, "skin, ends, first layer"),
    ],
    composition: sr28("11282", "onion"),
    allergens: known(),
    origin: ["plant"],
    storage: ambient(30),
  },
  {
    id: "sweet-onion",
    name: "Onion, sweet",
    pieces: [whole("piece", "11294", "1 onion", 331, 16)],
    cuts: [light("peeled", "peeled", "11294", 16, "ends, skin")],
    composition: sr28("11294"),
    allergens: known(),
    origin: ["plant"],
    storage: ambient(21),
  },
  {
    id: "pearl-onion",
    name: "Pearl onion",
    pieces: [each("piece", 12)],
    cuts: [trim("peeled", "scalded, peeled, root trimmed", 0.8, "skin, root")],
    composition: sr28("11282", "onion"),
    allergens: known(),
    origin: ["plant"],
    storage: ambient(30),
  },
  {
    id: "spring-onion",
    name: "Spring onion",
    aliases: ["scallion"],
    pieces: [each("piece", 18), each("bunch", 120), each("stalk", 18)],
    cuts: [
      { id: "light", name: "ends off", trimYield: 0.96, refuse: "ends", source: sr("11291") },
      trim("trimmed", "root and ragged green off", 0.78, "root, outer leaf, tops"),
    ],
    composition: recalled([89.8, 1.8, 0.2, 0.03, 7.3, 2.3, 2.6, 0.8, 0, 0.04, 0, 32]),
    allergens: known(),
    origin: ["plant"],
    storage: cold(6),
    season: season(4, 10),
  },
] satisfies IngredientInput[];
