import { describe, expect, test } from "vitest";
import { PreparationSchema } from "../formula/schema.ts";
import { IngredientSchema } from "../pantry/schema.ts";
import type { Kitchen } from "../production/schema.ts";
import { type ControlPoint, controlPoints } from "./control.ts";
import { Foods } from "./foods.ts";
import { unknownLocalLimits } from "./local-limits.ts";

const kg = (value: number) => ({ value, unit: "kg" });
const ingredient = (id: string, origin: string[], more: object = {}) =>
  IngredientSchema.parse({
    ...{ id, name: id.replaceAll("-", " "), origin, allergens: { status: "known" } },
    storage: { state: "cold", days: 3 },
    ...more,
  });
const INGREDIENTS = [
  ingredient("chicken-breast", ["poultry", "raw-animal"]),
  ingredient("duck-breast", ["poultry", "raw-animal"]),
  ingredient("beef", ["meat", "raw-animal"]),
  ingredient("minced-beef", ["meat", "raw-animal"]),
  ingredient("shell-egg", ["egg", "raw-egg"]),
  ingredient("char", ["fish", "raw-animal"]),
  ingredient("frozen-tuna", ["fish", "raw-animal"], { storage: { state: "frozen", days: 60 } }),
  ingredient("rice", ["plant"]),
  ingredient("carrot", ["plant"]),
  ingredient("curing-salt", ["mineral"]),
];

const use = (kind: string, more: object = {}) => ({
  ...{ kind, during: "passive", space: { value: 1, unit: "kg" } },
  ...more,
});
const hold = (state: string, maxMin = 60, more: object = {}) => ({ hold: { state, maxMin, ...more } });
const step = (id: string, more: object = {}) => ({ id, name: id, text: `${id}.`, ...more });
const target = (mediumC: number, untilCoreC: number) => ({
  target: { startC: 4, stages: [{ mediumC, coefficient: 100, untilCoreC }] },
});
const written = (limit: object, more: object = {}) => ({
  control: {
    ...{ hazard: "own words", limit, monitor: "own watch", corrective: "own mend", record: "own log" },
    ...more,
  },
});

/** A preparation: what goes in at which step, and its steps. */
const made = (id: string, lines: Record<string, string>, steps: object[], more: object = {}) =>
  PreparationSchema.parse({
    ...{ id, name: id, yield: { amount: kg(1) }, steps },
    lines: Object.entries(lines).map(([item, at]) => ({
      ...{ id: item, amount: kg(1), step: at },
      item: INGREDIENTS.some((one) => one.id === item) ? { ingredient: item } : { preparation: item },
    })),
    ...more,
  });

function pointsOf(
  preparations: ReturnType<typeof made>[],
  more: { localLimits?: Kitchen["localLimits"]; served?: string[]; boilingC?: number } = {},
): ControlPoint[] {
  const larder = {
    ingredients: new Map(INGREDIENTS.map((one) => [one.id, one])),
    preparations: new Map(preparations.map((one) => [one.id, one])),
  };
  return controlPoints({
    larder,
    foods: new Foods(larder),
    pointer: (kind, id) => `/${kind}/${id}`,
    kitchen: { id: "k", localLimits: more.localLimits ?? [] },
    order: preparations.map((one) => one.id),
    served: (more.served ?? []).map((preparation) => ({ preparation })),
    boilingC: more.boilingC ?? 100,
  }).map(({ point }) => point);
}

const of = (points: readonly ControlPoint[], act: ControlPoint["act"]) =>
  points.filter((point) => point.act === act);

describe("S10 what the trade asks of what is cooked", () => {
  test("poultry: 74 °C, and below it the variance, the plan and the species", () => {
    const roast = made("roast", { "chicken-breast": "roast" }, [
      step("roast", { uses: [use("combi", { setC: 160 })], ...hold("hot") }),
    ]);
    const [cook] = of(pointsOf([roast]), "cook");
    expect(cook).toMatchObject({ level: "critical", from: "trade", limit: "core at least 74 °C" });
    const bath = made("bath", { "duck-breast": "bag" }, [
      step("bag", { uses: [use("sealer")], ...hold("cold", 600) }),
      step("cook", { from: ["bag"], uses: [use("bath", { setC: 60 })], ...target(60, 58), ...hold("hot") }),
    ]);
    const low = of(pointsOf([bath]), "cook")[0]!;
    expect(low.level).toBe("critical");
    expect(low.note).toMatch(/variance.*HACCP plan.*No FSIS table names duck breast.*3-502\.12/);
    const packed = of(pointsOf([bath]), "hold-cold")[0]!;
    expect(packed).toMatchObject({ step: "bag", level: "critical" });
    expect(packed.note).toMatch(/3-502\.12/);
  });

  test("minced meat by its name or by the mincer it goes through, egg, and whole meat", () => {
    const fry = (item: string, kind = "griddle") =>
      made("dish", { [item]: "cut" }, [
        step("cut", { uses: [use(kind)] }),
        step("fry", { from: ["cut"], uses: [use("griddle", { setC: 200 })], ...hold("hot") }),
      ]);
    const limit = (...args: Parameters<typeof fry>) => of(pointsOf([fry(...args)]), "cook")[0]!.limit;
    expect(limit("minced-beef")).toBe("core at least 70 °C");
    expect(limit("beef", "mincer")).toBe("core at least 70 °C");
    expect(limit("beef")).toBe("core at least 63 °C for 15 s");
    expect(limit("shell-egg")).toBe("core at least 70 °C");
  });

  test("cooking is asked for once, where no later step heats it", () => {
    const braise = made("braise", { beef: "sear" }, [
      step("sear", { uses: [use("burner")], ...hold("hot") }),
      step("braise", { from: ["sear"], uses: [use("combi", { setC: 140 })], ...hold("hot") }),
    ]);
    expect(of(pointsOf([braise]), "cook").map((point) => point.step)).toEqual(["braise"]);
    const glazed = made("glazed", { braise: "warm" }, [
      step("warm", { uses: [use("combi", { setC: 150 })], ...hold("hot") }),
    ]);
    expect(of(pointsOf([braise, glazed]), "cook").map((point) => point.preparation)).toEqual(["braise"]);
  });

  test("raw fish laid on a plate as it was bought has a point too", () => {
    const larder = { ingredients: new Map(INGREDIENTS.map((one) => [one.id, one])), preparations: new Map() };
    const points = controlPoints({
      ...{ larder, foods: new Foods(larder), pointer: () => "", order: [], boilingC: 100 },
      kitchen: { id: "k", localLimits: [] },
      served: [{ ingredient: "char" }, { ingredient: "carrot" }, { ingredient: "char" }],
    }).map(({ point }) => point);
    expect(points).toHaveLength(1);
    expect(points[0]).toMatchObject({ preparation: "char", step: "", act: "serve-raw", level: "critical" });
  });

  test("raw fish: letter or freezing; neither is said; a point of the book that names them stands", () => {
    const salted = (item: string, more: object = {}) =>
      made("salted", { [item]: "salt" }, [step("salt", { ...hold("cold", 600), ...more })]);
    const raw = (...args: Parameters<typeof salted>) =>
      of(pointsOf([salted(...args)], { served: ["salted"] }), "serve-raw");
    expect(raw("char")[0]).toMatchObject({ level: "critical", preparation: "salted", step: "salt" });
    expect(raw("char")[0]!.note).toMatch(/Neither a letter nor freezing/);
    expect(raw("frozen-tuna")[0]!.note ?? "").not.toMatch(/Neither/);
    const own = written({ what: "coreC", op: "<=", value: 3 }, { record: "the farm's letter" });
    expect(raw("char", own)).toMatchObject([
      { from: "book", record: "the farm's letter", level: "critical" },
    ]);
    expect(of(pointsOf([salted("char")]), "serve-raw")).toEqual([]);
  });

  test("a raw egg to the table is the menu's advisory, no critical point", () => {
    const mousse = made("mousse", { "shell-egg": "beat" }, [step("beat", hold("cold"))]);
    expect(of(pointsOf([mousse], { served: ["mousse"] }), "serve-raw")[0]).toMatchObject({
      level: "practice",
      limit: expect.stringContaining("advisory"),
    });
  });

  const rice = (more: object = {}, chill: object = {}) =>
    made(
      "rice-cooked",
      { rice: "boil" },
      [
        step("boil", { uses: [use("burner")], ...hold("hot") }),
        step("chill", { from: ["boil"], uses: [use("chiller")], ...hold("cold", 2000), ...chill }),
      ],
      more,
    );

  test("cooling in two stages of what was hot, with the remedy that the log names; not what is sour", () => {
    const [cool] = of(pointsOf([rice()]), "cool");
    expect(cool!.limit).toBe(
      "from 57 °C: core at most 21 °C within 120 min; core at most 5 °C within 360 min",
    );
    expect(cool!.parts.map((part) => part.withinMin)).toEqual([120, 360]);
    expect(cool!.corrective).toMatch(/reheat to 74 °C at once.*discard/);
    expect(cool!.record).toMatch(/which remedy/);
    const sour = rice({ specification: [{ what: "pH", most: 4.2, unit: "pH" }] });
    expect(of(pointsOf([sour]), "cool")).toEqual([]);
    const bread = made("bread", { rice: "bake" }, [
      step("bake", { uses: [use("deck", { setC: 240 })], ...hold("ambient", 600) }),
    ]);
    expect(of(pointsOf([bread]), "cool")).toEqual([]);
  });

  test("the book's words win; two stages it leaves out are said", () => {
    const own = written({ what: "coreC", op: "<=", value: 4 }, { level: "critical" });
    const [cool] = of(pointsOf([rice({}, own)]), "cool");
    expect(cool).toMatchObject({ from: "book", hazard: "own words", limit: "core at most 4 °C" });
    expect(cool!.note).toMatch(/The trade asks: from 57 °C/);
    const upper = written({ what: "coreC", op: "<=", value: 78 });
    expect(of(pointsOf([rice({}, upper)]), "cool").map((point) => point.from)).toEqual(["trade"]);
  });

  test("reheating for hot holding within two hours, of what is cooked and comes cold, once", () => {
    const fried = made("fried", { "rice-cooked": "fry" }, [
      step("fry", { uses: [use("burner")], ...hold("hot") }),
      step("season", { from: ["fry"], uses: [use("burner")], ...hold("hot", 90) }),
    ]);
    const points = pointsOf([rice(), fried]);
    expect(of(points, "reheat").map(({ step: at, limit }) => [at, limit])).toEqual([
      ["fry", "core at least 74 °C for 15 s within 120 min"],
    ]);
    const cold = made("salad", { "rice-cooked": "dress" }, [step("dress", hold("cold"))]);
    expect(of(pointsOf([rice(), cold]), "reheat")).toEqual([]);
  });

  test("hot and cold holding are one point each for what is kept together", () => {
    const soup = (id: string, minutes: number) =>
      made(id, { carrot: "boil" }, [step("boil", { uses: [use("kettle")], ...hold("hot", minutes) })]);
    const held = of(pointsOf([soup("soup", 60), soup("broth", 120), rice()]), "hold-hot");
    expect(held).toHaveLength(1);
    expect(held[0]).toMatchObject({ preparation: "broth", limit: "core at least 57 °C" });
    expect(held[0]!.note).toContain("soup");
  });

  test("nitrite asks for a plan of its own", () => {
    const ham = made("ham", { beef: "cure", "curing-salt": "cure" }, [step("cure", hold("cold", 9000))]);
    expect(of(pointsOf([ham]), "cure")[0]).toMatchObject({ level: "critical" });
  });

  test("none says safe, each says hazard, limit, watching, remedy and record", () => {
    const all = pointsOf([rice(), made("tartare", { beef: "cut" }, [step("cut", hold("cold"))])], {
      served: ["tartare"],
    });
    expect(all.map((point) => point.act).sort()).toEqual(["cool", "hold-cold", "serve-raw"]);
    for (const point of all)
      for (const text of [point.hazard, point.limit, point.monitor, point.corrective, point.record])
        expect(text.length).toBeGreaterThan(3);
    expect(JSON.stringify(all)).not.toMatch(/\bsafe\b/i);
  });
});

describe("S11 four to seven critical points", () => {
  const hot = (id: string, control: object = {}) =>
    made(id, { "chicken-breast": "roast" }, [
      step("roast", { uses: [use("combi", { setC: 160 })], ...hold("hot"), ...control }),
    ]);
  const levels = (points: readonly ControlPoint[]) =>
    points.filter((point) => point.level === "critical").map((point) => point.preparation);

  test("seven at most; what the law asks a plan for is among them", () => {
    const bath = made("bath", { "duck-breast": "cook" }, [
      step("cook", { uses: [use("bath", { setC: 60 })], ...target(60, 58), ...hold("hot") }),
    ]);
    const points = pointsOf([...Array.from({ length: 12 }, (_, i) => hot(`bird-${i}`)), bath]);
    expect(levels(points)).toHaveLength(7);
    expect(levels(points)).toContain("bath");
  });

  test("what the book calls practice stays so where four are critical, and is raised where fewer are", () => {
    const own = written({ what: "coreC", op: ">=", value: 74 });
    const few = pointsOf([hot("a", own), hot("b", own)]);
    expect(levels(few.filter((point) => point.from === "book"))).toEqual(["a", "b"]);
    const critical = written({ what: "coreC", op: ">=", value: 74 }, { level: "critical" });
    const many = pointsOf([...["a", "b", "c", "d"].map((id) => hot(id, critical)), hot("e", own)]);
    expect(levels(many.filter((point) => point.from === "book"))).toEqual(["a", "b", "c", "d"]);
  });

  test("an eighth of the book is said to stand with the checks", () => {
    const critical = written({ what: "coreC", op: ">=", value: 74 }, { level: "critical" });
    const points = pointsOf(Array.from({ length: 8 }, (_, i) => hot(`bird-${i}`, critical)));
    expect(levels(points)).toHaveLength(7);
    expect(points.filter((point) => /at most seven/.test(point.note ?? ""))).toHaveLength(1);
  });
});

describe("S12 local limits", () => {
  const bird = made("bird", { "chicken-breast": "roast" }, [
    step("roast", { uses: [use("combi", { setC: 160 })], ...hold("hot") }),
  ]);
  const local = (what: string, value: number) => ({ what, value, unit: "°C", doc: "City code 4" });

  test("a stricter one is taken, a laxer one is not, and both are said", () => {
    const strict = pointsOf([bird], { localLimits: [local("poultryCoreC", 77), local("hotHoldC", 63)] });
    expect(of(strict, "cook")[0]).toMatchObject({ limit: "core at least 77 °C" });
    expect(of(strict, "cook")[0]!.note).toContain("City code 4");
    expect(of(strict, "hold-hot")[0]!.limit).toBe("core at least 63 °C");
    const lax = of(pointsOf([bird], { localLimits: [local("poultryCoreC", 70)] }), "cook")[0]!;
    expect(lax.limit).toBe("core at least 74 °C");
    expect(lax.note).toMatch(/laxer and not taken/);
  });

  test("one whose name is not known is told, with the names that are", () => {
    const kitchen = { localLimits: [local("birdsC", 77)] } as unknown as Kitchen;
    expect(unknownLocalLimits(kitchen, "/kitchens/0")).toMatchObject([
      { path: "/kitchens/0/localLimits/0/what", mend: expect.stringContaining("poultryCoreC") },
    ]);
  });
});
