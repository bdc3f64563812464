import type { Larder } from "../formula/larder.ts";
import type { Dish } from "../plating/schema.ts";
import type { Kitchen, Menu, Service } from "./schema.ts";

/** The documents of a book by id. Suppliers belong to a room further down and are typed there. */
export interface Documents extends Larder {
  readonly dishes: ReadonlyMap<string, Dish>;
  readonly menus: ReadonlyMap<string, Menu>;
  readonly kitchens: ReadonlyMap<string, Kitchen>;
  readonly services: ReadonlyMap<string, Service>;
  /** JSON Pointer of a document in the book file, like "/preparations/12". */
  pointer(kind: string, id: string): string;
}
