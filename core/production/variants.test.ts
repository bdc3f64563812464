import { describe, expect, test } from "vitest";
import { placement } from "../../tests/small-book.ts";
import { type Dish, DishSchema, type Need } from "../plating/schema.ts";
import { formFor, formOf, type Meets, STANDARD } from "./variants.ts";

const dish: Dish = DishSchema.parse({
  id: "soup",
  name: "Soup",
  description: "Soup.",
  plate: { outline: "bowl", widthMm: 220, depthMm: 40, wellMm: 150 },
  placements: [placement(1, "soup", 180), placement(2, "crumb", 8), placement(4, "nuts", 5)],
  variants: [
    { need: "coeliac", replace: [{ n: 2, placement: placement(2, "gf-crumb", 8) }] },
    { need: "no-tree-nut", drop: [4], add: [placement(3, "seeds", 5)] },
    { need: "vegan", drop: [2], replace: [{ n: 1, placement: placement(1, "oat-soup", 180) }] },
    { need: "no-milk", replace: [{ n: 2, placement: placement(2, "oil-crumb", 8) }] },
  ],
  windowMin: 8,
});
/** What each need forbids, invented for this test. */
const FORBIDDEN: Partial<Record<Need, string[]>> = {
  coeliac: ["crumb", "oil-crumb"],
  "no-tree-nut": ["nuts"],
  vegan: ["soup", "crumb", "gf-crumb"],
  "no-milk": ["crumb", "soup"],
  vegetarian: [],
  "no-celery": ["soup", "oat-soup"],
  "no-egg": ["crumb", "gf-crumb"],
};
const meets: Meets = (needs, placements) =>
  needs.every((need) => placements.every((each) => !FORBIDDEN[need]!.includes(each.preparation!)));
const form = (...needs: Need[]) => formFor(dish, "/dishes/0", needs, meets);
const parts = (...needs: Need[]) => form(...needs)?.placed.map((each) => each.placement.preparation);

describe("forms of a dish", () => {
  test("A3 as written when that meets the needs", () => {
    expect(form("vegetarian")!.name).toBe(STANDARD);
  });

  test("A3 one variant changes what it says and nothing else; additions stand by their number", () => {
    expect(parts("coeliac")).toEqual(["soup", "gf-crumb", "nuts"]);
    expect(parts("no-tree-nut")).toEqual(["soup", "crumb", "seeds"]);
    expect(form("no-tree-nut")!.placed.map((each) => each.at)).toEqual([
      "/dishes/0/placements/0",
      "/dishes/0/placements/1",
      "/dishes/0/variants/1/add/0",
    ]);
  });

  test("A3 several needs take several variants, as few as will do", () => {
    expect(form("coeliac", "no-tree-nut")!.name).toBe("coeliac+no-tree-nut");
    expect(parts("coeliac", "no-tree-nut")).toEqual(["soup", "gf-crumb", "seeds"]);
    // The vegan form has no crumb at all: it does for the coeliac too.
    expect(form("coeliac", "vegan")!.name).toBe("vegan");
  });

  test("A3 a variant made for another need serves when it meets this one", () => {
    expect(form("no-egg")!.name).toBe("no-milk");
  });

  test("A3 no form, no plate", () => {
    expect(form("no-celery")).toBeUndefined();
  });

  test("A3 where two variants change one place, leaving off wins, then the later one, and it is said", () => {
    expect(formOf(dish, "/dishes/0", [0, 2])).toMatchObject({ name: "coeliac+vegan", conflicts: [2] });
    expect(formOf(dish, "/dishes/0", [0, 2]).placed.map((each) => each.placement.preparation)).toEqual([
      "oat-soup",
      "nuts",
    ]);
    const later = formOf(dish, "/dishes/0", [0, 3]);
    expect(later.conflicts).toEqual([2]);
    expect(later.placed[1]!.placement.preparation).toBe("oil-crumb");
  });

  test("A3 a form in doubt is taken only when no other will do, whichever of the two serves", () => {
    const milk = { need: "no-milk" as const, drop: [], add: [] };
    const [gluten, both] = [
      dish.variants[0]!,
      { ...milk, replace: [...dish.variants[2]!.replace, ...dish.variants[3]!.replace] },
    ];
    for (const variants of [
      [both, gluten],
      [gluten, both],
    ]) {
      const found = formFor({ ...dish, variants }, "/d", ["coeliac", "no-milk"], meets)!;
      expect(found.conflicts).toEqual([2]);
      expect(found.placed.map((each) => each.placement.preparation)).toEqual([
        "oat-soup",
        "gf-crumb",
        "nuts",
      ]);
    }
    const sure = {
      ...milk,
      need: "vegan" as const,
      replace: [...dish.variants[2]!.replace, ...gluten.replace],
    };
    const found = formFor({ ...dish, variants: [both, gluten, sure] }, "/d", ["coeliac", "no-milk"], meets)!;
    expect(found).toMatchObject({ name: "vegan", conflicts: [] });
  });

  test("A3 one name means one form", () => {
    const twice = { ...dish, variants: [...dish.variants, dish.variants[1]!, dish.variants[1]!] };
    const names = [[0], [1], [4], [5], [0, 4], [0, 3]].map((picked) => formOf(twice, "/d", picked).name);
    expect(names).toEqual([
      ...["coeliac", "no-tree-nut", "no-tree-nut-2", "no-tree-nut-3"],
      ...["coeliac+no-tree-nut-2", "coeliac+no-milk"],
    ]);
    expect(formOf(twice, "/d", [0, 3], "earlier").name).toBe("no-milk+coeliac");
  });

  test("A3 very many variants are no trouble", () => {
    const many = { ...dish, variants: Array.from({ length: 60 }, () => dish.variants[0]!) };
    expect(formFor(many, "/d", ["coeliac", "no-tree-nut", "vegan", "no-milk"], meets)).toBeUndefined();
  });
});
