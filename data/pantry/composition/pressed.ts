import type { Row } from "./row.ts";

/**
 * Oils, fats and drinks: composition by USDA National Nutrient Database for Standard
 * Reference, Release 28 (2015), by NDB number, to a hundredth of a gram; salt is sodium × 2.5.
 */
export const pressed = {
  "04060": [0, 0, 100, 10.1, 0, 0, 0, 0, 0, 0, 0, 884], // Sunflower oil
  "04532": [0, 0, 100, 7.4, 0, 0, 0, 0, 0, 0, 0, 884], // Hazelnut oil, roasted
  "04582": [0, 0, 100, 7.37, 0, 0, 0, 0, 0, 0, 0, 884], // Rapeseed oil, refined
  "14051": [66.6, 0, 0, 0, 0, 0, 0, 0.01, 33.4, 0, 0, 231], // Brandy, 40 % by volume
  "14057": [70.51, 0.2, 0, 0, 13.69, 7.78, 0, 0.3, 15.3, 0.02, 0, 160], // Port, ruby
  "14096": [86.49, 0.07, 0, 0, 2.61, 0.62, 0, 0.28, 10.6, 0.01, 0, 85], // Red wine, dry, for cooking
  "14106": [86.86, 0.07, 0, 0, 2.6, 0.96, 0, 0.2, 10.3, 0.01, 0, 82], // White wine, dry, for cooking
  "14429": [99.9, 0, 0, 0, 0, 0, 0, 0.1, 0, 0.01, 0, 0], // Tap water
  "14536": [72.53, 0.2, 0, 0, 11.67, 1.09, 0, 0.3, 15.3, 0.02, 0, 152], // Vermouth, dry
} satisfies Record<string, Row>;
