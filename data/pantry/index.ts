import { additives } from "./additives.ts";
import { beef } from "./beef.ts";
import { berries } from "./berries.ts";
import { birds } from "./birds.ts";
import { cereals } from "./cereals.ts";
import { charcuterie } from "./charcuterie.ts";
import { cheeses } from "./cheese.ts";
import { chocolateSugars } from "./chocolate-sugars.ts";
import { citrusExotic } from "./citrus-exotic.ts";
import { coffeeTea } from "./coffee-tea.ts";
import { dairyEgg } from "./dairy-egg.ts";
import { driedFruit } from "./dried-fruit.ts";
import { drinksMore } from "./drinks-more.ts";
import { fish } from "./fish.ts";
import { fishCured } from "./fish-cured.ts";
import { flours } from "./flours.ts";
import { floursSpecial } from "./flours-special.ts";
import { withForeignNames } from "./foreign.ts";
import { fruit } from "./fruit.ts";
import { fruitVegetables } from "./fruit-vegetables.ts";
import { game } from "./game.ts";
import { grains } from "./grains.ts";
import { grapesMelons } from "./grapes-melons.ts";
import { greens } from "./greens.ts";
import { herbs } from "./herbs.ts";
import { herbsTender } from "./herbs-tender.ts";
import { leaves } from "./leaves.ts";
import { meatFish } from "./meat-fish.ts";
import { milkCream } from "./milk-cream.ts";
import { mushrooms } from "./mushrooms.ts";
import { mushroomsWild } from "./mushrooms-wild.ts";
import { nuts } from "./nuts.ts";
import { oilsFats } from "./oils-fats.ts";
import { oilsSeeds } from "./oils-seeds.ts";
import { onions } from "./onions.ts";
import { onionsMild } from "./onions-mild.ts";
import { pastaBread } from "./pasta-bread.ts";
import { plantDrinks } from "./plant-drinks.ts";
import { pork } from "./pork.ts";
import { pulses } from "./pulses.ts";
import { raisingSetting } from "./raising-setting.ts";
import { withRetentionGroups } from "./retention.ts";
import { roots } from "./roots.ts";
import { rootsRare } from "./roots-rare.ts";
import { sauces } from "./sauces.ts";
import { seasonings } from "./seasonings.ts";
import { shellfish } from "./shellfish.ts";
import { spices } from "./spices.ts";
import { spicesGround } from "./spices-ground.ts";
import { spiritsWine } from "./spirits-wine.ts";
import { stoneFruit } from "./stone-fruit.ts";
import type { IngredientInput } from "./types.ts";
import { vealLamb } from "./veal-lamb.ts";
import { vegetables } from "./vegetables.ts";
import { waterSaltSugar } from "./water-salt-sugar.ts";

/** Ingredients a kitchen of composed plates buys, by family: the book it starts with. */
const english: IngredientInput[] = [
  ...dairyEgg,
  ...milkCream,
  ...cheeses,
  ...beef,
  ...vealLamb,
  ...pork,
  ...charcuterie,
  ...birds,
  ...game,
  ...meatFish,
  ...fish,
  ...fishCured,
  ...shellfish,
  ...onions,
  ...onionsMild,
  ...roots,
  ...rootsRare,
  ...vegetables,
  ...fruitVegetables,
  ...leaves,
  ...greens,
  ...mushrooms,
  ...mushroomsWild,
  ...fruit,
  ...stoneFruit,
  ...berries,
  ...grapesMelons,
  ...citrusExotic,
  ...driedFruit,
  ...flours,
  ...floursSpecial,
  ...grains,
  ...cereals,
  ...pastaBread,
  ...pulses,
  ...waterSaltSugar,
  ...chocolateSugars,
  ...oilsSeeds,
  ...nuts,
  ...oilsFats,
  ...seasonings,
  ...sauces,
  ...raisingSetting,
  ...additives,
  ...coffeeTea,
  ...plantDrinks,
  ...spiritsWine,
  ...drinksMore,
  ...herbs,
  ...herbsTender,
  ...spices,
  ...spicesGround,
];

/** Every ingredient, with what it is called in the other languages of a brigade. */
export const starterPantry: IngredientInput[] = withRetentionGroups(withForeignNames(english));
