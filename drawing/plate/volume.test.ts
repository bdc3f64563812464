import { describe, expect, it } from "vitest";
import type { Preparation } from "../../core/formula/schema.ts";
import type { Ingredient } from "../../core/pantry/schema.ts";
import { type Placement, PlacementSchema } from "../../core/plating/schema.ts";
import { placementVolume } from "./volume.ts";

const placed = (what: object, amount: Placement["amount"]) =>
  PlacementSchema.parse({ n: 1, ...what, amount, form: "mound", xMm: 0, yMm: 0, gesture: "lay", seconds: 1 });
const laid = {
  preparations: new Map([
    [
      "puree",
      { density: { kgPerL: 1.05 }, yield: { amount: { value: 1, unit: "kg" } } } as unknown as Preparation,
    ],
    ["tart", { yield: { amount: { value: 1.2, unit: "kg" }, pieces: 8 } } as unknown as Preparation],
  ]),
  ingredients: new Map([
    ["pear", { densities: [], pieces: [{ name: "pear", g: 180 }] } as unknown as Ingredient],
  ]),
};

describe("volume of a placement", () => {
  it("D5 mass by the written density", () => {
    expect(placementVolume(placed({ preparation: "puree" }, { value: 42, unit: "g" }), laid)).toBeCloseTo(40);
  });
  it("D5 a volume stays a volume", () => {
    expect(placementVolume(placed({ preparation: "puree" }, { value: 1, unit: "tbsp" }), laid)).toBeCloseTo(
      14.787,
      3,
    );
  });
  it("D5 pieces by their weight: of the yield, or of the ingredient", () => {
    expect(placementVolume(placed({ preparation: "tart" }, { value: 1, unit: "piece" }), laid)).toBe(150);
    expect(placementVolume(placed({ ingredient: "pear" }, { value: 0.5, unit: "piece" }), laid)).toBe(90);
  });
  it("D5 pieces nobody weighed have no volume", () => {
    expect(
      placementVolume(placed({ preparation: "puree" }, { value: 1, unit: "piece" }), laid),
    ).toBeUndefined();
  });
});
