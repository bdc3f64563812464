import type { Need } from "../plating/schema.ts";
import type { GuestFlag } from "./schema.ts";

/** What a guest's words come to; a doubt is told beside what was taken, on the cautious side. */
interface Understood {
  readonly needs: readonly Need[];
  readonly flag?: GuestFlag;
  readonly doubt?: string;
}

/** Words of diets and states of life, as people write them (common practice, no source). */
const DIET_WORDS: readonly (readonly [RegExp, readonly Need[], string?])[] = [
  [/^(vegetarian|veggie|vegetarisch|v[ée]g[ée]tarien(ne)?)$/, ["vegetarian"]],
  [/^(vegan|plant[- ]based)$/, ["vegan"]],
  [/^(pescatarian|pescetarian|pesco)$/, ["pescatarian"]],
  [/^(c(o)?eliac( disease)?|gluten[- ]?free|gf|gluten[- ]intoleran(t|ce))$/, ["coeliac"]],
  [/^(non[- ]?alcoholic|alcohol[- ]?free|teetotal(ler)?)$/, ["no-alcohol"]],
  [/^(pregnant|pregnancy|expecting)$/, ["pregnant"]],
  [
    /^lactose([- ](intoleran(t|ce)|free))?$/,
    ["no-milk"],
    "lactose: all milk is taken; ask whether lactose-free milk is allowed",
  ],
];

/** Names of foods behind the allergens; a food alone stands for its whole group, on the cautious side. */
const FOODS: readonly (readonly [RegExp, readonly Need[], string?])[] = [
  [/^gluten$/, ["coeliac"]],
  [/^wheat$/, ["no-wheat"]],
  [/^(barley|rye|oats?|spelt)$/, ["coeliac"], "all gluten cereals are taken for one of them"],
  [
    /^(tree[- ]?nuts?|hazelnuts?|almonds?|walnuts?|cashews?|pistachios?|pecans?|brazil nuts?|macadamias?)$/,
    ["no-tree-nut"],
  ],
  [/^nuts?$/, ["no-tree-nut", "no-peanut"], "nuts: tree nuts and peanuts are both taken; ask which"],
  [/^(peanuts?|groundnuts?)$/, ["no-peanut"]],
  [/^(milk|dairy|cheese|butter|cream)$/, ["no-milk"]],
  [/^eggs?$/, ["no-egg"]],
  [/^fish$/, ["no-fish"]],
  [/^(shellfish|seafood)$/, ["no-shellfish"], "shellfish: crustaceans and molluscs are both taken"],
  [/^(crustaceans?|prawns?|shrimps?|crabs?|lobsters?)$/, ["no-crustacean"]],
  [/^(molluscs?|mollusks?|mussels?|oysters?|clams?|squid|octopus|scallops?)$/, ["no-mollusc"]],
  [/^(soy|soya|soybeans?)$/, ["no-soy"]],
  [/^(sesame|tahini)$/, ["no-sesame"]],
  [/^(celery|celeriac)$/, ["no-celery"]],
  [/^mustard$/, ["no-mustard"]],
  [/^(sulphites?|sulfites?)$/, ["no-sulphite"]],
  [/^lupins?$/, ["no-lupin"]],
  [/^(alcohol|wine)$/, ["no-alcohol"]],
  [/^(pork|bacon|ham)$/, ["no-pork"]],
  [/^meat$/, ["vegetarian"], "no meat: taken as vegetarian; ask whether fish is eaten"],
];

/**
 * The needs that one part of a line asks for: "no nuts", "sesame allergy", "dairy-free", "allergic to fish".
 * Undefined when it says nothing that is known: then a person is asked.
 */
export function needsOfWord(word: string): Understood | undefined {
  const text = word
    .toLowerCase()
    .replace(/[.!]+$/, "")
    .trim();
  const diet = DIET_WORDS.find(([pattern]) => pattern.test(text));
  if (diet) return understood(diet);
  const flag = /^(halal|kosher)([- ]style)?$/.exec(text)?.[1];
  if (flag !== undefined)
    return {
      needs: [],
      flag: `${flag as "halal" | "kosher"}-style`,
      doubt: `${flag}: a flag; a certifying person decides`,
    };
  const food = text
    .replace(/^(no|without|avoid|avoids|not|allergic to|allergy( to)?|intolerant (of|to)|severe)\s+/, "")
    .replace(/^(any|all|the)\s+/, "")
    .replace(/[- ]*(allergy|allergic|allergies|intoleran(t|ce)|free|anaphyla(xis|ctic))$/, "")
    .trim();
  const found = FOODS.find(([pattern]) => pattern.test(food));
  return found ? understood(found) : undefined;
}

const understood = ([, needs, doubt]: (typeof FOODS)[number]): Understood => ({
  needs,
  ...(doubt === undefined ? {} : { doubt }),
});
