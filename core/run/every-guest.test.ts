import { describe, expect, test } from "vitest";
import { indexBook, parseBook } from "../book/index.ts";
import type { Book } from "../book/schema.ts";
import { judgeContact } from "../inspection/contact.ts";
import { judgeFeeding } from "../inspection/feeding.ts";
import { namedForm } from "../inspection/forms.ts";
import { judgeMoments } from "../inspection/moments.ts";
import { judgeNeeds, madeOf } from "../inspection/needs.ts";
import { judgeOrders } from "../inspection/orders.ts";
import { partsOf } from "../inspection/parts.ts";
import { scopeOf } from "../inspection/scope.ts";
import { isAdmitted } from "../inspection/status.ts";
import { randomBook } from "../inspection/testing/random-book.ts";
import { Random } from "../numerics/random.ts";
import { ALLERGENS, type Allergen, type Item, type Origin } from "../pantry/schema.ts";
import { DIETS, type Need } from "../plating/schema.ts";
import { platesResult } from "../production/amounts-result.ts";
import { computeAmounts } from "../production/compute-amounts.ts";
import { seatingSheet } from "../safety/seating.ts";
import type { Result } from "./result.ts";
import { contentsFor, run } from "./run.ts";

const SERVICE = "service-1";
const NEEDS: readonly Need[] = [...DIETS, ...ALLERGENS.map((allergen): Need => `no-${allergen}`)];

/** A random book with further guests of one to three needs, some with choices. */
function guestsAt(seed: number): Book {
  const book = structuredClone(randomBook(seed, 3 + ((seed * 11) % 16)));
  const random = Random.of(`guests ${seed}`);
  const [service, menu] = [book.services[0]!, book.menus[0]!];
  for (let g = 1 + random.below(5); g > 0; g--) {
    const count = 1 + random.below(3);
    service.covers += count;
    service.guests.push({
      ...{ id: `more-${g}`, count, seat: `9-${g}` },
      needs: random.shuffled(NEEDS).slice(0, 1 + random.below(3)),
      choices: menu.courses
        .filter(() => random.next() < 0.3)
        .map((course) => ({ course: course.id, dish: random.pick(course.options).dish })),
    });
  }
  const read = parseBook(JSON.parse(JSON.stringify(book)));
  if (!read.ok) throw new Error(JSON.stringify(read.problems[0]));
  return read.value;
}

/** Every ingredient in an item, by plain search down the lines: nothing is kept, nothing is shared with the run. */
function reached(book: Book, item: Item): string[] {
  if ("ingredient" in item) return [item.ingredient];
  const { lines } = book.preparations.find((one) => one.id === item.preparation)!;
  return lines.flatMap((line) => reached(book, line.item));
}

/** Of what has or may have an allergen, or nobody knows, by itself or by any supplier's word that may hold that day. */
function mayHold(book: Book, id: string, wanted: readonly Allergen[]): boolean {
  const { allergens } = book.ingredients.find((one) => one.id === id)!;
  const service = book.services[0]!;
  const kitchen = book.kitchens.find((one) => one.id === service.kitchen)!;
  const declared = book.suppliers
    .filter((one) => kitchen.suppliers.includes(one.id))
    .flatMap(({ offers }) => offers)
    .filter(
      (offer) =>
        offer.ingredient === id &&
        (offer.from ?? "") <= service.priceAsOf &&
        (offer.until ?? "9") >= service.priceAsOf,
    );
  const words = [allergens, ...declared.map((offer) => offer.allergens ?? { contains: [], mayContain: [] })];
  return (
    allergens.status === "unknown" ||
    words.some((each) => [...each.contains, ...each.mayContain].some((word) => wanted.includes(word)))
  );
}

/** Allergens a need must not meet; wheat is gluten (Regulation (EU) 1169/2011, Annex II, 1). */
function allergensOf(need: Need): readonly Allergen[] {
  if (need === "coeliac" || need === "no-gluten") return ["gluten", "wheat"];
  if (need === "no-shellfish") return ["crustacean", "mollusc"];
  if (need === "vegan") return ["milk", "egg"];
  return ALLERGENS.filter((allergen) => need === `no-${allergen}`);
}

const DEAD: readonly Origin[] = ["meat", "poultry", "pork", "gelatin", "insect", "rennet"];
const SEA: readonly Origin[] = ["fish", "shellfish"];
/** The trade's rules of diets (common practice, no source), written here once more. */
const ORIGINS: Partial<Record<Need, readonly Origin[]>> = {
  vegetarian: [...DEAD, ...SEA],
  vegan: [...DEAD, ...SEA, "egg", "dairy", "honey"],
  pescatarian: DEAD,
  "no-alcohol": ["alcohol"],
  pregnant: ["alcohol"],
  "no-pork": ["pork"],
  "no-shellfish": ["shellfish"],
};

/** What on a plate a guest must not have: an ingredient and the need it breaks. */
function harm(book: Book, dish: string, variant: string, needs: readonly Need[]): string | undefined {
  const form = namedForm(book.dishes.find((one) => one.id === dish)!, variant);
  if (!form) return `${dish} has no form ${variant}`;
  const eaten = form.flatMap(({ preparation, ingredient, cut }) =>
    reached(book, preparation === undefined ? { ingredient: ingredient!, cut } : { preparation }),
  );
  return against(book, eaten, needs);
}

/** An ingredient of these and the need it breaks. */
function against(book: Book, eaten: readonly string[], needs: readonly Need[]): string | undefined {
  for (const id of eaten)
    for (const need of needs) {
      const { origin } = book.ingredients.find((one) => one.id === id)!;
      if (mayHold(book, id, allergensOf(need)) && allergensOf(need).length > 0)
        return `${id} against ${need}`;
      if (origin.some((word) => ORIGINS[need]?.includes(word))) return `${id} is no ${need}`;
    }
  return undefined;
}

/** What is wrong with the plates of the guests; undefined when each is fed rightly at every course, or named. */
function wrongFor(book: Book, { seating, plates }: Served) {
  const [service, menu] = [book.services[0]!, book.menus[0]!];
  for (const group of service.guests) {
    const seat = seating.seats.find((one) => one.group === group.id);
    if (!seat || seat.count !== group.count) return `${group.id} is not on the sheet`;
    for (const course of menu.courses) {
      const at = seat.courses.find((one) => one.course === course.id);
      const apart = group.needs.length > 0 || group.choices.some((one) => one.course === course.id);
      if (!at) return `${group.id} has no ${course.id}`;
      if (at.dish === undefined) {
        if (apart && !at.missing) return `${group.id} gets nothing at ${course.id} and is not named`;
        continue;
      }
      const found = harm(book, at.dish, at.variant!, group.needs);
      if (found) return `${group.id}, ${course.id}, ${at.dish} ${at.variant}: ${found}`;
      const row = plates.find(
        (one) => one.course === course.id && one.dish === at.dish && one.variant === at.variant,
      );
      if (!row || row.count < group.count) return `${group.id} has no plate at ${course.id}`;
    }
  }
  for (const course of menu.courses) {
    const rows = plates.filter((one) => one.course === course.id);
    const named = new Set(rows.flatMap((one) => one.notFed));
    const hungry = service.guests
      .filter(({ id }) => named.has(id))
      .reduce((sum, { count }) => sum + count, 0);
    if (rows.reduce((sum, one) => sum + one.count, 0) + hungry !== service.covers)
      return `${course.id} does not feed everyone`;
  }
  return undefined;
}

/** More of them are looked at by GUEST_BOOKS=800. */
const SEEDS = Array.from({ length: Number(process.env.GUEST_BOOKS ?? 40) }, (_, i) => 500 + i);
const DRAWN = new Map<number, { readonly book: Book; readonly result: Served }>();

type Served = Pick<Result, "seating" | "plates">;

/** Plates and seating sheet as a run makes them, without heat and orders. */
function drawn(seed: number) {
  const book = guestsAt(seed);
  const known = DRAWN.get(seed) ?? { book, result: servedOf(book) };
  DRAWN.set(seed, known);
  return known;
}

function servedOf(book: Book): Served {
  const docs = indexBook(book);
  const contents = contentsFor(docs, SERVICE, undefined);
  const amounts = computeAmounts(docs, SERVICE, { meets: contents.meets.bind(contents) });
  const { seats, rest } = seatingSheet(docs, contents, amounts, []);
  return { seating: { seats, rest }, plates: platesResult(amounts) };
}

test("R6 S1 in random books every guest is fed at every course with nothing they must not have, or named", () => {
  const seen = { plates: 0, variants: 0, named: 0, unknown: 0 };
  for (const seed of SEEDS) {
    const { book, result } = drawn(seed);
    expect(wrongFor(book, result), `book ${seed}`).toBeUndefined();
    for (const { courses } of result.seating.seats)
      for (const at of courses) {
        if (at.dish === undefined) seen.named += at.missing ? 1 : 0;
        else seen[at.variant === "standard" ? "plates" : "variants"]++;
      }
    seen.unknown += book.ingredients.some((one) => one.allergens.status === "unknown") ? 1 : 0;
  }
  // A generator gone dull would prove nothing.
  expect(seen.plates).toBeGreaterThan(100);
  expect(seen.variants).toBeGreaterThan(40);
  expect(seen.named).toBeGreaterThan(40);
  expect(seen.unknown).toBeGreaterThan(10);
});

test("S22 what goes with every cover is told at each seat that must not have it, and at no other", () => {
  let [told, spared] = [0, 0];
  for (const seed of SEEDS) {
    const { book } = drawn(seed);
    const id = book.ingredients[seed % book.ingredients.length]!.id;
    const preparation = book.preparations[seed % book.preparations.length]!.id;
    const amount = { value: 5, unit: "g" } as const;
    const items = [
      { item: { ingredient: id }, amount },
      { item: { preparation }, amount },
    ];
    const laid = { ...book, menus: [{ ...book.menus[0]!, surround: { items } }] };
    for (const { needs, beside = [] } of servedOf(laid).seating.seats)
      for (const { item } of items) {
        const at = beside.filter((one) => (one.item.preparation ?? one.item.ingredient) === nameOf(item));
        const wrong = against(laid, reached(laid, item), needs);
        if (wrong !== undefined) expect(at, `book ${seed}, ${wrong}`).toHaveLength(1);
        // "Pregnant" also speaks against what is raw.
        else if (!needs.includes("pregnant")) expect(at, `book ${seed}`).toHaveLength(0);
        if (wrong === undefined) spared++;
        else told++;
      }
  }
  expect(told).toBeGreaterThan(50);
  expect(spared).toBeGreaterThan(50);
});

const nameOf = (item: Item) => ("preparation" in item ? item.preparation : item.ingredient);

test("R6 the same look finds a plate that was given wrongly", () => {
  let [tried, caught] = [0, 0];
  for (const seed of SEEDS) {
    const { book, result } = drawn(seed);
    for (const [i, seat] of result.seating.seats.entries())
      for (const [c, at] of seat.courses.entries()) {
        if (at.dish === undefined || at.variant === "standard" || seat.needs.length === 0) continue;
        // The dish as written did not do: else nobody would have changed it.
        const seats = structuredClone(result.seating.seats) as typeof result.seating.seats;
        (seats[i]!.courses[c] as { variant: string }).variant = "standard";
        tried++;
        if (wrongFor(book, { ...result, seating: { ...result.seating, seats } }) !== undefined) caught++;
      }
  }
  expect(tried).toBeGreaterThan(40);
  // "Pregnant" also forbids what is raw, which the look above leaves to the inspector.
  expect(caught).toBeGreaterThan(0.9 * tried);
});

/**
 * The same evening with one more guest of a group. The spare is of plates: of what goes with every cover there is what there
 * was, shared by one more.
 */
function oneMore(book: Book, group: string): Book {
  const more = structuredClone(book);
  const covers = more.services[0]!.covers++;
  const { surround } = more.menus[0]!;
  if (surround && "items" in surround)
    for (const { amount } of surround.items) amount.value = (Number(amount.value) * covers) / (covers + 1);
  more.services[0]!.guests.find((one) => one.id === group)!.count++;
  return more;
}

/** Groups that get a changed plate at some course, and so somewhere n + 1 of it. */
const changedFor = ({ seating }: Served) =>
  seating.seats.filter(({ courses }) => courses.some(({ variant }) => variant && variant !== "standard"));

test("A4 one more guest of a kind finds each changed plate laid, and food made for it", () => {
  let changed = 0;
  for (const seed of SEEDS) {
    const { book, result } = drawn(seed);
    for (const { group } of changedFor(result)) {
      const more = oneMore(book, group);
      const then = servedOf(more);
      const seat = then.seating.seats.find((one) => one.group === group)!;
      // Everybody else as before, the standard plates of others apart: those have no spare of this kind.
      const plates = result.plates.map((row) => {
        const mine = seat.courses.some(
          (at) => at.course === row.course && at.dish === row.dish && at.variant === row.variant,
        );
        if (!mine || row.variant === "standard") return row;
        changed++;
        const now = then.plates.find(
          (one) => one.course === row.course && one.dish === row.dish && one.variant === row.variant,
        )!;
        expect(now.count).toBe(row.count + 1);
        expect(row.count + row.spare).toBeGreaterThanOrEqual(now.count);
        return { ...row, count: now.count, spare: 0 };
      });
      const [before, after] = [book, more].map((each) => scopeOf(each, { service: SERVICE }));
      const made = madeOf(before!, result.plates);
      for (const [id, { usedG }] of madeOf(after!, plates)) {
        const there = made.get(id)!;
        expect(there.grams + there.stockG, `${id} of book ${seed}`).toBeGreaterThanOrEqual(usedG - 1e-6);
      }
    }
  }
  expect(changed).toBeGreaterThan(40);
});

describe("A4 R4 the plan and the orders hold for one more guest of a kind", () => {
  const seeds = SEEDS.filter((seed) => changedFor(drawn(seed).result).length > 0).slice(0, 6);
  test.each(seeds)("random book %i", (seed) => {
    const { book } = drawn(seed);
    const result = run(book, SERVICE, { seed: 1, schedules: 4, remedies: false, trace: false });
    const { group } = changedFor(result)[0]!;
    const scope = scopeOf(oneMore(book, group), { service: SERVICE });
    const seat = result.seating.seats.find((one) => one.group === group)!;
    const plates = result.plates.map((row) =>
      row.variant !== "standard" &&
      seat.courses.some(
        (at) => at.course === row.course && at.dish === row.dish && at.variant === row.variant,
      )
        ? { ...row, count: row.count + 1, spare: row.spare - 1 }
        : row,
    );
    const made = madeOf(scope, plates);
    const parts = partsOf(scope, made, result.plan.tasks);
    const found = [
      ...judgeNeeds(made, result.needs),
      ...judgeOrders(scope, made, parts, plates, result),
      ...judgeFeeding(scope, made, parts, plates),
      ...judgeMoments(scope, made, parts, plates),
      ...judgeContact(scope, parts, plates),
    ];
    // What the plan breaks for the guests it knows of, it says; nothing else may break.
    expect(found.filter((one) => !isAdmitted(result.plan, one))).toEqual([]);
  });
});
