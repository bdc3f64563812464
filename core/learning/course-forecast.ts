import { over, shortOf } from "../ledger/rules.ts";
import type { Menu, Service } from "../production/schema.ts";
import type { Standing } from "../safety/log-lines.ts";
import { type DishForecast, dishesOf, MENU_COVERS, sharesAfter } from "./forecast.ts";
import type { Covers } from "./schema.ts";

export type Course = Menu["courses"][number];

/** What is asked of one course: for this menu, service and covers, by past services. */
export interface CourseAsked {
  readonly menu: Menu;
  readonly course: Course;
  readonly service: Service;
  readonly covers: number;
  readonly past: readonly Standing<Covers>[];
}

/** What those not placed by a need or a choice are expected to take, by dish. */
export interface CourseForecast {
  readonly dishes: readonly (DishForecast & { readonly dish: string; readonly menu: number })[];
  /** Covers that are open. */
  readonly open: number;
  readonly services: number;
  readonly came: number;
  /** For how many covers the menu's own shares count. */
  readonly prior: number;
  /** How many times more than by chance services differ. */
  readonly dispersion: number;
}

/** The dishes forecast. Those meant for needs are placed by them: shares are for everyone else. */
export function optionsOf({ options }: Course): Course["options"] {
  return options.filter((option) => option.share > 0 || option.for === undefined);
}

/** Groups of guests who are placed already, by their place in the service. */
export function placedIn({ course, service }: Pick<CourseAsked, "course" | "service">): number[] {
  return service.guests.flatMap(({ needs, choices }, k) =>
    choices.some((choice) => choice.course === course.id) ||
    course.options.some((option) => option.for?.some((need) => needs.includes(need)))
      ? [k]
      : [],
  );
}

/** Past services of the course in which anything was eaten, with the place of each dish in what was written. */
export function heldAt({ menu, course, past }: Omit<CourseAsked, "covers" | "service">) {
  const options = optionsOf(course);
  return past
    .filter(({ now }) => now.body.menu === menu.id && now.body.course === course.id)
    .map((at) => {
      const places = options.map(({ dish }) => at.now.body.dishes.findIndex((one) => one.dish === dish));
      return { at, places, counts: places.map((k) => at.now.body.dishes[k]?.count ?? 0) };
    })
    .filter(({ counts }) => counts.some((n) => n > 0));
}

/** The forecast of a course (README, LE11). */
export function courseForecast(asked: CourseAsked): CourseForecast {
  const { course, service, covers } = asked;
  const options = optionsOf(course);
  const held = heldAt(asked).map(({ counts }) => counts);
  const placed = placedIn(asked).reduce((sum, k) => sum + service.guests[k]!.count, 0);
  const open = shortOf(covers, placed);
  const shares = sharesAfter(
    options.map(({ share }) => share),
    held,
  );
  const total = options.reduce((sum, { share }) => sum + share, 0);
  return {
    dishes: dishesOf(shares, open).map((one, i) => ({
      ...one,
      ...{ dish: options[i]!.dish, menu: over(options[i]!.share, total) },
    })),
    open,
    ...{ services: held.length, prior: MENU_COVERS, dispersion: shares.dispersion },
    came: held.flat().reduce((sum, n) => sum + n, 0),
  };
}
