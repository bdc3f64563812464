import type { BookInput } from "../../core/book/index.ts";
import { starterPantry } from "./index.ts";

/** A book to start with: the pantry and nothing else. */
export const pantryBook: BookInput = {
  format: "tournant-book",
  version: 1,
  ingredients: starterPantry,
  suppliers: [],
  preparations: [],
  dishes: [],
  menus: [],
  kitchens: [],
  services: [],
};
