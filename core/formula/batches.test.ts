import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Cell, Ledger } from "../ledger/ledger.ts";
import type { Problem } from "../pantry/refusal.ts";
import { IngredientSchema } from "../pantry/schema.ts";
import { batchCells, batchList } from "./batches.ts";
import { FormulaCells } from "./cells.ts";
import { PreparationSchema } from "./schema.ts";

const leek = IngredientSchema.parse({
  id: "leek",
  name: "leek",
  allergens: { status: "known" },
  origin: ["plant"],
  storage: { state: "cold", days: 7 },
});

interface Policy {
  policy: "even" | "full-then-rest" | "whole-only";
  pieces?: number | undefined;
  mostG?: number | undefined;
  mostPieces?: number | undefined;
}

/** Batches of a preparation that yields 1 kg, for so many grams asked. */
function batches(of: Policy, askedG: number) {
  const g = (value: number) => ({ value, unit: "g" });
  const preparation = PreparationSchema.parse({
    id: "x",
    name: "x",
    yield: { amount: g(1000), pieces: of.pieces },
    lines: [{ id: "leek", item: { ingredient: "leek" }, amount: g(1000), step: "mix" }],
    steps: [{ id: "mix", name: "x", text: "x" }],
    batch: { policy: of.policy, maxAmount: of.mostG && g(of.mostG), maxPieces: of.mostPieces },
  });
  const ledger = new Ledger();
  const larder = { ingredients: new Map([["leek", leek]]), preparations: new Map([["x", preparation]]) };
  const formula = new FormulaCells(ledger, larder, (kind, id) => `/${kind}/${id}`);
  const cells = formula.add(preparation);
  const asked = ledger.give("calc:/asked", "g", askedG);
  const problems: Problem[] = [];
  const made = batchCells(ledger, cells, asked, "calc:/b", problems);
  const read = () => ({
    made: ledger.value(made.madeG),
    list: batchList(ledger, made),
    scales: [made.first, made.rest].map((size) => ledger.value(size.scale)),
  });
  const ask = (next: number) => {
    ledger.change(asked as Cell, next);
    ledger.settle();
    return read();
  };
  return { ...read(), problems, ask };
}
const sizes = (of: Policy, asked: number) =>
  batches(of, asked).list.map((batch) => batch.pieces ?? batch.grams);

const policy: fc.Arbitrary<Policy> = fc.record({
  policy: fc.constantFrom("even" as const, "full-then-rest" as const, "whole-only" as const),
  pieces: fc.option(fc.integer({ min: 1, max: 90 }), { nil: undefined }),
  mostG: fc.option(fc.double({ min: 1100, max: 9000, noNaN: true }), { nil: undefined }),
});
const asked = fc.oneof(fc.constant(0), fc.double({ min: 0.001, max: 90_000, noNaN: true }));

describe("batches", () => {
  test("F5 by hand", () => {
    expect(sizes({ policy: "even", mostG: 2000 }, 5000)).toEqual([5000 / 3, 5000 / 3, 5000 / 3]);
    expect(sizes({ policy: "full-then-rest", mostG: 2000 }, 5000)).toEqual([2000, 2000, 1000]);
    expect(sizes({ policy: "full-then-rest", mostG: 2000 }, 4000)).toEqual([2000, 2000]);
    expect(sizes({ policy: "whole-only", mostG: 2000 }, 5000)).toEqual([2000, 2000, 2000]);
    expect(sizes({ policy: "whole-only" }, 2500)).toEqual([1000, 1000, 1000]);
    expect(sizes({ policy: "even" }, 2500)).toEqual([2500]);
    expect(sizes({ policy: "even", pieces: 10, mostPieces: 8 }, 2950)).toEqual([8, 8, 7, 7]);
    expect(sizes({ policy: "full-then-rest", pieces: 10, mostPieces: 8 }, 2950)).toEqual([8, 8, 8, 6]);
    expect(sizes({ policy: "whole-only", pieces: 10, mostPieces: 8 }, 2950)).toEqual([8, 8, 8, 8]);
    expect(sizes({ policy: "whole-only", pieces: 10 }, 1010)).toEqual([10, 10]);
    expect(sizes({ policy: "even", pieces: 10, mostG: 850 }, 1600)).toEqual([8, 8]);
    expect(sizes({ policy: "even" }, 0)).toEqual([]);
  });

  test("F5 within the limit, adding up to what is made, never less than asked", () => {
    fc.assert(
      fc.property(policy, asked, (of, g) => {
        const { made, list, problems } = batches(of, g);
        expect(problems).toEqual([]);
        const total = list.reduce((all, batch) => all + batch.grams, 0);
        expect(Math.abs(total - made)).toBeLessThan(1e-6 * Math.max(1, made));
        expect(made).toBeGreaterThanOrEqual(g * (1 - 1e-9));
        expect(list.map((batch) => batch.index)).toEqual(list.map((_, i) => i + 1));
        for (const batch of list) {
          expect(batch.grams).toBeGreaterThan(0);
          if (of.mostG) expect(batch.grams).toBeLessThanOrEqual(of.mostG * (1 + 1e-9));
          if (of.pieces) expect(Number.isInteger(batch.pieces)).toBe(true);
        }
        if (of.policy !== "whole-only") {
          const unneeded = of.pieces ? 1000 / of.pieces : 0;
          expect(made).toBeLessThan(g + unneeded + 1e-6 * Math.max(1, g));
        }
      }),
      { seed: 51, numRuns: 500 },
    );
  });

  test("F5 a change of the amount gives what fresh batches give", () => {
    fc.assert(
      fc.property(policy, fc.array(asked, { minLength: 2, maxLength: 8 }), (of, history) => {
        const kept = batches(of, history[0]!);
        for (const g of history.slice(1)) {
          const fresh = batches(of, g);
          expect(kept.ask(g)).toEqual({ made: fresh.made, list: fresh.list, scales: fresh.scales });
        }
      }),
      { seed: 52, numRuns: 200 },
    );
  });

  test("F5 a batch that holds not one piece is refused, so is a limit in pieces without pieces", () => {
    expect(batches({ policy: "even", pieces: 2, mostG: 300 }, 100).problems[0]!.what).toMatch(
      /holds not one piece/,
    );
    expect(batches({ policy: "even", mostG: 0.0001, pieces: 3 }, 100).problems).toHaveLength(1);
    expect(batches({ policy: "even", mostPieces: 3 }, 100).problems[0]!.path).toBe(
      "/preparations/x/batch/maxPieces",
    );
  });
});
