import type { Menu, Service } from "../production/schema.ts";
import type { PlateCount } from "../run/result.ts";
import { speaksAgainst } from "./contents.ts";
import { lacking } from "./flow.ts";
import { canServe, keeps, namedForm } from "./forms.ts";
import { named } from "./named.ts";
import type { Scope } from "./scope.ts";
import type { Finding } from "./types.ts";

type Course = Menu["courses"][number];
type Group = Service["guests"][number];

/** Guests of one course who may be given some of its plates. */
interface Party {
  readonly name: string;
  readonly rule: "choice" | "fed" | "share";
  readonly group?: Group;
  /** The one dish they are given; any option when left open. */
  readonly dish?: string | undefined;
}

/** Judges who gets what: one plate a course for each guest, nothing that a need forbids, choices and shares kept. */
export function judgePlates(scope: Scope, plates: readonly PlateCount[]): Finding[] {
  const found: Finding[] = [];
  const strangers = plates.filter((row) => !scope.menu.courses.some((course) => course.id === row.course));
  for (const row of strangers) found.push(about(row, row.count, `there is no course "${row.course}"`));
  for (const course of scope.menu.courses)
    found.push(
      ...judgeCourse(
        scope,
        course,
        plates.filter((row) => row.course === course.id),
      ),
    );
  return found;
}

function judgeCourse(scope: Scope, course: Course, rows: readonly PlateCount[]): Finding[] {
  const found = rows.flatMap((row) => judgeRow(scope, course, row));
  if (found.length > 0) return found;
  const groups = scope.service.guests;
  const dishes = course.options.map((option) => scope.dishes.get(option.dish)!);
  const hungry = new Set(rows.flatMap((row) => row.notFed));
  for (const group of groups) {
    const can = dishes.some((dish) => canServe(scope, dish, group.needs));
    if (can === hungry.has(group.id))
      found.push({
        ...finding("fed", group.count, "guest"),
        what: can
          ? `${named(group.id, "group")}: named as not fed at ${named(course.id, "course")}, though a dish of it would do`
          : `no dish of ${named(course.id, "course")} suits ${named(group.id, "group")}, and they are not named as not fed`,
      });
  }
  const unfed = groups.filter((group) => hungry.has(group.id)).reduce((sum, group) => sum + group.count, 0);
  const plates = rows.reduce((sum, row) => sum + row.count, 0);
  if (plates + unfed !== scope.covers)
    found.push({
      ...finding("plates", Math.abs(plates + unfed - scope.covers), "plate"),
      what: `${named(course.id, "course")} has ${plates} plates and ${unfed} guests not fed for ${scope.covers} covers`,
    });
  return found.length > 0 ? found : judgeParties(scope, course, rows, hungry);
}

/** A row by itself: a plate of this course, suiting every need it is meant for, with its spare plates. */
function judgeRow(scope: Scope, course: Course, row: PlateCount): Finding[] {
  const dish = scope.dishes.get(row.dish);
  if (!dish || !course.options.some((option) => option.dish === row.dish))
    return [
      about(row, row.count, `${named(row.dish, "dish")} is no option of ${named(course.id, "course")}`),
    ];
  const form = namedForm(dish, row.variant);
  if (!form) return [about(row, row.count, `${named(row.dish, "dish")} has no variant "${row.variant}"`)];
  const whole = [row.count, row.spare].every((n) => Number.isInteger(n) && n >= 0);
  if (!whole) return [about(row, 1, `${row.count} plates and ${row.spare} spare are no whole plates`)];
  const found: Finding[] = [];
  for (const need of row.needs) {
    const why = speaksAgainst(scope, need, form);
    if (why !== undefined && row.count > 0)
      found.push({
        ...finding("forbidden", row.count, "plate"),
        what: `${named(row.dish, "dish")} (${row.variant}) is given to ${need} guests: ${why}`,
      });
  }
  const spare = row.variant === "standard" ? scope.service.tasting : 1;
  if (row.count > 0 && row.spare !== spare)
    found.push({
      ...finding("spare", Math.abs(row.spare - spare), "plate"),
      what: `${named(row.dish, "dish")} (${row.variant}) has ${row.spare} spare plates, not ${spare}`,
    });
  return found;
}

/** Whether the guests can be given these plates, each group what it chose or what suits it, the rest by shares. */
function judgeParties(
  scope: Scope,
  course: Course,
  rows: readonly PlateCount[],
  hungry: ReadonlySet<string>,
): Finding[] {
  const parties: { item: Party; amount: number }[] = [];
  let rest = scope.covers;
  for (const group of scope.service.guests) {
    const choice = group.choices.find((each) => each.course === course.id)?.dish;
    if (choice === undefined && group.needs.length === 0) continue;
    rest -= group.count;
    if (hungry.has(group.id)) continue;
    const kept = choice !== undefined && canServe(scope, scope.dishes.get(choice)!, group.needs);
    const party = {
      name: named(group.id, "group"),
      group,
      rule: kept ? "choice" : "fed",
      dish: kept ? choice : undefined,
    };
    parties.push({ item: party as Party, amount: group.count });
  }
  const shares = byLargestRemainder(
    rest,
    course.options.map((option) => option.share),
  );
  course.options.forEach((option, i) => {
    const party: Party = {
      name: `guests of ${named(option.dish, "dish")} by its share`,
      rule: "share",
      dish: option.dish,
    };
    if (shares[i]! > 0) parties.push({ item: party, amount: shares[i]! });
  });
  const suits = (row: PlateCount, party: Party) => {
    if (party.dish !== undefined && row.dish !== party.dish) return false;
    const needs = party.group?.needs ?? [];
    if (needs.length === 0) return row.variant === "standard";
    return keeps(scope, needs, namedForm(scope.dishes.get(row.dish)!, row.variant)!);
  };
  const lack = lacking({
    from: rows.map((row) => ({ item: row, amount: row.count })),
    to: parties,
    joined: suits,
  });
  return parties.flatMap(({ item: party, amount }, i) =>
    lack[i]! > 0
      ? [
          {
            ...finding(party.rule, lack[i]!, "plate"),
            what: `${party.name}: ${amount} plates wanted at ${named(course.id, "course")} and ${lack[i]} of them are not there`,
          },
        ]
      : [],
  );
}

/** Whole shares of a whole number that add back to it; the earlier of equal remainders goes first. */
export function byLargestRemainder(whole: number, weights: readonly number[]): number[] {
  const sum = weights.reduce((a, b) => a + b, 0);
  if (whole <= 0 || sum <= 0) return weights.map(() => 0);
  const exact = weights.map((weight) => (whole * weight) / sum);
  const parts = exact.map((each) => Math.floor(each + 1e-9));
  const order = exact.map((each, i) => ({ i, rest: each - parts[i]! }));
  order.sort((a, b) => (Math.abs(a.rest - b.rest) < 1e-9 ? a.i - b.i : b.rest - a.rest));
  let left = whole - parts.reduce((a, b) => a + b, 0);
  for (const { i } of order) {
    if (left <= 0) break;
    parts[i]! += 1;
    left -= 1;
  }
  return parts;
}

const finding = (rule: string, by: number, unit: string) => ({ rule, tasks: [], by, unit });
const about = (row: PlateCount, by: number, what: string): Finding => ({
  ...finding("plates", by, "plate"),
  what: `${named(row.course, "course")}, ${named(row.dish, "dish")}: ${what}`,
});
