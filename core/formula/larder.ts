import type { Ingredient } from "../pantry/schema.ts";
import type { Preparation } from "./schema.ts";

/** What formulas are made of, by id. */
export interface Larder {
  readonly ingredients: ReadonlyMap<string, Ingredient>;
  readonly preparations: ReadonlyMap<string, Preparation>;
}
