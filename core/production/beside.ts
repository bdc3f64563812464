import type { FormulaCells } from "../formula/cells.ts";
import type { Cell } from "../ledger/ledger.ts";
import { gramsCell } from "../pantry/grams.ts";
import { purchasedFor } from "../pantry/rules.ts";
import type { Menu } from "./schema.ts";

/** What goes with every cover and stands on no plate, g a cover. */
export interface BesideCells {
  /** Its place in the menu's list. */
  readonly place: number;
  readonly preparation?: string;
  readonly ingredient?: string;
  readonly cut: string | undefined;
  readonly ep: Cell;
  readonly ap: Cell;
}

/** Where the grams a cover of an item of the menu's list stand, for cost and orders alike. */
export const besideG = (place: number) => `calc:/beside/${place}/g`;

/** Preparations that go with every cover. */
export function preparedBeside({ surround }: Menu): string[] {
  if (!surround || !("items" in surround)) return [];
  return surround.items.flatMap(({ item }) => ("preparation" in item ? [item.preparation] : []));
}

/**
 * With whose plates what goes with every cover goes out (README, P27): the first course, by its moment, that has plates,
 * and of it the first dish of the menu that has. Undefined where nothing is plated.
 * @param plated whether any plate of a dish is served in a course
 */
export function goesOutWith(
  menu: Menu,
  plated: (course: string, dish: string) => boolean,
): { readonly course: string; readonly dish: string } | undefined {
  const courses = menu.courses.toSorted((a, b) => a.afterMin - b.afterMin);
  for (const course of courses)
    for (const { dish } of course.options) if (plated(course.id, dish)) return { course: course.id, dish };
  return undefined;
}

/** What goes with every cover; what the menu tells only as a cost is nothing to make or order. */
export function besideCells(formula: FormulaCells, menu: Menu, menuAt: string): BesideCells[] {
  const { surround } = menu;
  if (!surround || !("items" in surround)) return [];
  return surround.items.flatMap(({ item, amount }, place): BesideCells[] => {
    const at = `${menuAt}/surround/items/${place}/amount`;
    if (!("ingredient" in item)) {
      const { preparation } = item;
      const matter = formula.matterOf(item);
      const g = gramsCell(formula.ledger, besideG(place), amount, at, matter, formula.problems);
      return [{ place, preparation, cut: undefined, ep: g, ap: g }];
    }
    const { ingredient, cut } = item;
    const matter = formula.matter(ingredient);
    const ep = gramsCell(formula.ledger, besideG(place), amount, at, matter, formula.problems);
    const trim = formula.trim(ingredient, cut);
    const ap =
      trim === undefined
        ? ep
        : formula.ledger.derive(`calc:/beside/${place}/ap`, "g", purchasedFor, [ep, trim]);
    return [{ place, ingredient, cut, ep, ap }];
  });
}
