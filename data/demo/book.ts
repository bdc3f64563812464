import type { BookInput } from "../../core/book/index.ts";
import { dishes } from "./dishes.ts";
import { ingredients } from "./ingredients.ts";
import { kitchens } from "./kitchens.ts";
import { menus } from "./menus.ts";
import { preparations } from "./preparations/index.ts";
import { services } from "./services.ts";
import { suppliers } from "./suppliers.ts";

/** The book of the First Light supper: an invented scenario whose measured properties carry their sources. */
export const demoBook: BookInput = {
  format: "tournant-book",
  version: 1,
  ingredients,
  suppliers,
  preparations,
  dishes,
  menus,
  kitchens,
  services,
};
