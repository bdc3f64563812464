import fc from "fast-check";
import { type BookInput, parseBook } from "../core/book/index.ts";
import type { Book } from "../core/book/schema.ts";
import { ALLERGENS, type Allergen } from "../core/pantry/schema.ts";
import { DIETS, type Need } from "../core/plating/schema.ts";
import { g, ingredient, kitchen, placement, step } from "./small-book.ts";

const allergens = fc.uniqueArray(fc.constantFrom<Allergen>(...ALLERGENS), { maxLength: 2 });
const need = fc.constantFrom<Need>(...DIETS, ...ALLERGENS.map((allergen): Need => `no-${allergen}`));

/** A book of random ingredients, preparations nested to any depth, dishes with variants, and guests with needs. */
export const guestBooks: fc.Arbitrary<Book> = fc
  .record({
    ingredients: fc.array(
      fc.record({ contains: allergens, may: fc.boolean(), unknown: fc.boolean(), honey: fc.boolean() }),
      { minLength: 3, maxLength: 7 },
    ),
    preparations: fc.array(
      fc.record({ parts: fc.array(fc.nat(), { minLength: 1, maxLength: 3 }), deep: fc.boolean() }),
      { minLength: 3, maxLength: 9 },
    ),
    dishes: fc.array(
      fc.record({
        on: fc.array(fc.nat(), { minLength: 1, maxLength: 3 }),
        variants: fc.array(fc.record({ need, drop: fc.nat(), instead: fc.nat() }), { maxLength: 3 }),
      }),
      { minLength: 1, maxLength: 3 },
    ),
    guests: fc.array(fc.uniqueArray(need, { minLength: 1, maxLength: 2 }), { minLength: 1, maxLength: 5 }),
  })
  .map((drawn) => {
    const at = (n: number, list: readonly unknown[]) => n % list.length;
    const preparationAt = (n: number) => `p-${at(n, drawn.preparations)}`;
    const input: BookInput = {
      format: "tournant-book",
      version: 1,
      suppliers: [],
      ingredients: drawn.ingredients.map(({ contains, may, unknown, honey }, i) =>
        ingredient(`i-${i}`, {
          // Most are known: else nobody could be fed.
          allergens: {
            status: unknown && i === 0 ? "unknown" : "known",
            contains: may ? [] : contains,
            mayContain: may ? contains : [],
          },
          origin: [honey ? "honey" : "plant"],
        }),
      ),
      preparations: drawn.preparations.map(({ parts, deep }, p) => ({
        id: `p-${p}`,
        name: `P ${p}`,
        yield: { amount: g(1000 * parts.length) },
        lines: parts.map((n, k) => ({
          id: `l-${k}`,
          item:
            p > 0 && (deep || k > 0)
              ? { preparation: `p-${n % p}` }
              : { ingredient: `i-${at(n, drawn.ingredients)}` },
          amount: g(1000),
          step: "mix",
        })),
        steps: [step("mix")],
      })),
      dishes: drawn.dishes.map(({ on, variants }, d) => ({
        ...{ id: `d-${d}`, name: `D ${d}`, description: `D ${d}.`, windowMin: 10 },
        plate: { outline: "round" as const, widthMm: 250, depthMm: 20, wellMm: 180 },
        placements: on.map((n, k) => placement(k + 1, preparationAt(n), 50)),
        variants: variants.map(({ need, drop, instead }) => {
          const n = 1 + at(drop, on);
          return on.length > 1 && drop % 2 === 0
            ? { need, drop: [n] }
            : { need, replace: [{ n, placement: placement(n, preparationAt(instead), 50) }] };
        }),
      })),
      menus: [
        {
          ...{ id: "menu", name: "Menu" },
          courses: [
            {
              ...{ id: "course", name: "Course", afterMin: 0 },
              options: drawn.dishes.map((_, d) => ({ dish: `d-${d}`, share: 1 })),
            },
          ],
        },
      ],
      kitchens: [kitchen({ suppliers: [] })],
      services: [
        {
          ...{ id: "supper", name: "Supper", menu: "menu", kitchen: "fell", at: "2027-01-30T19:30" },
          ...{ horizon: "D-1 06:00", covers: 12, priceAsOf: "2027-01-20" },
          guests: drawn.guests.map((needs, i) => ({ id: `guest-${i}`, count: 1, seat: `1-${i + 1}`, needs })),
        },
      ],
    };
    const read = parseBook(input);
    if (!read.ok) throw new Error(JSON.stringify(read.problems[0]));
    return read.value;
  });
