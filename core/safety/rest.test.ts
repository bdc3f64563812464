import { describe, expect, test } from "vitest";
import { PreparationSchema } from "../formula/schema.ts";
import { IngredientSchema } from "../pantry/schema.ts";
import { DishSchema } from "../plating/schema.ts";
import { Contents } from "./contents.ts";
import { controlPoints, limitInWords } from "./control.ts";
import { Foods } from "./foods.ts";
import { frontOfHouse, withTraces } from "./front-of-house.ts";
import { labelsWithTraces } from "./label-traces.ts";
import { type Label, labels } from "./labels.ts";
import { allergenMatrix, withShared } from "./matrix.ts";
import { inheritedUseBy, ownUseBy } from "./use-by.ts";

const ingredient = (id: string, origin: string[], contains: string[], days: number) =>
  IngredientSchema.parse({
    id,
    name: id,
    allergens: { status: "known", contains },
    origin,
    storage: { state: "cold", days },
  });
const preparation = (id: string, item: object, more: object = {}, step: object = {}) =>
  PreparationSchema.parse({
    id,
    name: id,
    yield: { amount: { value: 1, unit: "kg" } },
    lines: [{ id: "l", item, amount: { value: 1, unit: "kg" }, step: "s" }],
    steps: [{ id: "s", name: "s", text: "S.", ...step }],
    ...more,
  });
const ingredients = [
  ingredient("buttermilk", ["dairy"], ["milk"], 12),
  ingredient("cream", ["dairy"], ["milk"], 2),
  ingredient("char", ["fish", "raw-animal"], ["fish"], 3),
  ingredient("guinea-fowl", ["poultry", "raw-animal"], [], 4),
];
const cold = { life: [{ state: "cold", maxMinutes: 4 * 1440 }] };
const control = {
  control: {
    hazard: "growth",
    limit: { what: "coreC", op: ">=", value: 64 },
    level: "critical",
    monitor: "probe",
    corrective: "heat on",
    record: "log",
  },
};
const preparations = [
  preparation("dressing", { ingredient: "cream" }, cold),
  preparation("sauce", { preparation: "dressing" }, cold),
  preparation("ice", { preparation: "dressing" }, { life: [{ state: "frozen", maxMinutes: 30 * 1440 }] }),
  preparation("breast", { ingredient: "guinea-fowl" }, cold, control),
  preparation("boiled", { ingredient: "buttermilk" }, cold, {
    control: { ...control.control, limit: { what: "coreC", op: ">=", value: 98 } },
  }),
];
const larder = {
  ingredients: new Map(ingredients.map((i) => [i.id, i])),
  preparations: new Map(preparations.map((p) => [p.id, p])),
};
const contents = new Contents(larder);
const dayEnd = (min: number) => (Math.floor(min / 1440) + 1) * 1440;

describe("safety", () => {
  test("S7 the making day is day 1, cold food ends after seven days at most", () => {
    const week = preparation(
      "x",
      { ingredient: "cream" },
      { life: [{ state: "cold", maxMinutes: 30 * 1440 }] },
    );
    expect(ownUseBy(week, "cold", 600, dayEnd)).toBe(7 * 1440);
    expect(ownUseBy(preparations[0]!, "cold", 600, dayEnd)).toBe(4 * 1440);
    const short = preparation("y", { ingredient: "cream" }, { life: [{ state: "hot", maxMinutes: 120 }] });
    expect(ownUseBy(short, "hot", 600, dayEnd)).toBe(720);
  });

  test("S7 the least of all clocks counts, a frozen one pauses its parts", () => {
    const parts = [{ atMin: 500, from: "cream" }];
    expect(inheritedUseBy(900, "sauce", "cold", parts)).toEqual({ atMin: 500, from: "cream" });
    expect(inheritedUseBy(900, "ice", "frozen", parts)).toEqual({ atMin: 900, from: "ice" });
  });

  test("S7 a label inherits through preparations", () => {
    const made = labels(
      larder,
      contents,
      ["dressing", "sauce", "ice"],
      ["dressing", "sauce", "ice"].map((id) => ({
        preparation: id,
        index: 1,
        amount: { value: 1000, unit: "g" },
        madeMin: 1500,
      })),
      { dayEnd, write: (min) => String(min), received: () => 0 },
    );
    expect(made.map((label) => [label.useBy, label.useByFrom])).toEqual([
      ["2880", "cream"],
      ["2880", "cream"],
      [String(1440 * 31), "ice"],
    ]);
    expect(made[1]!.allergens).toEqual(["milk"]);
  });

  test("S8 control points say what altitude and species forbid", () => {
    const points = controlPoints({
      larder,
      foods: new Foods(larder),
      pointer: (kind, id) => `/${kind}/${id}`,
      kitchen: { id: "k", localLimits: [] },
      order: ["breast", "boiled"],
      served: [],
      boilingC: 96.2,
    }).map((found) => found.point);
    expect(points[0]!.note).toContain("variance");
    expect(points.find((point) => point.preparation === "boiled")!.note).toContain("96.2");
    expect(limitInWords({ what: "coreC", op: "<=", value: 5, withinMin: 360 })).toBe(
      "core at most 5 °C within 360 min",
    );
  });

  const dish = DishSchema.parse({
    id: "char-plate",
    name: "Char",
    description: "Salted char.",
    plate: { outline: "round", widthMm: 270, depthMm: 270, wellMm: 180 },
    placements: [
      {
        n: 1,
        ingredient: "char",
        amount: { value: 60, unit: "g" },
        form: "slice",
        xMm: 0,
        yMm: 0,
        gesture: "lay",
        seconds: 5,
      },
      {
        n: 2,
        preparation: "sauce",
        amount: { value: 20, unit: "g" },
        form: "pool",
        xMm: 0,
        yMm: 0,
        gesture: "spoon",
        seconds: 5,
      },
    ],
    windowMin: 20,
  });

  test("S9 the floor hears what can be left off, and of raw food", () => {
    const [line] = frontOfHouse(
      contents,
      [{ course: "first", dish, variant: "", placements: dish.placements, count: 72 }],
      (eaten) => eaten.preparation ?? eaten.ingredient!,
    );
    expect(line!.contains).toEqual(["fish", "milk"]);
    expect(line!.leaveOff).toEqual([{ what: "sauce", frees: ["milk"] }]);
    expect(line!.advisory).toContain("char");
  });

  test("S24 traces by the plan are told of plate, batch, and what is left when a part is left off", () => {
    const exposure = {
      ...{ preparation: "dressing", task: "a", allergens: ["milk", "egg"] as const, place: "kettle" },
      ...{ placeName: "Kettle", how: "after" as const, from: "sauce", fromStep: "s", fromTask: "b", at: "D" },
    };
    const plate = { course: "first", dish, variant: "", placements: dish.placements, count: 72 };
    const lines = frontOfHouse(contents, [plate], (eaten) => eaten.preparation ?? eaten.ingredient!);
    const served = { dish: "char-plate", variant: "", placements: dish.placements };
    const cells = withShared(contents, [served], allergenMatrix(contents, [served]), [exposure]);
    const [line] = withTraces(lines, cells);
    expect(line!.traces).toEqual(["egg"]);
    expect(line!.leaveOff).toEqual([{ what: "sauce", frees: ["milk"], traces: ["milk"] }]);
    const label = (preparation: string) =>
      ({ preparation, allergens: ["milk"], mayContain: [] }) as unknown as Label;
    const told = labelsWithTraces(["sauce", "breast"].map(label), contents, [exposure]);
    expect(told.map(({ traces }) => traces)).toEqual([["egg"], undefined]);
  });

  test("S1 the matrix names the whole way from dish to ingredient", () => {
    const cells = allergenMatrix(contents, [
      { dish: "char-plate", variant: "", placements: dish.placements },
    ]);
    expect(cells.find((cell) => cell.allergen === "milk")).toMatchObject({
      state: "contains",
      paths: [["char-plate", "sauce", "dressing", "cream"]],
    });
    expect(cells.find((cell) => cell.need === "pregnant")!.state).toBe("contains");
    expect(cells.find((cell) => cell.need === "coeliac")!.state).toBe("free");
  });
});
