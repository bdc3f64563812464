import type { IngredientInput } from "../types.ts";
import { dairyEgg } from "./dairy-egg.ts";
import { fruit } from "./fruit.ts";
import { grainsFlours } from "./grains-flours.ts";
import { greens } from "./greens.ts";
import { herbs } from "./herbs.ts";
import { meatFish } from "./meat-fish.ts";
import { mushrooms } from "./mushrooms.ts";
import { oilsSeeds } from "./oils-seeds.ts";
import { onionsRoots } from "./onions-roots.ts";
import { plantDrinks } from "./plant-drinks.ts";
import { seasoningsSetting } from "./seasonings-setting.ts";
import { spices } from "./spices.ts";
import { spiritsWine } from "./spirits-wine.ts";
import { waterSaltSugar } from "./water-salt-sugar.ts";

/** Every ingredient of the demo book. */
export const ingredients: IngredientInput[] = [
  ...dairyEgg,
  ...meatFish,
  ...onionsRoots,
  ...greens,
  ...mushrooms,
  ...fruit,
  ...grainsFlours,
  ...waterSaltSugar,
  ...oilsSeeds,
  ...seasoningsSetting,
  ...plantDrinks,
  ...spiritsWine,
  ...herbs,
  ...spices,
];
