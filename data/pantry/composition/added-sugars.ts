/**
 * Sugars added, which no table of USDA SR28 has. By 21 CFR 101.9(c)(6)(iii) sugar, honey and syrups are added sugars
 * wherever they go in; what grows or is milked has none. Which rows are which is our own reading of their names; of what
 * is made by recipe (sauces, bread, sausages, cured and sweetened goods) it is left unknown.
 */

/** Groups of the release by the first digits of the number: milk and eggs, spices, fats, birds, fruit, pork, … */
const BY_NATURE = new Set(["01", "02", "04", "05", "09", "10", "11", "12", "13", "15", "16", "17", "20"]);
/** Made by recipe all the same: sweetened, pickled, cured, prepared. */
const BY_RECIPE = new Set(
  "01095 02046 02050 04025 05282 09079 09328 09426 10123 10130 11935 11943 15041 16098 16120 16123 16124".split(
    " ",
  ),
);
/** Table wines. */
const WINES = new Set("14096 14097 14099 14106 14124 14132 14134 14160".split(" "));
/** Sugar, honey, molasses, syrups, fructose. */
const SUGARS = new Set("19296 19304 19334 19335 19336 19340 19350 19352 19353 19912 43216".split(" "));

/** Added sugars of a row, g in 100 g; undefined when not known. @param sugars all its sugars. */
export function addedSugarsOf(ndb: string, sugars: number | undefined): number | undefined {
  if (SUGARS.has(ndb)) return sugars;
  if (BY_RECIPE.has(ndb)) return undefined;
  return BY_NATURE.has(ndb.slice(0, 2)) || WINES.has(ndb) ? 0 : undefined;
}
