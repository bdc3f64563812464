import type { Say } from "../../../words/catalogue.ts";
import type { Names } from "../../app/names.ts";

/** A row of plates, or one seat of it. */
export interface Plate {
  readonly service: string;
  readonly row: number;
  readonly seat?: string;
}

/** "Short rib, Main, coeliac: 4 plates". */
export function plateWords(
  say: Say,
  names: Names,
  row: { readonly dish: string; readonly course: string; readonly variant: string; readonly count: number },
): string {
  const { dish, course, variant, count } = row;
  return say("recall.plates", { dish: names.dish(dish), course, variant, count });
}
