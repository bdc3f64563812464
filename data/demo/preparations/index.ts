import { bread } from "./bread.ts";
import { char } from "./char.ts";
import { guineaFowl } from "./guinea-fowl.ts";
import { pithivier } from "./pithivier.ts";
import { shortRib } from "./short-rib.ts";
import { stocks } from "./stocks.ts";
import { tart } from "./tart.ts";
import { veloute } from "./veloute.ts";
import type { PreparationInput } from "./words.ts";

/** Every preparation of the First Light supper, by course. */
export const preparations: PreparationInput[] = [
  ...stocks,
  ...bread,
  ...char,
  ...veloute,
  ...shortRib,
  ...guineaFowl,
  ...pithivier,
  ...tart,
];
