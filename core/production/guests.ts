import type { Problem } from "../pantry/refusal.ts";
import type { Dish, Need } from "../plating/schema.ts";
import type { Documents } from "./documents.ts";
import type { GuestGroup, Menu, Service } from "./schema.ts";
import { type Form, formFor, formOf, type Meets } from "./variants.ts";

/** Guests of one course who get one dish in one form. */
export interface Row {
  readonly dish: Dish;
  readonly form: Form;
  /** Groups by place in the service, whole. */
  readonly groups: readonly number[];
  /** Options by place in the course whose share of the rest it gets. */
  readonly shares: readonly number[];
}

/** Who eats what in one course. None of it depends on the number of covers. */
export interface Seating {
  readonly course: Menu["courses"][number];
  readonly rows: readonly Row[];
  /** Groups that are placed or cannot be fed; all other covers follow the shares. */
  readonly apart: readonly number[];
  readonly notFed: readonly number[];
}

interface OpenRow {
  dish: Dish;
  form: Form;
  groups: number[];
  shares: number[];
}

/**
 * Places the guests: a choice first, else the option whose dish meets all needs with the fewest changes (one
 * meant `for` the need first). Guests without needs and choice follow the shares.
 * @throws nothing; what is wrong or doubtful is told in `problems` and `warnings`.
 */
export function seatGuests(
  docs: Documents,
  service: Service,
  menu: Menu,
  meets: Meets,
  problems: Problem[],
  warnings: Problem[],
): Seating[] {
  const menuAt = docs.pointer("menus", menu.id);
  const serviceAt = docs.pointer("services", service.id);
  return menu.courses.map((course, c): Seating => {
    const rows = new Map<string, OpenRow>();
    const apart: number[] = [];
    const notFed: number[] = [];
    const dishes = course.options.map((option, o) => {
      const dish = docs.dishes.get(option.dish);
      if (!dish) {
        problems.push({
          path: `${menuAt}/courses/${c}/options/${o}/dish`,
          what: `there is no dish "${option.dish}"`,
          mend: "add it to the book, or name one there is",
        });
      }
      return dish;
    });
    const rowFor = (dish: Dish, form: Form): OpenRow => {
      const key = `${dish.id} ${form.name}`;
      const row = rows.get(key) ?? { dish, form, groups: [], shares: [] };
      rows.set(key, row);
      return row;
    };
    const standard = (dish: Dish) => formOf(dish, docs.pointer("dishes", dish.id), []);

    // Rows of the dishes as written come first and are always there, however many get them.
    dishes.forEach((dish, o) => {
      if (dish) rowFor(dish, standard(dish)).shares.push(o);
    });
    service.guests.forEach((group, g) => {
      const at = `${serviceAt}/guests/${g}`;
      const wish = group.choices.findIndex((choice) => choice.course === course.id);
      const wanted = wish < 0 ? -1 : dishes.findIndex((dish) => dish?.id === group.choices[wish]!.dish);
      if (wish >= 0 && wanted < 0) {
        problems.push({
          path: `${at}/choices/${wish}/dish`,
          what: `"${group.choices[wish]!.dish}" is no option of the course "${course.id}"`,
          mend: `choose one of: ${course.options.map((option) => option.dish).join(", ")}`,
        });
        return;
      }
      if (group.needs.length === 0 && wish < 0) return;
      apart.push(g);
      const place = wanted >= 0 ? placeAt(docs, dishes[wanted]!, group.needs, meets) : undefined;
      const found = place ?? bestPlace(docs, course, dishes, group.needs, meets);
      if (!found) {
        notFed.push(g);
        warnings.push({
          path: at,
          what: `nothing in the course "${course.id}" meets ${group.needs.join(", ")}: group "${group.id}" is not fed`,
          mend: `add a variant for ${group.needs.join(" and ")} to one of: ${course.options.map((o) => o.dish).join(", ")}`,
        });
        return;
      }
      if (wanted >= 0 && !place)
        warnings.push({
          path: `${at}/choices/${wish}`,
          what: `"${dishes[wanted]!.id}" cannot be made for ${group.needs.join(", ")}: group "${group.id}" gets "${found.dish.id}"`,
          mend: `add a variant to the dish "${dishes[wanted]!.id}", or change the choice`,
        });
      for (const n of found.form.conflicts)
        warnings.push({
          path: docs.pointer("dishes", found.dish.id),
          what: `the variants of "${found.form.name}" both change place ${n}, each in its own way`,
          mend: "add one variant that says what goes there for both needs",
        });
      rowFor(found.dish, found.form).groups.push(g);
    });
    return { course, rows: [...rows.values()], apart, notFed };
  });
}

interface Place {
  readonly dish: Dish;
  readonly form: Form;
}

function placeAt(docs: Documents, dish: Dish, needs: readonly Need[], meets: Meets): Place | undefined {
  const at = docs.pointer("dishes", dish.id);
  const form = needs.length === 0 ? formOf(dish, at, []) : formFor(dish, at, needs, meets);
  return form && { dish, form };
}

function bestPlace(
  docs: Documents,
  course: Menu["courses"][number],
  dishes: readonly (Dish | undefined)[],
  needs: readonly Need[],
  meets: Meets,
): Place | undefined {
  const found = course.options.flatMap((option, o) => {
    const dish = dishes[o];
    const place = dish && placeAt(docs, dish, needs, meets);
    if (!place) return [];
    const meant = needs.filter((need) => option.for?.includes(need)).length;
    const changes = place.form.placed.filter((each) => each.at.includes("/variants/")).length;
    const written = dish.placements.length;
    const kept = place.form.placed.length - changes;
    return [{ ...place, meant, changed: changes + (written - kept), o }];
  });
  found.sort((a, b) => b.meant - a.meant || a.changed - b.changed || a.o - b.o);
  return found[0];
}

/** Number of guests in the groups at these places. */
export function countOf(guests: readonly GuestGroup[], groups: readonly number[]): number {
  return groups.reduce((total, g) => total + guests[g]!.count, 0);
}
