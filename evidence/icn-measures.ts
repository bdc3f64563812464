/**
 * Scoops and ladles as USDA / Institute of Child Nutrition, "Basics at a Glance", prints them (published), and the
 * spoons and cup of food labels, 21 CFR 101.9(b)(5)(viii) (published).
 * A scoop's number is how many level scoops fill a US quart; the printed measures are kitchen roundings of it.
 */
export const scoops = [
  { number: 6, printed: "2/3", unit: "cup" },
  { number: 8, printed: "1/2", unit: "cup" },
  { number: 10, printed: "3/8", unit: "cup" },
  { number: 12, printed: "1/3", unit: "cup" },
  { number: 16, printed: "1/4", unit: "cup" },
  { number: 20, printed: "3 1/3", unit: "tbsp" },
  { number: 24, printed: "2 2/3", unit: "tbsp" },
  { number: 30, printed: "2", unit: "tbsp" },
  { number: 40, printed: "1 2/3", unit: "tbsp" },
  { number: 50, printed: "3 3/4", unit: "tsp" },
  { number: 60, printed: "3 1/4", unit: "tsp" },
  { number: 70, printed: "2 3/4", unit: "tsp" },
  { number: 100, printed: "2", unit: "tsp" },
] as const;

/** [US fluid ounces, printed cups]. */
export const ladles = [
  [1, "1/8"],
  [2, "1/4"],
  [3, "3/8"],
  [4, "1/2"],
  [6, "3/4"],
  [8, "1"],
  [12, "1 1/2"],
] as const;

export const labelMeasures = { "label cup": "240", "metric tbsp": "15", "metric tsp": "5" } as const;
