export { BenchPlace } from "./bench.tsx";
export { DishSheet } from "./dish.tsx";
export { HeatPlace, PreparationHeat } from "./heat/heat.tsx";
export { PastePlace } from "./paste/paste.tsx";
export { PreparationSheet } from "./preparation.tsx";
