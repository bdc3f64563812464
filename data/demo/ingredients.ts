import { starterPantry } from "../pantry/index.ts";
import { known, knownAndMaybe } from "../pantry/sources.ts";
import type { IngredientInput } from "../pantry/types.ts";

/** What the supper takes from the pantry, in the order of the book. */
const TAKEN = `
  butter cream milk buttermilk creme-fraiche yoghurt milk-powder butter-culture hard-cheese eggs
  egg-yolk-past egg-white-past whole-egg-past char-fillet short-rib guinea-fowl-breast guinea-fowl-crown
  guinea-fowl-bones chicken-bones veal-bones beef-bones beef-trim calf-foot onion shallot leek garlic
  black-garlic celeriac carrot salsify horseradish beetroot kohlrabi parsnip potato jerusalem-artichoke
  radish celery kale spinach savoy-cabbage watercress mustard-cress fennel cucumber frozen-peas
  tomato-paste sauerkraut-juice white-beans king-oyster chestnut-mushroom dried-shiitake dried-cep kombu
  pear quince apple lemon lemon-juice orange apple-juice red-grape-juice verjus prune strong-flour
  plain-flour wholemeal-flour rye-flour buckwheat-flour gf-flour rice-flour chickpea-flour potato-starch
  maize-starch barley-malt-flour semolina pearl-barley buckwheat-groats quinoa millet oat-flakes-gf
  rye-sourdough-starter dark-rye-bread gf-bread-crumb water ice salt sea-salt-flakes sugar icing-sugar
  brown-sugar isomalt glucose-syrup dextrose invert-sugar honey maple-syrup rapeseed-oil cold-rapeseed-oil
  sunflower-oil clarified-fat-veg hazelnut-oil hazelnuts sunflower-seeds pumpkin-seeds linseed psyllium
  plant-butter cocoa-nibs white-wine-vinegar cider-vinegar sherry-vinegar dijon-mustard mustard-seed
  tamari miso-rice yeast-flakes capers vanilla-pod agar pectin xanthan locust-bean-gum sorbet-stabiliser
  fresh-yeast dry-yeast baking-powder bicarbonate oat-drink oat-cream rice-drink soy-drink soy-cream
  coconut-yoghurt soy-yoghurt silken-tofu red-wine white-wine dry-vermouth port madeira brandy dill
  parsley chervil chive thyme rosemary tarragon sage bay-leaf black-pepper white-pepper juniper star-anise
  clove-spice cinnamon-stick nutmeg coriander-seed fennel-seed caraway mustard-powder cayenne
  smoked-paprika
`;

/** Where the supper buys something closer told than the pantry has it. */
const CLOSER: Readonly<Record<string, Partial<IngredientInput>>> = {
  "char-fillet": {
    notes:
      "Farmed on pellets; the farm's parasite letter is kept with the delivery note, so no freezing is asked for.",
  },
  honey: { name: "Honey, heather and clover" },
  "buckwheat-flour": { name: "Buckwheat flour, certified gluten-free", allergens: known() },
  "buckwheat-groats": { name: "Buckwheat groats, roasted, certified gluten-free", allergens: known() },
  "rice-flour": { name: "Rice flour, white, certified gluten-free", allergens: known() },
  "potato-starch": { name: "Potato starch, certified gluten-free", allergens: known() },
  "maize-starch": { name: "Maize starch, certified gluten-free", allergens: known() },
  psyllium: { name: "Psyllium husk, powder, certified gluten-free", allergens: known() },
  "icing-sugar": { name: "Icing sugar, with maize starch" },
  "dark-rye-bread": {
    name: "Dark rye bread, sliced, from a bakery without nuts, milk or soya",
    allergens: knownAndMaybe(["gluten"], ["wheat", "sesame"]),
  },
  quinoa: { name: "Quinoa, certified gluten-free", allergens: known() },
  millet: { name: "Millet, certified gluten-free", allergens: known() },
  "sunflower-seeds": { name: "Sunflower seeds, hulled, nut-free site", allergens: known() },
  "pumpkin-seeds": { name: "Pumpkin seeds, hulled, nut-free site", allergens: known() },
};

const byId = new Map(starterPantry.map((each) => [each.id, each]));

/** Every ingredient of the demo book. @throws RangeError for one that the pantry does not hold. */
export const ingredients: IngredientInput[] = TAKEN.trim()
  .split(/\s+/)
  .map((id) => {
    const general = byId.get(id);
    if (!general) throw new RangeError(`the pantry holds no "${id}"`);
    return { ...general, ...CLOSER[id] };
  });
