/**
 * Cooking yields of beef: USDA Table of Cooking Yields for Meat and Poultry, Release 2 (2014), published.
 * [NDB number, what, method, cooked / raw %, moisture change %, fat change %]; changes are % of the raw weight.
 * Yield and changes were measured apart and close only to some points.
 */
export const COOKED = [
  ["13806", "brisket, flat half", "braised", 69, -25.01, -10.23],
  ["23125", "chuck short ribs, boneless", "braised", 66.07, -31.27, -4.18],
  ["23054", "shoulder tender, medallion", "grilled", 77, -22.2, -0.67],
  ["23058", "shoulder top and center steak", "grilled", 76, -22.88, -0.02],
  ["23060", "top blade steak", "grilled", 76, -23.2, -0.77],
  ["13948", "flank", "grilled", 81, -22.55, -0.99],
] as const;

/**
 * Trim yields: USDA National Nutrient Database for Standard Reference, Release 28 (2015), refuse, published.
 * [NDB number, what, what is removed, refuse %].
 */
export const TRIMMED = [
  ["11080", "beet", "parings and part tops", 33],
  ["11124", "carrot", "crown, tops, scrapings", 11],
  ["11141", "celeriac", "parings", 14],
  ["11206", "cucumber, peeled", "parings, ends", 27],
  ["11233", "kale", "stem ends, midribs", 28],
  ["11246", "leek", "tops, root end, skin", 56],
  ["11282", "onion", "stem ends, defects", 10],
  ["11437", "salsify", "scrapings, rootlets", 13],
  ["09252", "pear", "stem, core, seeds", 10],
  ["09296", "quince", "core, seeds, parings", 39],
] as const;

/**
 * Water of grains and pulses, raw and boiled, g in 100 g: USDA National Nutrient Database for Standard Reference,
 * Release 26, published. [what, raw, boiled].
 */
export const BOILED = [
  ["rice, white long-grain", 11.62, 68.44],
  ["lentils", 10.4, 69.64],
  ["chickpeas", 11.53, 60.21],
  ["white beans", 11.32, 63.08],
  ["barley, pearled", 10.09, 68.8],
  ["millet", 8.67, 71.41],
  ["quinoa", 13.28, 71.61],
  ["spelt", 11.02, 66.56],
] as const;
