import type { Row } from "./row.ts";

/**
 * Milk, eggs, meat, birds, fish and shellfish: composition by USDA National Nutrient Database for Standard
 * Reference, Release 28 (2015), by NDB number, to a hundredth of a gram; salt is sodium × 2.5.
 */
export const animal = {
  "01053": [57.81, 2.84, 36.08, 23.03, 2.74, 2.92, 0, 0.53, 0, 0.07, 113, 340], // Cream, 35 % fat
  "01077": [88.13, 3.15, 3.25, 1.86, 4.8, 5.05, 0, 0.67, 0, 0.11, 10, 61], // Whole milk, pasteurised
  "01088": [90.13, 3.31, 0.88, 0.55, 4.79, 4.79, 0, 0.89, 0, 0.47, 4, 40], // Cultured buttermilk, pasteurised
  "01091": [3.16, 36.16, 0.77, 0.5, 51.98, 51.98, 0, 7.93, 0, 1.34, 20, 362], // Skimmed milk powder
  "01116": [87.9, 3.47, 3.25, 2.1, 4.66, 4.66, 0, 0.72, 0, 0.12, 13, 61], // Yoghurt, whole milk, set
  "01123": [76.15, 12.56, 9.51, 3.13, 0.72, 0.37, 0, 1.06, 0, 0.35, 372, 143], // Hen eggs, class M
  "01124": [87.57, 10.9, 0.17, 0, 0.73, 0.71, 0, 0.63, 0, 0.41, 0, 52], // Egg white, pasteurised, in cartons
  "01125": [52.31, 15.86, 26.54, 9.55, 3.59, 0.56, 0, 1.71, 0, 0.12, 1085, 322],
  "01145": [17.94, 0.85, 81.11, 50.49, 0.06, 0.06, 0, 0.09, 0, 0.03, 215, 717], // Butter, unsalted, 82 % fat
  "05151": [68.9, 23.4, 6.45, 1.77, 0, null, 0, 1.25, 0, 0.17, 74, 158],
  "23093": [72.51, 21.75, 4.48, 1.86, 0.16, 0, 0, 1.11, 0, 0.2, 64, 128], // Beef trimmings, lean, for sauces
  "23128": [63.84, 17.48, 18.33, 7.98, 0, 0, 0, 0.84, 0, 0.2, 75, 235],
} satisfies Record<string, Row>;
