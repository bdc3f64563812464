import { expect, test } from "vitest";
import { presentShare } from "./present.ts";
import { PreparationSchema } from "./schema.ts";

const g = (value: number) => ({ value, unit: "g" });
const step = (id: string, more: object = {}) => ({ id, name: id, text: id, ...more });
const crust = { discard: { factor: 0.5, as: "trim", lines: [{ line: "salt", takenUp: 0.02 }] } };
const made = (steps: object[]) =>
  PreparationSchema.parse({
    ...{ id: "made", name: "Made", yield: { amount: g(500) }, steps },
    lines: ["salt", "fish"].map((id) => ({ id, item: { ingredient: id }, amount: g(500), step: "bake" })),
  });
const shares = (steps: object[]) => {
  const preparation = made(steps);
  return preparation.lines.map((line) => presentShare(preparation, line));
};

test("F8 what is taken away by name is present by what is taken up, of the parts that come there", () => {
  expect(shares([step("bake"), step("open", { from: ["bake"] })])).toEqual([1, 1]);
  expect(shares([step("bake"), step("open", { from: ["bake"], ...crust })])).toEqual([0.02, 1]);
  expect(shares([step("bake", crust)])).toEqual([0.02, 1]);
  const half = { from: [{ step: "bake", share: 0.5 }] };
  const [salt] = shares([step("bake"), step("open", { ...half, ...crust }), step("rest", half)]);
  expect(salt).toBeCloseTo(0.51, 12);
});
