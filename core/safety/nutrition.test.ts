import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type BookInput,
  changed,
  g,
  ingredient,
  library,
  meetsOf,
  placement,
  step,
} from "../../tests/small-book.ts";
import { Tracer } from "../ledger/tracer.ts";
import { computeAmounts } from "../production/compute-amounts.ts";
import { Contents } from "./contents.ts";
import { Foods } from "./foods.ts";
import { nutritionLabels } from "./nutrition-labels.ts";
import type { LabelNutrient } from "./nutrition-types.ts";

const source = { doc: "invented for this test", kind: "invented" } as const;
type Input = NonNullable<BookInput["preparations"]>[number];
type Ingredient = NonNullable<BookInput["ingredients"]>[number];

/** Round figures, so that a sum can be followed by eye: 100 g of broth base, lard, wine, barley meal. */
const base: Ingredient["composition"] = {
  ...{ water: 50, protein: 10, fat: 10, saturated: 4, trans: 0, carbohydrate: 20, sugars: 5, addedSugars: 0 },
  ...{
    fibre: 3,
    salt: 2,
    cholesterolMg: 80,
    vitaminDUg: 1,
    calciumMg: 100,
    ironMg: 2,
    potassiumMg: 300,
    source,
  },
};
const FOODS: Ingredient[] = [
  ingredient("base", { origin: ["meat"], composition: base }),
  ingredient("wine", {
    origin: ["alcohol"],
    composition: { ...base, fat: 0, alcohol: 10, source },
  }),
  ingredient("crust", {
    origin: ["mineral"],
    composition: {
      ...{
        water: 0,
        protein: 0,
        fat: 0,
        saturated: 0,
        trans: 0,
        carbohydrate: 0,
        sugars: 0,
        fibre: 0,
        salt: 100,
      },
      ...{ cholesterolMg: 0, vitaminDUg: 0, calciumMg: 0, ironMg: 0, potassiumMg: 0, source },
    },
  }),
  ingredient("oil", {
    composition: {
      ...{
        water: 0,
        protein: 0,
        fat: 100,
        saturated: 10,
        trans: 0,
        carbohydrate: 0,
        sugars: 0,
        fibre: 0,
        salt: 0,
      },
      ...{ cholesterolMg: 0, vitaminDUg: 0, calciumMg: 0, ironMg: 0, potassiumMg: 0, source },
    },
  }),
  ingredient("unrecorded", { allergens: { status: "unknown" } }),
];

/** A plate of 100 g of one preparation. */
function plate(steps: Input["steps"], lines: Input["lines"], yieldG: number, more: Partial<Input> = {}) {
  const book = changed((all) => {
    all.ingredients.push(...FOODS);
    all.preparations = [{ id: "made", name: "Made", yield: { amount: g(yieldG) }, lines, steps, ...more }];
    all.dishes = [{ ...all.dishes[0]!, placements: [placement(1, "made", 100)], variants: [] }];
    all.menus[0]!.courses = [
      { id: "first", name: "First", afterMin: 0, options: [{ dish: all.dishes[0]!.id, share: 1 }] },
    ];
    all.services[0]!.guests = [];
    all.services[0]!.stock = [];
  });
  return labelsOf(book);
}

function labelsOf(book: BookInput) {
  const docs = library(book);
  const amounts = computeAmounts(docs, "small", { meets: meetsOf(docs) });
  const made = nutritionLabels(docs, amounts, new Contents(docs), new Foods(docs), docs.pointer.bind(docs));
  const label = made.labels[0]!;
  const of = (nutrient: LabelNutrient) => label.nutrients.find((each) => each.nutrient === nutrient)!;
  const tracer = new Tracer(amounts.ledger);
  made.trace(tracer);
  return { labels: made.labels, label, of, nodes: tracer.nodes() };
}

const line = (id: string, grams: number, at = "one"): Input["lines"][number] => ({
  ...{ id, item: { ingredient: id }, amount: g(grams), step: at },
});

describe("N1 nutrients through steps", () => {
  test("N1 water that evaporates takes nothing: all is denser", () => {
    const { of } = plate(
      [step("one", { change: { factor: 0.5, as: "evaporated" } })],
      [line("base", 1000)],
      500,
    );
    expect(of("protein").perPortion).toBeCloseTo(20, 9);
    expect(of("fat").perPortion).toBeCloseTo(20, 9);
    expect(of("salt").perPortion).toBeCloseTo(4, 9);
  });

  test("N1 what is drained takes what is dissolved in proportion; solids stay", () => {
    const { of } = plate(
      [step("one", { change: { factor: 0.8, as: "drained" } })],
      [line("base", 1000)],
      800,
    );
    expect(of("salt").perPortion).toBeCloseTo(2, 9);
    expect(of("sugars").perPortion).toBeCloseTo(5, 9);
    expect(of("potassiumMg").perPortion).toBeCloseTo(300, 9);
    expect(of("protein").perPortion).toBeCloseTo(12.5, 9);
    // 15 g of starch and fibre stay in 800 g, 5 g of sugars go with the liquid.
    expect(of("carbohydrate").perPortion).toBeCloseTo(15 / 0.8 + 5, 9);
  });

  test("N1 fat taken off is fat, with what is in it; more than there is takes all of it", () => {
    const off = (factor: number) =>
      plate([step("one", { discard: { factor, as: "fat" } })], [line("base", 1000)], 1000 * (1 - factor));
    // 60 of 100 g of fat.
    const some = off(0.06);
    expect(some.of("fat").perPortion).toBeCloseTo((100 - 60) / 9.4, 9);
    expect(some.of("saturated").perPortion).toBeCloseTo((40 * 0.4) / 9.4, 9);
    expect(some.of("cholesterolMg").perPortion).toBeCloseTo((800 * 0.4) / 9.4, 9);
    expect(some.of("protein").perPortion).toBeCloseTo(100 / 9.4, 9);
    expect(off(0.2).of("fat").perPortion).toBe(0);
  });

  test("N1 what sticks, is trimmed or strained takes all in proportion", () => {
    for (const as of ["trim", "strain"] as const) {
      const { of } = plate([step("one", { discard: { factor: 0.25, as } })], [line("base", 1000)], 750);
      for (const [nutrient, value] of [
        ["protein", 10],
        ["fat", 10],
        ["salt", 2],
      ] as const)
        expect(of(nutrient).perPortion).toBeCloseTo(value, 9);
    }
  });

  test("N5 a crust that is knocked off goes as what it is, but for the share taken up; the rest in proportion", () => {
    // 1000 g of base lose 200 g of water on 500 g of salt; 60 % of the 1300 g go: 490 g of salt and 290 g of base.
    const steps = [
      step("one", { change: { factor: 1300 / 1500, as: "evaporated" } }),
      step("two", {
        from: ["one"],
        discard: { factor: 0.6, as: "trim", lines: [{ line: "crust", takenUp: 0.02 }] },
      }),
    ];
    const { of } = plate(steps, [line("base", 1000), line("crust", 500)], 520);
    // 510 of 800 g of base stay, with 20 g of salt of its own at first; 10 g of the crust.
    const stays = 510 / 800;
    expect(of("salt").per100).toBeCloseTo((20 * stays + 10) / 5.2, 9);
    expect(of("protein").per100).toBeCloseTo((100 * stays) / 5.2, 9);
    expect(of("fat").per100).toBeCloseTo((100 * stays) / 5.2, 9);
  });

  test("N5 what is named is followed to where it is taken away: a part of it elsewhere, some of it stuck before", () => {
    // Half of 1000 g of base and 100 g of salt stays; of the other half a tenth sticks (495 g), then 95 g go: 45 g salt.
    const steps = [
      step("one"),
      step("two", {
        from: [{ step: "one", share: 0.5 }],
        change: { factor: 0.9, as: "stuck" },
        discard: { factor: 95 / 495, as: "strain", lines: [{ line: "crust", takenUp: 0 }] },
      }),
    ];
    const { of } = plate(steps, [line("base", 1000), line("crust", 100)], 550 + 400);
    // 450 g of base in the half, 50 g of it go with the salt.
    expect(of("protein").per100).toBeCloseTo((50 + 40) / 9.5, 9);
    expect(of("salt").per100).toBeCloseTo((10 + 8 + 50) / 9.5, 9);
  });

  test("N5 herbs blanched alone are lighter when they are strained off: the oil they coloured is nearly all oil", () => {
    // 200 g of herbs to 150 g; with 400 g of oil 550 g; 160 g go: 147 g of herbs (2 % stay) and 13 g of oil.
    const steps = [
      step("one", { change: { factor: 0.75, as: "drained" } }),
      step("two", {
        from: ["one"],
        discard: { factor: 160 / 550, as: "strain", lines: [{ line: "base", takenUp: 0.02 }] },
      }),
    ];
    const { of } = plate(steps, [line("base", 200), line("oil", 400, "two")], 390);
    expect(of("fat").per100).toBeCloseTo((387 + 20 * 0.02) / 3.9, 9);
    expect(of("protein").per100).toBeCloseTo((20 * 0.02) / 3.9, 9);
  });

  test("N5 a cure rinsed off: its salt goes, what is dissolved in the rest goes only beyond it, solids stay", () => {
    const discard = {
      factor: 150 / 1100,
      as: "rinse" as const,
      lines: [{ line: "crust", takenUp: 0.1 }],
    };
    const { of } = plate([step("one", { discard })], [line("base", 1000), line("crust", 100)], 950);
    // 90 g of the crust and 60 g of 1000 g of base.
    expect(of("salt").per100).toBeCloseTo((20 * 0.94 + 10) / 9.5, 9);
    expect(of("protein").per100).toBeCloseTo(100 / 9.5, 9);
  });

  test("N5 named lines that weigh more than is taken away leave nothing more to be taken of the rest", () => {
    const discard = { factor: 0.1, as: "trim" as const, lines: [{ line: "crust", takenUp: 0 }] };
    const { of } = plate([step("one", { discard })], [line("base", 1000), line("crust", 500)], 1350);
    expect(of("salt").per100).toBeCloseTo(20 / 13.5, 9);
    expect(of("protein").per100).toBeCloseTo(100 / 13.5, 9);
  });

  test("N1 a step taken in part passes on its part, and keeps the rest for the yield", () => {
    const steps = [
      step("one"),
      step("two", { from: [{ step: "one", share: 0.4 }], change: { factor: 0.5 } }),
    ];
    const { of } = plate(steps, [line("base", 1000)], 800);
    expect(of("protein").perPortion).toBeCloseTo(100 / 8, 9);
  });

  test("N1 alcohol is what the USDA table leaves: 25 % after an hour of simmering", () => {
    const simmer = step("one", {
      passive: { min: 60 },
      uses: [{ kind: "burner", during: "passive", space: { value: 1, unit: "burner" } }],
    });
    expect(plate([simmer], [line("wine", 1000)], 1000).of("alcohol").perPortion).toBeCloseTo(2.5, 9);
    expect(plate([step("one")], [line("wine", 1000)], 1000).of("alcohol").perPortion).toBeCloseTo(10, 9);
  });

  test("N5 S1 what is taken away by name is still an allergen of the food, and of its list", () => {
    const discard = { factor: 0.5, as: "trim" as const, lines: [{ line: "flour", takenUp: 0 }] };
    const { label, of } = plate([step("one", { discard })], [line("base", 500), line("flour", 500)], 500);
    expect(label.contains).toContain("wheat");
    expect(label.ingredients).toContain("WHEAT");
    expect(of("protein").per100).toBeCloseTo(10, 9);
  });

  test("N5 whatever is named and wherever it is taken away, no more leaves than came in, and each way is traced", () => {
    const part = fc.record({
      factor: fc.double({ min: 0.3, max: 0.99, noNaN: true }),
      as: fc.constantFrom("evaporated", "stuck", "drained", "rendered"),
      off: fc.double({ min: 0.01, max: 0.5, noNaN: true }),
      how: fc.constantFrom("trim", "strain", "rinse"),
      takenUp: fc.option(fc.double({ min: 0, max: 1, noNaN: true }), { nil: undefined }),
    });
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 4 }), (parts) => {
        let mass = 1300;
        const steps = parts.map(({ factor, as, off, how, takenUp }, i) => {
          mass *= factor * (1 - off);
          const lines = takenUp === undefined ? {} : { lines: [{ line: "crust", takenUp }] };
          return step(`s${i}`, {
            ...(i > 0 ? { from: [`s${i - 1}`] } : {}),
            change: { factor, as },
            discard: { factor: off, as: how, ...lines },
          });
        });
        const { of, nodes } = plate(steps, [line("base", 1000, "s0"), line("crust", 300, "s0")], mass);
        const most = parts.reduce((left, { takenUp }) => left * (takenUp ?? 1), 300) + 20;
        expect((of("salt").perPortion! * mass) / 100).toBeLessThanOrEqual(most + 1e-6);
        expect((of("protein").perPortion! * mass) / 100).toBeLessThanOrEqual(100 + 1e-6);
        for (const node of Object.values(nodes)) {
          expect(node.value).toBeGreaterThanOrEqual(0);
          for (const input of node.inputs)
            expect(nodes[input] !== undefined || input.startsWith("book:"), input).toBe(true);
        }
      }),
      { seed: 137, numRuns: 30 },
    );
  });

  test("N1 a finished preparation's own figures go before its formula's", () => {
    const composition = { ...base, protein: 33, source };
    expect(plate([step("one")], [line("base", 1000)], 1000, { composition }).of("protein").perPortion).toBe(
      33,
    );
  });

  test("N1 nothing is made: whatever the steps lose, no more leaves than came in", () => {
    const losses = fc.constantFrom("evaporated", "stuck", "drained", "rendered");
    const discards = fc.constantFrom("trim", "strain", "fat", "rinse");
    const part = fc.record({
      factor: fc.double({ min: 0.3, max: 0.99, noNaN: true }),
      as: losses,
      off: fc.double({ min: 0.01, max: 0.5, noNaN: true }),
      how: discards,
    });
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 4 }), (parts) => {
        let mass = 1000;
        const steps = parts.map(({ factor, as, off, how }, i) => {
          mass *= factor * (1 - off);
          return step(`s${i}`, {
            ...(i > 0 ? { from: [`s${i - 1}`] } : {}),
            change: { factor, as },
            discard: { factor: off, as: how },
          });
        });
        const { of } = plate(steps, [line("base", 1000, "s0")], mass);
        for (const [nutrient, perHundred] of [
          ["protein", 10],
          ["fat", 10],
          ["carbohydrate", 20],
          ["salt", 2],
        ] as const) {
          const left = (of(nutrient).perPortion! * mass) / 100;
          expect(left).toBeGreaterThanOrEqual(0);
          expect(left).toBeLessThanOrEqual(perHundred * 10 + 1e-6);
        }
      }),
      { seed: 131, numRuns: 30 },
    );
  });
});

describe("N2 what is not known", () => {
  test("N2 an ingredient nobody has recorded makes everything unknown, by its share of the mass", () => {
    const { label, of } = plate([step("one")], [line("base", 750), line("unrecorded", 250)], 1000);
    expect(of("protein")).toMatchObject({ known: 0.75, perPortion: 7.5 });
    expect(label.unknown).toContain("energyKcal");
    for (const { shown, nutrient } of [...label.us, ...label.eu.per100, ...label.eu.perPortion!])
      expect(shown, nutrient).toBeUndefined();
    expect(label.ingredients).toContain("unrecorded – ALLERGENS NOT KNOWN");
  });

  test("N2 so little that it could not change what is written leaves the line; else the line says nothing", () => {
    const lines = (grams: number) => [line("base", 1000), line("unrecorded", grams)];
    const shown = (grams: number, nutrient: LabelNutrient) =>
      plate([step("one")], lines(grams), 1000 + grams).label.us.find((each) => each.nutrient === nutrient)!
        .shown;
    expect(shown(1, "protein")).toBe("10 g");
    expect(shown(60, "protein")).toBeUndefined();
    // Nothing bounds a vitamin.
    expect(shown(1, "vitaminDUg")).toBeUndefined();
  });
});

describe("N3 N4 label and list", () => {
  test("N3 energy of each law by its own factors", () => {
    const { of } = plate([step("one")], [line("base", 1000)], 1000);
    expect(of("energyKcal").perPortion).toBeCloseTo(4 * 10 + 4 * 20 + 9 * 10, 9);
    expect(of("energyKcalEu").perPortion).toBeCloseTo(4 * 10 + 4 * 17 + 9 * 10 + 2 * 3, 9);
    expect(of("energyKj").perPortion).toBeCloseTo(17 * 10 + 17 * 17 + 37 * 10 + 8 * 3, 9);
    expect(of("sodiumMg").perPortion).toBeCloseTo(800, 9);
  });

  test("N4 descending by weight, compounds in brackets, allergens in capitals, to taste last", () => {
    const { labels } = labelsOf(changed(() => {}));
    const list = (dish: string) =>
      labels.find((label) => label.dish === dish && label.variant === "standard")!;
    const pie = list("pie").ingredients;
    expect(pie).toBe(
      "Mushroom and barley pie (mushroom; Dough [flour – WHEAT; butter – MILK]; Cooked barley [barley – GLUTEN])",
    );
    expect(list("rib").ingredients).toMatch(/Jus \(Beef stock \[water; beef-bones\]; salt\)$/);
    expect(list("pie").contains).toEqual(["gluten", "wheat", "milk"]);
  });

  test("N4 a crust knocked off stands by what is taken up, not by what is put in", () => {
    const listed = (takenUp: number, named = true) =>
      plate(
        [
          step("one"),
          step("two", {
            from: ["one"],
            discard: { factor: 0.5, as: "trim", ...(named ? { lines: [{ line: "crust", takenUp }] } : {}) },
          }),
        ],
        [line("crust", 1000), line("base", 900), line("oil", 100)],
        1000,
      ).label.ingredients;
    expect(listed(0, false)).toBe("Made (crust; base; oil)");
    expect(listed(0.3)).toBe("Made (base; crust; oil)");
    expect(listed(0)).toBe("Made (base; oil; crust)");
  });

  test("N4 what repeats its parts at every depth is listed by name alone, and a deep chain is read", () => {
    const depth = 400;
    const book = changed((all) => {
      all.ingredients.push(...FOODS);
      all.preparations = Array.from({ length: depth }, (_, i) => ({
        ...{ id: `p${i}`, name: `Part ${i}`, yield: { amount: g(200) }, steps: [step("one")] },
        lines: ["a", "b"].map((id) => ({
          ...{ id, amount: g(100), step: "one" },
          // The same part twice would be one line of the list: two kinds keep both.
          item:
            i === 0
              ? { ingredient: id === "a" ? "base" : "wine" }
              : { preparation: `p${Math.max(0, i - (id === "a" ? 1 : 2))}` },
        })),
      }));
      all.dishes = [{ ...all.dishes[0]!, placements: [placement(1, `p${depth - 1}`, 100)], variants: [] }];
      all.menus[0]!.courses = [
        { id: "first", name: "First", afterMin: 0, options: [{ dish: all.dishes[0]!.id, share: 1 }] },
      ];
      Object.assign(all.services[0]!, { guests: [], stock: [] });
    });
    const { label } = labelsOf(book);
    expect(label.ingredients.length).toBeLessThan(20_000);
    expect(label.ingredients).toContain("base; wine");
    expect(label.unknown).not.toContain("protein");
  });

  test("every number of a label has its node", () => {
    const { labels, nodes } = plate([step("one", { change: { factor: 0.5 } })], [line("base", 1000)], 500);
    labels.forEach((label, i) => {
      label.nutrients.forEach((amount, n) => {
        expect(nodes[`/nutrition/${i}/nutrients/${n}/per100`]!.value).toBe(amount.per100);
      });
    });
  });
});
