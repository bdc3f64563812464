/**
 * Sizes of units, re-stated from two NIST publications.
 *
 * exact: NIST Handbook 44, Appendix C, section 4 ("Tables of units of measurement", exact values underlined);
 *   the same definitions by their root: 1 inch = 25.4 mm and 1 pound = 453.592 37 g (yard and pound agreement
 *   of 1959), 1 US gallon = 231 cubic inches, 1 imperial gallon = 4.546 09 L (UK Weights and Measures Act 1985).
 * sevenFigures: NIST SP 811 (2008), App. B.8, as printed to seven figures. Written from memory of the table,
 *   not copied from it; each is checked here against the exact definition.
 */
export const exact = [
  { unit: "in", base: "25.4" },
  { unit: "ft", base: "304.8" },
  { unit: "lb", base: "453.59237" },
  { unit: "oz", base: "28.349523125" },
  { unit: "gal", base: "3785.411784" },
  { unit: "qt", base: "946.352946" },
  { unit: "pt", base: "473.176473" },
  { unit: "cup", base: "236.5882365" },
  { unit: "fl oz", base: "29.5735295625" },
  { unit: "tbsp", base: "14.78676478125" },
  { unit: "tsp", base: "4.92892159375" },
  { unit: "imp gal", base: "4546.09" },
  { unit: "imp qt", base: "1136.5225" },
  { unit: "imp pt", base: "568.26125" },
  { unit: "imp fl oz", base: "28.4130625" },
] as const;

/** How many of one unit make one of another, by definition (HB 44 App. C, sections 2 and 3). */
export const ladders = [
  { many: "qt", one: "gal", count: 4 },
  { many: "pt", one: "qt", count: 2 },
  { many: "cup", one: "pt", count: 2 },
  { many: "fl oz", one: "cup", count: 8 },
  { many: "tbsp", one: "fl oz", count: 2 },
  { many: "tsp", one: "tbsp", count: 3 },
  { many: "oz", one: "lb", count: 16 },
  { many: "in", one: "ft", count: 12 },
  { many: "imp qt", one: "imp gal", count: 4 },
  { many: "imp pt", one: "imp qt", count: 2 },
  { many: "imp fl oz", one: "imp pt", count: 20 },
  { many: "min", one: "h", count: 60 },
  { many: "h", one: "day", count: 24 },
  { many: "s", one: "min", count: 60 },
] as const;

/** [unit, printed size, SI unit of the print]. */
export const sevenFigures = [
  ["cup", "236.5882", "mL"],
  ["fl oz", "29.57353", "mL"],
  ["gal", "3.785412", "L"],
  ["imp gal", "4.54609", "L"],
  ["imp fl oz", "28.41306", "mL"],
  ["pt", "0.4731765", "L"],
  ["qt", "0.9463529", "L"],
  ["tbsp", "14.78676", "mL"],
  ["tsp", "4.928922", "mL"],
  ["lb", "0.4535924", "kg"],
  ["oz", "28.34952", "g"],
  ["in", "25.4", "mm"],
  ["ft", "0.3048", "m"],
] as const;

/** SP 811 App. B.8: t/°C = (t/°F − 32)/1.8 and t/°C = T/K − 273.15, at fixed points. */
export const temperatures = [
  { f: "32", c: "0" },
  { f: "212", c: "100" },
  { f: "-40", c: "-40" },
  { f: "165", c: "665/9" },
  { f: "145", c: "565/9" },
  { f: "41", c: "5" },
] as const;
