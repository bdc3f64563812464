export * from "./brand.ts";
export * from "./convert.ts";
export * from "./schema.ts";
export { BASE_UNIT, pieceName, UNIT_SYMBOLS, UNITS, type UnitFacts, unitFacts } from "./units.ts";
