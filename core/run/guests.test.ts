import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { guestBooks } from "../../tests/guest-book.ts";
import { indexBook, parseBook } from "../book/index.ts";
import type { Book } from "../book/schema.ts";
import { ALLERGENS, type Allergen } from "../pantry/schema.ts";
import type { Need } from "../plating/schema.ts";
import { placementsOf } from "../production/placements-of.ts";
import { Contents, type Eaten } from "../safety/contents.ts";
import { allergenMatrix } from "../safety/matrix.ts";
import type { AllergenCell, Result } from "./result.ts";
import { run } from "./run.ts";

const quick = (book: Book) => run(book, "supper", { plan: false, trace: false });
const runs = { numRuns: 60 };

/** What a plate contains by plain search: the ingredients reached through lines, with no closure kept. */
function reached(book: Book, { preparation, ingredient }: Eaten): string[] {
  if (preparation === undefined) return [ingredient!];
  const { lines } = book.preparations.find((one) => one.id === preparation)!;
  return lines.flatMap(({ item }) => reached(book, item));
}

/** Whether each word of a way is a line of the one before, from the dish down. */
function leads(book: Book, variant: string, [dish, first, ...rest]: readonly string[]): boolean {
  const on = placementsOf(book.dishes.find((one) => one.id === dish)!, variant);
  if (!on.some((one) => (one.preparation ?? one.ingredient) === first)) return false;
  let from = first!;
  for (const next of rest) {
    const lines = book.preparations.find((one) => one.id === from)?.lines ?? [];
    if (!lines.some(({ item }) => ("preparation" in item ? item.preparation : item.ingredient) === next))
      return false;
    from = next;
  }
  return true;
}

function withAllergen(book: Book, ingredient: string, allergen: Allergen): Book {
  const changed = structuredClone(book);
  const one = changed.ingredients.find((each) => each.id === ingredient)!;
  if (!one.allergens.contains.includes(allergen)) one.allergens.contains.push(allergen);
  return changed;
}

/** What is wrong with the cells of an allergen that one ingredient has, plate by plate; undefined when nothing is. */
function wrongCell(book: Book, ingredient: string, allergen: Allergen, cells: readonly AllergenCell[]) {
  for (const cell of cells) {
    if (cell.allergen !== allergen) continue;
    const on = placementsOf(book.dishes.find((one) => one.id === cell.dish)!, cell.variant);
    const there = on.some((one) => reached(book, one).includes(ingredient));
    if (there && cell.state !== "contains") return `${cell.dish} ${cell.variant} hides it`;
    if (there && !cell.paths.some((path) => path.at(-1) === ingredient)) return "no way leads to it";
    if (cell.paths.some((path) => !leads(book, cell.variant, path))) return "a way does not lead there";
  }
  return undefined;
}

const served = (book: Book) =>
  book.dishes.map((dish) => ({ dish: dish.id, variant: "standard", placements: dish.placements }));

describe("S1 an allergen anywhere in the tree", () => {
  test("put into any ingredient it shows on every plate that has it, by ways that lead there", () => {
    fc.assert(
      fc.property(guestBooks, fc.nat(), fc.constantFrom(...ALLERGENS), (book, n, allergen) => {
        const { id } = book.ingredients[n % book.ingredients.length]!;
        const changed = withAllergen(book, id, allergen);
        expect(wrongCell(changed, id, allergen, quick(changed).allergens)).toBeUndefined();
      }),
      runs,
    );
  });

  test("taken out everywhere it is gone from every plate", () => {
    fc.assert(
      fc.property(guestBooks, fc.constantFrom(...ALLERGENS), (book, allergen) => {
        const changed = structuredClone(book);
        for (const { allergens } of changed.ingredients) {
          const not = (one: Allergen) => one !== allergen && !(allergen === "gluten" && one === "wheat");
          allergens.contains = allergens.contains.filter(not);
          allergens.mayContain = allergens.mayContain.filter(not);
          allergens.status = "known";
        }
        for (const cell of quick(changed).allergens)
          if (cell.allergen === allergen) expect(cell.state).toBe("free");
      }),
      runs,
    );
  });

  test("a closure that stops short is caught by the same look", () => {
    /** Sees a preparation's own ingredients only. */
    class Shallow extends Contents {
      readonly #docs;
      constructor(docs: ConstructorParameters<typeof Contents>[0]) {
        super(docs);
        this.#docs = docs;
      }
      override ingredientsOf(eaten: Eaten): ReadonlySet<string> {
        if (eaten.ingredient !== undefined) return new Set([eaten.ingredient]);
        const { lines } = this.#docs.preparations.get(eaten.preparation!)!;
        return new Set(lines.flatMap(({ item }) => ("ingredient" in item ? [item.ingredient] : [])));
      }
    }
    let caught = 0;
    let rightCaught = 0;
    for (const book of fc.sample(guestBooks, { numRuns: 60, seed: 7 })) {
      const changed = withAllergen(book, "i-1", "lupin");
      const docs = indexBook(changed);
      const told = (contents: Contents) =>
        wrongCell(changed, "i-1", "lupin", allergenMatrix(contents, served(changed)));
      if (told(new Shallow(docs)) !== undefined) caught++;
      if (told(new Contents(docs)) !== undefined) rightCaught++;
    }
    expect(caught).toBeGreaterThan(10);
    expect(rightCaught).toBe(0);
  });
});

describe("R6, S20 every guest at every course", () => {
  const cellOf = (result: Result, dish: string, variant: string, need: Need) =>
    result.allergens.find(
      (cell) =>
        cell.dish === dish &&
        cell.variant === variant &&
        (cell.need === need || `no-${cell.allergen}` === need),
    );

  test("gets a plate free of what it must not have, or is named with what is nearest", () => {
    let fed = 0;
    let unfed = 0;
    fc.assert(
      fc.property(guestBooks, (book) => {
        const result = quick(book);
        expect(result.seating.seats).toHaveLength(book.services[0]!.guests.length);
        for (const { needs, courses } of result.seating.seats)
          for (const { dish, variant, missing, traces } of courses) {
            if (dish === undefined) {
              unfed++;
              expect(missing?.why.length).toBeGreaterThan(8);
              expect(missing?.mend.length).toBeGreaterThan(8);
              continue;
            }
            fed++;
            expect(missing).toBeUndefined();
            for (const need of needs) {
              const cell = cellOf(result, dish, variant!, need)!;
              if (cell.state !== "free") expect(traces.map((trace) => trace.need)).toContain(need);
              expect(["free", "may"]).toContain(cell.state);
            }
          }
      }),
      runs,
    );
    expect(fed).toBeGreaterThan(20);
    expect(unfed).toBeGreaterThan(5);
  });

  test("what is proposed to leave off really makes a plate", () => {
    let mended = 0;
    for (const book of fc.sample(guestBooks, { numRuns: 120, seed: 3 })) {
      const { seats } = quick(book).seating;
      for (const [i, { needs, courses }] of seats.entries()) {
        const mend = courses[0]!.missing?.mend ?? "";
        const found = /^leave (.+) off (D \d+)(?: \((.+)\))? or put/.exec(mend);
        if (!found || found[3] !== undefined) continue;
        const changed = structuredClone(book);
        const dish = changed.dishes.find((one) => one.name === found[2])!;
        const off = found[1]!.split(" and ");
        const nameOf = (id: string | undefined) => changed.preparations.find((one) => one.id === id)!.name;
        const drop = dish.placements
          .filter((one) => off.includes(nameOf(one.preparation)))
          .map((one) => one.n);
        dish.variants.push({ need: needs[0]!, drop, replace: [], add: [] });
        const read = parseBook(JSON.parse(JSON.stringify(changed)));
        if (!read.ok) throw new Error(JSON.stringify(read.problems[0]));
        expect(quick(read.value).seating.seats[i]!.courses[0]!.missing).toBeUndefined();
        mended++;
      }
    }
    expect(mended).toBeGreaterThan(2);
  });
});
