import type { RetentionGroup } from "../../core/pantry/retention-groups.ts";
import type { IngredientInput } from "./types.ts";

/**
 * Which group of the USDA Table of Nutrient Retention Factors, Release 6, a raw food cooks as. Read off the names of the
 * groups there; onions and other bulbs stand with the roots, mushrooms with other vegetables (from memory of its text; the
 * factors of the two are the same for the three minerals). What is cured, dried, tinned or cooked as bought stands in
 * none, nor do game, ducks and geese, for which the table has nothing.
 */
const GROUPS: Readonly<Partial<Record<RetentionGroup, string>>> = {
  cheese: `hard-cheese cheddar emmental gruyere comte parmesan pecorino gouda edam manchego provolone blue-cheese
    roquefort gorgonzola brie camembert washed-rind-cheese raclette goat-cheese-fresh goat-cheese-semisoft feta halloumi
    mozzarella buffalo-mozzarella burrata fresh-white-cheese ricotta cream-cheese mascarpone quark cottage-cheese`,
  egg: "eggs egg-yolk-past egg-white-past whole-egg-past quail-egg duck-egg",
  milk: `milk cream buttermilk single-cream half-cream skimmed-milk goat-milk sheep-milk raw-milk creme-fraiche sour-cream
    clotted-cream condensed-milk evaporated-milk`,
  nut: `almond ground-almond brazil-nut cashew hazelnuts hazelnuts-skin-on pecan pine-nut walnut pistachio macadamia peanut
    sunflower-seeds pumpkin-seeds sesame black-sesame chestnut`,
  fruit: `pear quince apple eating-apple apricot peach nectarine plum cherry sour-cherry strawberry raspberry blackberry
    blueberry blackcurrant redcurrant gooseberry lingonberry cranberry elderberry grape fig persimmon mango pineapple papaya
    banana rhubarb`,
  "dried-fruit":
    "prune dried-apricot dried-apple dried-pear raisin sultana currants-dried dried-cranberry date dried-fig",
  citrus: "lemon orange lime blood-orange clementine grapefruit kumquat",
  flour: `strong-flour plain-flour wholemeal-flour rye-flour buckwheat-flour rice-flour chickpea-flour cake-flour
    self-raising-flour spelt-flour brown-rice-flour soy-flour lupin-flour semolina maize-meal-whole polenta`,
  cereal: `pearl-barley buckwheat-groats quinoa millet oat-flakes-gf oats bulgur freekeh spelt-grain emmer rye-grain
    amaranth couscous`,
  pasta: "pasta-dry pasta-whole pasta-fresh egg-noodles soba somen",
  rice: "long-grain-rice brown-rice risotto-rice glutinous-rice wild-rice",
  "pulse-20-min": "red-lentils lentils split-peas",
  "pulse-2-h": "chickpeas black-beans kidney-beans navy-beans pinto-beans broad-beans-dry",
  "pulse-1-h": "adzuki",
  beef: `short-rib beef-fillet beef-striploin beef-ribeye beef-ribeye-cap beef-rib-bone-in beef-back-ribs beef-brisket
    beef-flank beef-hanger beef-skirt beef-tri-tip beef-topside beef-silverside beef-featherblade beef-chuck-eye beef-cheek
    oxtail beef-shin beef-trim`,
  veal: "veal-loin veal-rib veal-shoulder veal-topside veal-breast veal-stewing veal-shin veal-cheek",
  lamb: "lamb-rack lamb-leg lamb-shoulder lamb-shank lamb-loin lamb-neck",
  pork: `pork-belly pork-tenderloin pork-loin pork-rack pork-neck pork-shoulder pork-leg pork-spare-ribs pork-back-ribs
    pork-jowl pork-cheek`,
  "cured-pork": "bacon back-bacon pancetta guanciale",
  chicken: `chicken chicken-breast-bone-in chicken-breast chicken-leg chicken-thigh chicken-thigh-bone-in
    chicken-drumstick chicken-wing poussin`,
  turkey: "turkey turkey-breast",
  liver: "chicken-liver pork-liver veal-liver lamb-liver",
  "organ-meat": "chicken-heart ox-kidney ox-tongue veal-kidney veal-sweetbread veal-tongue lamb-kidney",
  "lean-fish": `cod haddock pollock hake halibut turbot dover-sole plaice skate monkfish john-dory grouper redfish
    pike-perch mahi-mahi sea-bass striped-bass sea-bream red-mullet`,
  "oily-fish": `char-fillet salmon-farmed salmon-wild salmon-sockeye salmon-coho trout mackerel sardine anchovy herring
    bluefin-tuna swordfish sablefish yellowtail eel whitefish`,
  shellfish: "prawn brown-shrimp scallop squid cuttlefish octopus whelk",
  "shellfish-in-shell": "lobster spiny-lobster langoustine crayfish crab mussel oyster clam cockle",
  greens: `kale spinach savoy-cabbage watercress white-cabbage red-cabbage pak-choi chinese-leaf chard dandelion nettle
    sorrel rocket brussels-sprouts broccoli broccoli-rabe`,
  root: `celeriac carrot salsify beetroot kohlrabi parsnip jerusalem-artichoke radish turnip swede daikon parsley-root
    burdock taro yam lotus-root onion shallot leek garlic red-onion sweet-onion pearl-onion spring-onion`,
  potato: "potato potato-waxy potato-new",
  "sweet-potato": "sweet-potato",
  tomato: "tomato cherry-tomato plum-tomato tinned-tomato passata",
  vegetable: `celery fennel cucumber artichoke asparagus-green asparagus-white green-beans wax-beans broad-beans-fresh
    peas-pod sugar-snap edamame cauliflower romanesco cardoon okra sweetcorn red-pepper yellow-pepper green-pepper aubergine
    courgette butternut pumpkin spaghetti-squash king-oyster chestnut-mushroom button-mushroom portobello oyster-mushroom
    enoki maitake shiitake morel chanterelle cep`,
};

/** The group of each ingredient that stands in one. */
export const retentionGroups: ReadonlyMap<string, RetentionGroup> = new Map(
  Object.entries(GROUPS).flatMap(([group, ids]) =>
    ids.split(/\s+/).map((id) => [id, group as RetentionGroup] as const),
  ),
);

/** The same ingredients, each with its group. */
export function withRetentionGroups(ingredients: readonly IngredientInput[]): IngredientInput[] {
  return ingredients.map((each) => {
    const retentionGroup = retentionGroups.get(each.id);
    return retentionGroup === undefined ? each : { ...each, retentionGroup };
  });
}
