import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type BookInput,
  changed,
  g,
  ingredient,
  kg,
  library,
  meetsOf,
  placement,
  SMALL_BOOK,
  step,
} from "../../tests/small-book.ts";
import { Refusal } from "../pantry/refusal.ts";
import type { Amounts } from "./amounts.ts";
import { balanceResult, batchSheetsResult, needsResult, platesResult } from "./amounts-result.ts";
import { computeAmounts } from "./compute-amounts.ts";

function amountsOf(book: BookInput = SMALL_BOOK, covers?: number): Amounts {
  const docs = library(book);
  return computeAmounts(docs, "small", { covers, meets: meetsOf(docs) });
}
const row = (amounts: Amounts, dish: string, variant: string) =>
  amounts.plates.find((each) => each.dish === dish && each.variant === variant)!;
const made = (amounts: Amounts, id: string) => amounts.preparations.get(id)!;

/** Everything an `Amounts` says as plain values. */
function said(amounts: Amounts, docs = library()) {
  const { covers, plates, preparations, ingredients, warnings } = amounts;
  return {
    ...{ covers, plates, ingredients, warnings },
    preparations: [...preparations].map(([id, each]) => [id, { ...each, steps: [...each.steps] }]),
    results: [
      needsResult(amounts),
      balanceResult(amounts),
      platesResult(amounts),
      batchSheetsResult(amounts, docs),
    ],
  };
}

describe("guests to plates", () => {
  test("A1 by choice, by need, and the rest by shares", () => {
    const amounts = amountsOf();
    expect(
      amounts.plates.map((each) => [each.course, each.dish, each.variant, each.count, each.spare]),
    ).toEqual([
      ["first", "soup", "standard", 37, 1],
      ["first", "soup", "no-tree-nut", 2, 1],
      ["first", "soup", "vegan", 1, 1],
      // 40 − 4 vegetarians − 2 who chose − 1 not fed = 33 by 0.7 and 0.3: 23.1 and 9.9, so 23 and 10.
      ["main", "rib", "standard", 25, 1],
      ["main", "pie", "standard", 14, 1],
    ]);
    expect(row(amounts, "pie", "standard")).toMatchObject({ needs: ["vegetarian"], seats: ["1-4"] });
  });

  test("A1 at any covers every guest of every course is counted once, or named as not fed", () => {
    const amounts = amountsOf();
    fc.assert(
      fc.property(fc.integer({ min: 7, max: 5000 }), (covers) => {
        const now = amounts.update(covers);
        const first = now.plates.filter((each) => each.course === "first");
        const main = now.plates.filter((each) => each.course === "main");
        const count = (rows: typeof first) => rows.reduce((total, each) => total + each.count, 0);
        expect(count(first)).toBe(covers);
        expect(count(main)).toBe(covers - 1);
        expect(main.every((each) => each.notFed.join() === "vegan")).toBe(true);
        expect(first.every((each) => each.notFed.length === 0)).toBe(true);
      }),
      { seed: 61 },
    );
  });

  test("A2 a guest whom nothing meets is named with the mend", () => {
    expect(amountsOf().warnings[0]).toEqual({
      path: "/services/0/guests/2",
      what: 'nothing in the course "main" meets vegan: group "vegan" is not fed',
      mend: "add a variant for vegan to one of: rib, pie",
    });
  });

  test("A2 a choice that cannot be made for the guest is told, and another dish found", () => {
    const book = changed(({ services }) => {
      services[0]!.guests![0]!.choices = [{ course: "main", dish: "rib" }] as never;
    });
    const amounts = amountsOf(book);
    expect(row(amounts, "pie", "standard").needs).toEqual(["vegetarian"]);
    expect(amounts.warnings.map((each) => each.what)).toContain(
      '"rib" cannot be made for vegetarian: group "greens" gets "pie"',
    );
  });

  test("A3 several variants are merged for a guest with several needs, and only as many as it takes", () => {
    const book = changed(({ services }) => {
      services[0]!.guests!.push({
        id: "both",
        count: 1,
        needs: ["no-milk", "no-tree-nut"],
        seat: "9",
      } as never);
    });
    // The nut-free form leaves the butter off; cream is not marked as milk in this book, so one variant is enough.
    expect(row(amountsOf(book), "soup", "no-tree-nut")).toMatchObject({
      count: 3,
      needs: ["no-milk", "no-tree-nut"],
    });

    const merged = changed((all) => {
      const soup = all.dishes[0]!;
      all.ingredients[3]!.allergens = { status: "known", contains: ["milk"] } as never;
      all.preparations.push({
        ...{ id: "soup-water", name: "Water soup", yield: { amount: g(1000) } },
        lines: [{ id: "water", item: { ingredient: "water" }, amount: g(1000), step: "mix" }],
        steps: [step("mix")],
      } as never);
      const bare = [
        { need: "no-tree-nut", drop: [2] },
        { need: "no-milk", replace: [{ n: 1, placement: placement(1, "soup-water", 180) }] },
      ];
      soup.variants = bare as never;
      soup.placements[1] = placement(2, "oats", 8) as never;
      all.preparations.push({
        ...{ id: "oats", name: "Nuts", yield: { amount: g(100) } },
        lines: [{ id: "nuts", item: { ingredient: "hazelnut" }, amount: g(100), step: "mix" }],
        steps: [step("mix")],
      } as never);
      all.services[0]!.guests!.push({
        id: "both",
        count: 1,
        needs: ["no-milk", "no-tree-nut"],
        seat: "9",
      } as never);
      all.services[0]!.guests!.push({ id: "milk", count: 2, needs: ["no-milk"] } as never);
    });
    const amounts = amountsOf(merged);
    const both = row(amounts, "soup", "no-tree-nut+no-milk");
    expect(both).toMatchObject({ count: 1, spare: 1, seats: ["9"] });
    expect(both.placements.map((each) => each.preparation)).toEqual(["soup-water"]);
    expect(row(amounts, "soup", "no-milk").placements.map((each) => each.preparation)).toEqual([
      "soup-water",
      "oats",
    ]);
  });

  test("A4 variants are made for n + 1, dishes as written with the tasting plates, when somebody has them", () => {
    const book = changed(({ services }) => {
      services[0]!.guests = [{ id: "greens", count: 7, needs: ["vegetarian"] }] as never;
      services[0]!.tasting = 3 as never;
    });
    const amounts = amountsOf(book, 7);
    expect(row(amounts, "rib", "standard")).toMatchObject({ count: 0, spare: 0 });
    expect(row(amounts, "pie", "standard")).toMatchObject({ count: 7, spare: 3 });
    expect(made(amounts, "rib")).toBeUndefined();
  });

  test("A5 fewer covers than guests named, or no whole number, is refused with place and mend", () => {
    const amounts = amountsOf();
    for (const [covers, what] of [
      [6, "6 covers are fewer than the 7 guests named"],
      [0, "0 covers"],
      [12.5, "12.5 covers"],
      [1e9, "1000000000 covers"],
    ] as const) {
      expect(() => amounts.update(covers)).toThrow(Refusal);
      try {
        amountsOf(SMALL_BOOK, covers);
      } catch (error) {
        expect((error as Refusal).problems[0]).toMatchObject({ path: "/services/0/covers", what });
      }
    }
    expect(amounts.update(40).plates[0]!.count).toBe(37);
  });

  test("A5 guests without a choice and no option that takes them are refused", () => {
    const docs = library();
    const [first, main] = docs.menus.get("small")!.courses;
    const options = main!.options.map((option) => ({ ...option, share: 0 }));
    const menu = { ...docs.menus.get("small")!, courses: [first!, { ...main!, options }] };
    const shareless = { ...docs, menus: new Map([["small", menu]]) };
    expect(() => computeAmounts(shareless, "small", { meets: meetsOf(docs) })).toThrow(
      /33 guests did not choose at "main"/,
    );
  });

  test("A5 batches without number are refused, and the covers can still be changed after", () => {
    const book = changed(({ preparations }) => {
      preparations[0]!.batch = { maxAmount: g(0.5) };
    });
    expect(() => amountsOf(book)).toThrow(/13472 batches of "stock"; raise the most/);
    const amounts = amountsOf(book, 24);
    expect(() => amounts.update(60)).toThrow(Refusal);
    expect(amounts.update(25).covers).toBe(25);
  });

  test("A5 amounts without bounds are refused in words, singly or grown in a chain", () => {
    const huge = changed(({ preparations }) => {
      preparations[0]!.lines[0]!.amount = { value: 1e9, unit: "kg" };
      preparations[1]!.yield.amount = { value: 1e-9, unit: "g" };
    });
    expect(() => amountsOf(huge)).toThrow(
      /lines\/0\/amount: 1000000000 kg of beef-bones is more than any kitchen holds.*1 more/,
    );
    const chain = changed(({ preparations, dishes }) => {
      for (let i = 0; i < 40; i++)
        preparations.push({
          ...{ id: `p${i}`, name: "x", yield: { amount: g(0.01), tolerance: 1e9 }, steps: [step("mix")] },
          lines: [
            {
              id: "a",
              item: i === 0 ? { ingredient: "flour" } : { preparation: `p${i - 1}` },
              amount: kg(1e5),
              step: "mix",
            },
          ],
        });
      dishes[1]!.placements = [placement(1, "p39", 100)];
    });
    expect(() => amountsOf(chain)).toThrow(/out of all bounds/);
  });

  test("A5 a service, menu or kitchen that is not there is refused, not thrown as a fault", () => {
    const docs = library();
    const meets = meetsOf(docs);
    expect(() => computeAmounts(docs, "gala", { meets })).toThrow(/no service "gala"; name one of: small/);
    expect(() => computeAmounts(docs, "small", { meets, kitchen: "moon" })).toThrow(/no kitchen "moon"/);
  });
});

describe("plates to preparations", () => {
  test("A6 by hand: overage once, nearest the plate; parts follow what is made", () => {
    const amounts = amountsOf();
    // 26 ribs on plates + 3 % = 26.78, so 27 pieces of 200 g, in two batches of at most 20.
    expect(made(amounts, "rib")).toMatchObject({
      pieces: 27,
      grams: 5400,
      batches: [
        { index: 1, grams: 2800, pieces: 14, share: 14 / 27 },
        { index: 2, grams: 2600, pieces: 13, share: 13 / 27 },
      ],
    });
    expect(made(amounts, "jus").grams).toBeCloseTo(26 * 40 * 1.1, 9);
    // Stock: 4 kg a kilogram of jus and 2 kg for 5 kg of rib; no overage of its own.
    expect(made(amounts, "stock").grams).toBeCloseTo(1144 * 4 + (2 * 5400) / 5, 9);
    // Pies are baked in whole moulds of 8: 15 plates, 16 pieces.
    expect(made(amounts, "pie")).toMatchObject({ pieces: 16, grams: 4400, factor: 2 });
    expect(made(amounts, "dough").grams).toBeCloseTo(1800, 9);
    const rib = amounts.ingredients.find((each) => each.ingredient === "short-rib")!;
    expect([rib.cut, rib.epG, rib.apG]).toEqual(["trimmed", 6480, 8640]);
  });

  test("A6 a preparation on the plate and in another takes overage on the plate's part alone", () => {
    const book = changed(({ dishes, preparations }) => {
      dishes[1]!.placements.push(placement(3, "stock", 50) as never);
      Object.assign(preparations[0]!, { overage: 0.2 });
    });
    const stock = made(amountsOf(book), "stock");
    expect(stock.overageG).toBeCloseTo(26 * 50 * 0.2, 9);
    expect(stock.askedG).toBeCloseTo(26 * 50 * 1.2 + 1144 * 4 + 2160, 9);
  });

  test("A7 stock that is good until the service is taken off, other stock is not", () => {
    const book = changed(({ services }) => {
      services[0]!.stock!.push(
        { item: { preparation: "stock" }, amount: { value: 2, unit: "kg" }, useBy: "2027-01-30" } as never,
        { item: { preparation: "jus" }, amount: { value: 2, unit: "kg" }, useBy: "2027-01-29" } as never,
        { item: { preparation: "dough" }, amount: { value: 9, unit: "kg" }, useBy: "2027-03-01" } as never,
      );
    });
    const amounts = amountsOf(book);
    expect(made(amounts, "stock")).toMatchObject({ stockG: 2000 });
    expect(made(amounts, "stock").grams).toBeCloseTo(1144 * 4 + 2160 - 2000, 9);
    expect(made(amounts, "jus").stockG).toBe(0);
    expect(made(amounts, "dough")).toMatchObject({ grams: 0, batches: [] });
    expect(amounts.ingredients.find((each) => each.ingredient === "flour")!.apG).toBe(0);
  });

  test("A8 the mass of the whole service closes for each preparation, and losses are named", () => {
    const amounts = amountsOf();
    for (const each of balanceResult(amounts)) {
      const lost = each.lost.reduce((total, loss) => total + loss.g, 0);
      expect(Math.abs(each.inG + each.waterG - each.outG - lost)).toBeLessThan(0.1);
      expect(each.declaredG).toBeCloseTo(made(amounts, each.preparation).grams, 9);
    }
  });

  test("A8 a yield that the steps miss, and a batch never tried so large, are doubts", () => {
    const book = changed(({ preparations }) => {
      Object.assign(preparations[0]!.yield, { amount: { value: 6.5, unit: "kg" } });
    });
    const warnings = amountsOf(book, 400).warnings.map((each) => [each.path, each.what]);
    expect(warnings).toContainEqual([
      "/preparations/0/yield/amount",
      "the steps make 6032 g, the yield says 6500 g (-7.2 %)",
    ]);
    expect(
      warnings.some(([path, what]) => path === "/preparations/1" && /more than 4 times/.test(what!)),
    ).toBe(true);
  });

  test("A9 after any history of covers everything is what a fresh computation says", () => {
    const docs = library();
    const kept = amountsOf();
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 7, max: 900 }), { minLength: 1, maxLength: 6 }), (history) => {
        let now = kept;
        for (const covers of history) now = kept.update(covers);
        const fresh = computeAmounts(docs, "small", { covers: history.at(-1), meets: meetsOf(docs) });
        expect(said(now)).toEqual(said(fresh));
      }),
      { seed: 62, numRuns: 60 },
    );
  });

  test("A9 an older answer keeps its numbers when the covers change", () => {
    const amounts = amountsOf();
    const before = structuredClone(amounts.plates);
    amounts.update(300);
    expect(amounts.plates).toEqual(before);
    expect(amounts.covers).toBe(40);
  });

  test("A10 a batch sheet weighs what the scales can show and says the error; its lines add to the need", () => {
    const amounts = amountsOf();
    const sheets = batchSheetsResult(amounts, library());
    const ribs = sheets.filter((sheet) => sheet.preparation === "rib");
    expect(ribs.map((sheet) => [sheet.batch, sheet.of, sheet.pieces])).toEqual([
      [1, 2, 14],
      [2, 2, 13],
    ]);
    const meat = ribs.map((sheet) => sheet.lines[0]!);
    expect(meat[0]).toMatchObject({
      name: "short-rib, trimmed",
      weighG: 3360,
      apG: 4480,
      text: "3.36 kg",
    });
    expect(meat.reduce((total, line) => total + line.exactG, 0)).toBeCloseTo(6480, 9);
    for (const sheet of sheets)
      for (const line of sheet.lines) expect(line.weighG - line.exactG).toBeCloseTo(line.errorG, 9);
    const soup = sheets.find((sheet) => sheet.preparation === "soup")!;
    expect(soup.lines.map((line) => line.text)).toEqual([
      "3.875 kg",
      "3.875 kg",
      "969 mL",
      "2 ½ tbsp + 1 ¼ tsp",
    ]);
    expect(sheets.find((sheet) => sheet.preparation === "jus")!.lines[1]).toMatchObject({
      text: "to taste",
      toTaste: true,
    });
  });
});

describe("against the slow obvious way", () => {
  /** A random library of ten preparations, each made of earlier ones, on one dish. */
  const random = fc.record({
    parts: fc.array(
      fc.record({
        takes: fc.array(fc.record({ at: fc.nat(), g: fc.integer({ min: 1, max: 900 }) }), { maxLength: 3 }),
        ingredientG: fc.integer({ min: 1, max: 3000 }),
        overage: fc.constantFrom(0, 0.05, 0.2),
        policy: fc.constantFrom("even" as const, "full-then-rest" as const, "whole-only" as const),
        mostG: fc.option(fc.integer({ min: 500, max: 4000 }), { nil: undefined }),
        pieces: fc.option(fc.integer({ min: 1, max: 20 }), { nil: undefined }),
        plateG: fc.integer({ min: 0, max: 120 }),
      }),
      { minLength: 1, maxLength: 10 },
    ),
    covers: fc.integer({ min: 1, max: 400 }),
  });

  test("A6 what is made is what following each plate down by hand gives", () => {
    fc.assert(
      fc.property(random, ({ parts, covers }) => {
        const preparations = parts.map((part, i) => ({
          ...{ id: `p${i}`, name: `p${i}`, overage: part.overage },
          yield: { amount: g(1000), tolerance: 1e9, ...(part.pieces ? { pieces: part.pieces } : {}) },
          lines: [
            { id: "own", item: { ingredient: "leek" }, amount: g(part.ingredientG), step: "mix" },
            ...(i === 0 ? [] : part.takes).map((take, k) => ({
              ...{
                id: `l${k}`,
                item: { preparation: `p${take.at % Math.max(1, i)}` },
                amount: g(take.g),
                step: "mix",
              },
            })),
          ],
          steps: [step("mix")],
          batch: { policy: part.policy, ...(part.mostG ? { maxAmount: g(Math.max(part.mostG, 1000)) } : {}) },
        }));
        const placements = parts.flatMap((part, i) =>
          part.plateG > 0 ? [placement(i + 1, `p${i}`, part.plateG)] : [],
        );
        if (placements.length === 0) return;
        const book: BookInput = {
          ...structuredClone(SMALL_BOOK),
          ingredients: [ingredient("leek")],
          ...{ preparations, suppliers: [] },
          dishes: [{ ...structuredClone(SMALL_BOOK.dishes[1]!), id: "all", placements } as never],
          menus: [
            {
              id: "small",
              name: "x",
              courses: [{ id: "c", name: "c", afterMin: 0, options: [{ dish: "all", share: 1 }] }],
            },
          ],
          services: [
            { ...structuredClone(SMALL_BOOK.services[0]!), covers, guests: [], stock: [], tasting: 0 },
          ],
          kitchens: [{ ...structuredClone(SMALL_BOOK.kitchens[0]!), suppliers: [] }],
        };
        const amounts = amountsOf(book);

        const asked = parts.map((part) => covers * part.plateG * (1 + part.overage));
        let leek = 0;
        for (let i = parts.length - 1; i >= 0; i--) {
          const part = parts[i]!;
          let grams = asked[i]!;
          const pieceG = part.pieces ? 1000 / part.pieces : undefined;
          if (pieceG) grams = Math.ceil(grams / pieceG - 1e-7) * pieceG;
          if (part.policy === "whole-only") {
            const most = part.mostG ? Math.max(part.mostG, 1000) : 1000;
            const full = pieceG ? Math.floor(most / pieceG + 1e-7) * pieceG : most;
            grams = Math.ceil(grams / full - 1e-7) * full;
          }
          const found = amounts.preparations.get(`p${i}`);
          expect(found?.grams ?? 0).toBeCloseTo(grams, 3);
          if (!found) continue;
          expect(found.batches.reduce((total, batch) => total + batch.grams, 0)).toBeCloseTo(grams, 3);
          expect(found.batches.reduce((total, batch) => total + batch.share, 0)).toBeCloseTo(1, 9);
          leek += (grams / 1000) * part.ingredientG;
          if (i > 0)
            for (const take of part.takes) asked[take.at % i] = asked[take.at % i]! + (grams / 1000) * take.g;
        }
        expect(amounts.ingredients[0]!.epG).toBeCloseTo(leek, 2);
      }),
      { seed: 63, numRuns: 150 },
    );
  });
});
