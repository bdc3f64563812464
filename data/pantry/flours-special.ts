import { recalled } from "./composition/row.ts";
import { about, ambient, fill } from "./measures.ts";
import { known, knownAndMaybe } from "./sources.ts";
import { sr28 } from "./sr28.ts";
import type { IngredientInput } from "./types.ts";

/** Flours of other grains and pulses, starches and malt. */
export const floursSpecial = [
  {
    id: "cake-flour",
    name: "Cake flour",
    densities: [fill("20084", "1 cup unsifted, dipped", 137)],
    composition: sr28("20084", "enriched"),
    allergens: known("gluten", "wheat"),
    origin: ["plant"],
    storage: ambient(270),
  },
  {
    id: "self-raising-flour",
    name: "Self-raising flour",
    densities: [fill("20082", "1 cup", 125)],
    composition: sr28("20082", "enriched"),
    allergens: known("gluten", "wheat"),
    origin: ["plant"],
    storage: ambient(180),
  },
  {
    id: "spelt-flour",
    name: "Spelt flour, white",
    densities: [about(0.5)],
    composition: recalled([12, 12.5, 1.5, 0.2, 73.2, 1.5, 4, 0.8, 0, 0.01, 0, 356]),
    allergens: known("gluten", "wheat"),
    origin: ["plant"],
    storage: ambient(270),
  },
  {
    id: "brown-rice-flour",
    name: "Rice flour, brown",
    densities: [fill("20090", "1 cup", 158)],
    composition: sr28("20090"),
    allergens: known(),
    origin: ["plant"],
    storage: ambient(180),
  },
  {
    id: "soy-flour",
    name: "Soya flour, full fat",
    densities: [fill("16115", "1 cup, stirred", 84)],
    composition: sr28("16115"),
    allergens: known("soy"),
    origin: ["plant"],
    storage: ambient(180),
  },
  {
    id: "lupin-flour",
    name: "Lupin flour",
    densities: [about(0.5)],
    composition: recalled([9, 38, 9, 1.2, 41, 3, 35, 3, 0, 0.05, 0, 397]),
    allergens: knownAndMaybe(["lupin"], ["soy"]),
    origin: ["plant"],
    storage: ambient(270),
  },
  {
    id: "carob-flour",
    name: "Carob flour",
    densities: [fill("16055", "1 cup", 103)],
    composition: sr28("16055"),
    allergens: known(),
    origin: ["plant"],
    storage: ambient(540),
  },
  {
    id: "tapioca-starch",
    name: "Tapioca starch",
    densities: [about(0.53)],
    composition: recalled([11, 0.2, 0, 0, 88.6, 3.4, 0.9, 0.1, 0, 0, 0, 355]),
    allergens: known(),
    origin: ["plant"],
    storage: ambient(720),
  },
  {
    id: "malt-syrup",
    name: "Barley malt syrup",
    densities: [fill("19352", "1 cup", 332)],
    composition: sr28("19352"),
    allergens: known("gluten"),
    origin: ["plant"],
    storage: ambient(540),
  },
] satisfies IngredientInput[];
