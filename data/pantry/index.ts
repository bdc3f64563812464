import { dairyEgg } from "./dairy-egg.ts";
import { flours } from "./flours.ts";
import { fruit } from "./fruit.ts";
import { grains } from "./grains.ts";
import { greens } from "./greens.ts";
import { herbs } from "./herbs.ts";
import { meatFish } from "./meat-fish.ts";
import { mushrooms } from "./mushrooms.ts";
import { oilsSeeds } from "./oils-seeds.ts";
import { onions } from "./onions.ts";
import { plantDrinks } from "./plant-drinks.ts";
import { raisingSetting } from "./raising-setting.ts";
import { roots } from "./roots.ts";
import { seasonings } from "./seasonings.ts";
import { spices } from "./spices.ts";
import { spiritsWine } from "./spirits-wine.ts";
import type { IngredientInput } from "./types.ts";
import { waterSaltSugar } from "./water-salt-sugar.ts";

/** Ingredients a kitchen of composed plates buys, by family: the book it starts with. */
export const starterPantry: IngredientInput[] = [
  ...dairyEgg,
  ...meatFish,
  ...onions,
  ...roots,
  ...greens,
  ...mushrooms,
  ...fruit,
  ...flours,
  ...grains,
  ...waterSaltSugar,
  ...oilsSeeds,
  ...seasonings,
  ...raisingSetting,
  ...plantDrinks,
  ...spiritsWine,
  ...herbs,
  ...spices,
];
