import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Ledger } from "../ledger/ledger.ts";
import { IngredientSchema } from "../pantry/schema.ts";
import { FormulaCells } from "./cells.ts";
import { PreparationSchema } from "./schema.ts";

const source = { doc: "invented for this test", kind: "invented" } as const;
const ingredient = (id: string, more: object = {}) =>
  IngredientSchema.parse({
    id,
    name: id,
    allergens: { status: "known" },
    origin: ["plant"],
    storage: { state: "cold", days: 7 },
    cuts: [{ id: "peeled", name: "Peeled", trimYield: 0.8, source }],
    ...more,
  });
const ingredients = new Map(["leek", "carrot"].map((id) => [id, ingredient(id)]));
const pointer = (kind: string, id: string) => `/${kind}/${id}`;
const parse = (more: object) => PreparationSchema.parse({ id: "x", name: "x", ...more });
const g = (value: number) => ({ value, unit: "g" });

function cellsOf(preparation: ReturnType<typeof parse>, parts: ReturnType<typeof parse>[] = []) {
  const ledger = new Ledger();
  const preparations = new Map([...parts, preparation].map((each) => [each.id, each]));
  const formula = new FormulaCells(ledger, { ingredients, preparations }, pointer);
  for (const part of parts) formula.add(part);
  const cells = formula.add(preparation);
  return { ledger, cells, problems: formula.problems };
}

const change = fc.oneof(
  fc.constant("none" as const),
  fc.record({ factor: fc.double({ min: 0.05, max: 3, noNaN: true }) }),
  fc.record({
    factor: fc.double({ min: 0.05, max: 0.99, noNaN: true }),
    as: fc.constantFrom("evaporated", "stuck", "drained", "rendered"),
  }),
  fc.record({ addWaterFactor: fc.double({ min: 0.05, max: 3, noNaN: true }) }),
  fc.record({ toFactor: fc.double({ min: 0.05, max: 1, noNaN: true }) }),
);
const discard = fc.option(
  fc.record({
    factor: fc.double({ min: 0.01, max: 1, noNaN: true }),
    as: fc.constantFrom("trim", "strain", "fat", "rinse"),
  }),
  { nil: undefined },
);
/** Steps that take shares of earlier ones, each output used at most once over. */
const formula = fc
  .array(
    fc.record({
      change,
      discard,
      g: fc.double({ min: 0.01, max: 20_000, noNaN: true }),
      takes: fc.array(fc.nat()),
    }),
    {
      minLength: 1,
      maxLength: 8,
    },
  )
  .map((drawn) => {
    const left = drawn.map(() => 1);
    const steps = drawn.map((each, i) => {
      const from = [...new Set(each.takes.map((at) => (i === 0 ? -1 : at % i)))].flatMap((at) => {
        if (at < 0 || left[at]! < 0.3) return [];
        const share = left[at] === 1 && each.g > 5000 ? 1 : 0.3;
        left[at] = left[at]! - share;
        return [share === 1 ? `s${at}` : { step: `s${at}`, share }];
      });
      return { id: `s${i}`, name: "x", text: "x", from, change: each.change, discard: each.discard };
    });
    const lines = drawn.map((each, i) => ({
      id: `l${i}`,
      item: { ingredient: "leek" },
      amount: g(each.g),
      step: `s${i}`,
    }));
    return parse({ yield: { amount: g(1000) }, lines, steps });
  });

describe("mass balance", () => {
  test("F3 closes to 0.1 g in every formula and every step, with each loss named", () => {
    fc.assert(
      fc.property(formula, (preparation) => {
        const { ledger, cells, problems } = cellsOf(preparation);
        expect(problems).toEqual([]);
        const { balance } = cells;
        const value = (cell: Parameters<Ledger["value"]>[0]) => ledger.value(cell);
        const lost = balance.lost.reduce((total, loss) => total + value(loss.g), 0);
        const open = value(balance.inG) + value(balance.water) - value(balance.outG) - lost;
        expect(Math.abs(open)).toBeLessThan(Math.max(0.1, 1e-9 * value(balance.inG)));
        for (const step of balance.steps) {
          const gone = step.lost.reduce((total, loss) => total + value(loss.g), 0);
          expect(gone).toBeCloseTo(value(step.lossG), 6);
          expect(Math.abs(value(step.inG) + value(step.water) - value(step.outG) - gone)).toBeLessThan(0.1);
        }
      }),
      { seed: 41, numRuns: 400 },
    );
  });

  test("F3 by hand: boil with water, drain, reduce to a mass", () => {
    const preparation = parse({
      yield: { amount: g(500) },
      lines: [
        { id: "leek", item: { ingredient: "leek", cut: "peeled" }, amount: g(800), step: "boil" },
        {
          id: "carrot",
          item: { ingredient: "carrot", cut: "peeled" },
          amount: g(250),
          as: "AP",
          step: "boil",
        },
      ],
      steps: [
        { id: "boil", name: "x", text: "x", change: { addWaterFactor: 0.2 } },
        { id: "press", name: "x", text: "x", from: ["boil"], discard: { factor: 0.25, as: "strain" } },
        { id: "reduce", name: "x", text: "x", from: ["press"], change: { toAmount: g(500) } },
      ],
    });
    const { ledger, cells } = cellsOf(preparation);
    const value = (cell: Parameters<Ledger["value"]>[0]) => ledger.value(cell);
    expect(cells.lines.map((line) => [value(line.ep), value(line.ap)])).toEqual([
      [800, 1000],
      [200, 250],
    ]);
    const { balance } = cells;
    expect(value(balance.inG)).toBe(1000);
    expect(value(balance.water)).toBe(200);
    expect(balance.lost.map((loss) => [loss.how, value(loss.g)])).toEqual([
      ["evaporated", 400],
      ["strained", 300],
    ]);
    expect(value(balance.outG)).toBe(500);
  });

  test("F3 a reduction to more than there is, is refused", () => {
    const preparation = parse({
      yield: { amount: g(500) },
      lines: [{ id: "leek", item: { ingredient: "leek" }, amount: g(300), step: "reduce" }],
      steps: [{ id: "reduce", name: "x", text: "x", change: { toAmount: g(500) } }],
    });
    expect(cellsOf(preparation).problems).toEqual([
      {
        path: "/preparations/x/steps/0/change/toAmount",
        what: "a reduction to 500 g of only 300 g",
        mend: "lower toAmount, or add what goes in",
      },
    ]);
  });

  test("F4 what is left of a step taken in part belongs to the yield", () => {
    const preparation = parse({
      yield: { amount: g(1000) },
      lines: [{ id: "leek", item: { ingredient: "leek" }, amount: g(1000), step: "cut" }],
      steps: [
        { id: "cut", name: "x", text: "x" },
        { id: "fry", name: "x", text: "x", from: [{ step: "cut", share: 0.4 }], change: { factor: 0.5 } },
      ],
    });
    const { ledger, cells } = cellsOf(preparation);
    expect(ledger.value(cells.balance.outG)).toBeCloseTo(600 + 200, 9);
  });

  test("F7 a line to taste is counted, not weighed in", () => {
    const preparation = parse({
      yield: { amount: g(1000) },
      lines: [
        { id: "leek", item: { ingredient: "leek" }, amount: g(1000), step: "mix" },
        { id: "carrot", item: { ingredient: "carrot" }, amount: null, toTaste: true, step: "mix" },
      ],
      steps: [{ id: "mix", name: "x", text: "x" }],
    });
    const { ledger, cells } = cellsOf(preparation);
    expect(ledger.value(cells.lines[1]!.ep)).toBe(5);
    expect(ledger.value(cells.balance.inG)).toBe(1000);
  });

  test("F2 a yield in pieces alone cannot be checked by mass and is refused with the mend", () => {
    const preparation = parse({
      yield: { amount: { value: 12, unit: "piece" } },
      lines: [{ id: "leek", item: { ingredient: "leek" }, amount: g(100), step: "mix" }],
      steps: [{ id: "mix", name: "x", text: "x" }],
    });
    expect(cellsOf(preparation).problems[0]).toMatchObject({ path: "/preparations/x/yield/amount" });
  });
});
