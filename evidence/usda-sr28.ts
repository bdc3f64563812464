/**
 * A sample of USDA National Nutrient Database for Standard Reference, Release 28 (2015, revised 2016), published:
 * g in 100 g of edible part, kcal. [NDB number, our ingredient, water, protein, fat, carbohydrate, energy].
 */
export const SAMPLE = [
  ["01006", "brie", 48.42, 20.75, 27.68, 0.45, 334],
  ["01033", "parmesan", 29.16, 35.75, 25.83, 3.22, 392],
  ["01077", "raw-milk", 88.13, 3.15, 3.25, 4.8, 61],
  ["01145", "butter", 17.94, 0.85, 81.11, 0.06, 717],
  ["04053", "olive-oil", 0, 0, 100, 0, 884],
  ["11141", "celeriac", 88, 1.5, 0.3, 9.2, 42],
  ["12061", "almond", 4.41, 21.15, 49.93, 21.55, 579],
  ["14096", "red-wine", 86.49, 0.07, 0, 2.61, 85],
  ["15236", "salmon-farmed", 64.89, 20.42, 13.42, 0, 208],
  ["17164", "venison-haunch", 73.57, 22.96, 2.42, 0, 120],
  ["19335", "sugar", 0.02, 0, 0, 99.98, 387],
  ["19904", "dark-chocolate-70", 1.37, 7.79, 42.63, 45.9, 598],
  ["20005", "pearl-barley", 10.09, 9.91, 1.16, 77.72, 352],
] as const;

/** Refuse of the same release, %: [NDB number, our ingredient, our cut, refuse]. */
export const REFUSE = [
  ["11007", "artichoke", "pared", 60],
  ["11124", "carrot", "pared", 11],
  ["11141", "celeriac", "pared", 14],
  ["11246", "leek", "trimmed", 56],
  ["15270", "prawn", "peeled-light", 13],
  ["09003", "eating-apple", "cored", 10],
] as const;

/** Household measures of the same release: [NDB number, our ingredient, state, mL of the measure, grams]. */
export const MEASURES = [
  ["01145", "butter", "plain", 236.588, 227],
  ["04053", "olive-oil", "plain", 236.588, 216],
  ["01053", "cream", "whipped", 236.588, 120],
  ["19334", "brown-sugar", "packed", 236.588, 220],
  ["11282", "red-onion", "sliced", 236.588, 115],
] as const;
