import { describe, expect, it } from "vitest";
import { DishSchema } from "../plating/schema.ts";
import { placementsOf } from "./placements-of.ts";
import { STANDARD } from "./variants.ts";

const laid = (n: number, preparation: string) => ({
  n,
  preparation,
  amount: { value: 10, unit: "g" },
  form: "mound",
  xMm: 0,
  yMm: 0,
  gesture: "spoon it",
  seconds: 4,
});
const dish = DishSchema.parse({
  id: "soup",
  name: "Soup",
  description: "A soup.",
  plate: { outline: "bowl", widthMm: 230, depthMm: 230, wellMm: 160 },
  placements: [laid(2, "crumb"), laid(1, "soup")],
  variants: [
    { need: "vegan", replace: [{ n: 1, placement: laid(1, "soup-vegan") }] },
    { need: "coeliac", drop: [2], add: [laid(3, "seeds")] },
  ],
  windowMin: 20,
});
const names = (variant: string) => placementsOf(dish, variant).map((p) => `${p.n} ${p.preparation}`);

describe("placements of a plate", () => {
  it("are the dish's own for everyone else, in order of placing", () => {
    expect(names(STANDARD)).toEqual(["1 soup", "2 crumb"]);
  });
  it("tell a second variant for the same need apart, and say which of two wins", () => {
    const more = DishSchema.parse({
      ...dish,
      variants: [...dish.variants, { need: "vegan", replace: [{ n: 1, placement: laid(1, "broth") }] }],
    });
    const laidFor = (variant: string) => placementsOf(more, variant).map((p) => p.preparation);
    expect(laidFor("vegan")).toEqual(["soup-vegan", "crumb"]);
    expect(laidFor("vegan-2")).toEqual(["broth", "crumb"]);
    expect(laidFor("vegan+vegan-2")).toEqual(["broth", "crumb"]);
    expect(laidFor("vegan-2+vegan")).toEqual(["soup-vegan", "crumb"]);
  });
  it("follow one variant, or several joined", () => {
    expect(names("vegan")).toEqual(["1 soup-vegan", "2 crumb"]);
    expect(names("vegan+coeliac")).toEqual(["1 soup-vegan", "3 seeds"]);
  });
});
