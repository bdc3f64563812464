export * from "./brand.ts";
export * from "./convert.ts";
export { amountOf, type Beside, type Reading, readAmount } from "./read.ts";
export type { ReadOptions } from "./read-quantity.ts";
export * from "./schema.ts";
export { BASE_UNIT, pieceName, UNIT_SYMBOLS, UNITS, type UnitFacts, unitFacts } from "./units.ts";
export { unitWord } from "./words.ts";
