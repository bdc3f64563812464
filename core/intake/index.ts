export { decodeText } from "./decode.ts";
export { type Doubt, type LinkedRecipe, linkRecipe } from "./doubts.ts";
export { type Drafted, draftPreparations } from "./draft.ts";
export { type Link, PantryIndex, SURE } from "./link.ts";
export * from "./pack.ts";
export * from "./price-list.ts";
export { type Format, type ReadSource, readSource } from "./read.ts";
export { readLine } from "./read-line.ts";
export type * from "./types.ts";
