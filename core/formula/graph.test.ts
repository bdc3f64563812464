import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Refusal } from "../pantry/refusal.ts";
import { IngredientSchema } from "../pantry/schema.ts";
import { orderOfMaking, orderOfSteps } from "./graph.ts";
import { type Preparation, PreparationSchema } from "./schema.ts";

const salt = IngredientSchema.parse({
  id: "salt",
  name: "Salt",
  allergens: { status: "known" },
  origin: ["mineral"],
  storage: { state: "ambient", days: 700 },
});

function prep(id: string, parts: readonly string[], steps: object[] = [{ id: "mix" }]): Preparation {
  const items = parts.length === 0 ? [{ ingredient: "salt" }] : parts.map((preparation) => ({ preparation }));
  return PreparationSchema.parse({
    id,
    name: id,
    yield: { amount: { value: 100, unit: "g" } },
    lines: items.map((item, i) => ({ id: `l${i}`, item, amount: { value: 100, unit: "g" }, step: "mix" })),
    steps: steps.map((step) => ({ name: "x", text: "x", ...step })),
  });
}

const pointer = (kind: string, id: string) => `/${kind}/${id}`;
const larder = (...preparations: Preparation[]) => ({
  ingredients: new Map([["salt", salt]]),
  preparations: new Map(preparations.map((each) => [each.id, each])),
});
function refusalOf(make: () => unknown): Refusal {
  try {
    make();
  } catch (error) {
    if (error instanceof Refusal) return error;
    throw error;
  }
  throw new Error("nothing was refused");
}

describe("order of making", () => {
  test("F1 parts come before what is made of them, each once, whatever the graph", () => {
    const graph = fc.array(fc.array(fc.nat(), { maxLength: 4 }), { minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(graph, (edges) => {
        const all = edges.map((parts, i) =>
          prep(`p${i}`, i === 0 ? [] : [...new Set(parts.map((part) => `p${part % i}`))]),
        );
        const order = orderOfMaking(larder(...all), all.map((each) => each.id).reverse(), pointer);
        const place = new Map(order.map((each, i) => [each.id, i]));
        expect(place.size).toBe(all.length);
        for (const each of all)
          for (const line of each.lines)
            if ("preparation" in line.item)
              expect(place.get(line.item.preparation)!).toBeLessThan(place.get(each.id)!);
      }),
      { seed: 31 },
    );
  });

  test("F1 a circle is refused with its whole path", () => {
    const book = larder(
      prep("jus", ["stock"]),
      prep("stock", ["roast"]),
      prep("roast", ["jus"]),
      prep("pie", ["jus"]),
    );
    const { problems } = refusalOf(() => orderOfMaking(book, ["pie"], pointer));
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({
      path: "/preparations/roast/lines/0/item",
      what: "preparations turn in a circle: jus > stock > roast > jus",
    });
    expect(
      refusalOf(() => orderOfMaking(larder(prep("a", ["a"])), ["a"], pointer)).problems[0]!.what,
    ).toMatch(/a > a/);
  });

  test("F1 missing parts are refused, all of them, with the path to each", () => {
    const lost = prep("glaze", []);
    lost.lines[0]!.item = { ingredient: "pepper" };
    const book = larder(prep("pie", ["jus", "glaze"]), prep("jus", ["stock"]), lost);
    expect(refusalOf(() => orderOfMaking(book, ["pie"], pointer)).problems.map((each) => each.what)).toEqual([
      'there is no preparation "stock": pie > jus > stock',
      'there is no ingredient "pepper": pie > glaze > pepper',
    ]);
  });

  test("F1 a chain of twenty thousand preparations is no trouble", () => {
    const all = Array.from({ length: 20_000 }, (_, i) => ({ ...prep("p0", []), id: `p${i}` }));
    const link = prep("x", ["y"]).lines[0]!;
    for (let i = 1; i < all.length; i++) all[i]!.lines = [{ ...link, item: { preparation: `p${i - 1}` } }];
    expect(orderOfMaking(larder(...all), ["p19999"], pointer)[0]!.id).toBe("p0");
  });
});

describe("order of steps", () => {
  test("F1 each after those it takes from", () => {
    const steps = [
      { id: "c", from: ["b", { step: "a", share: 0.5 }] },
      { id: "b", from: ["a"] },
      { id: "mix" },
      { id: "a" },
    ];
    const order = orderOfSteps(prep("x", [], steps), pointer).map((step) => step.id);
    expect(order.indexOf("a")).toBeLessThan(order.indexOf("b"));
    expect(order.indexOf("b")).toBeLessThan(order.indexOf("c"));
  });

  test("F1 a circle of steps and a step that is not there are refused", () => {
    const circle = [
      { id: "mix" },
      { id: "a", from: ["c"] },
      { id: "b", from: ["a"] },
      { id: "c", from: ["b"] },
    ];
    const { what } = refusalOf(() => orderOfSteps(prep("x", [], circle), pointer)).problems[0]!;
    const named = what.replace("steps turn in a circle: ", "").split(" > ");
    expect(named[0]).toBe(named.at(-1));
    expect(new Set(named)).toEqual(new Set(["a", "b", "c"]));
    const missing = [{ id: "mix", from: ["boil"] }];
    expect(refusalOf(() => orderOfSteps(prep("x", [], missing), pointer)).problems[0]!.what).toMatch(
      /no step "boil"/,
    );
  });
});
