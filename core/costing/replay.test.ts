import { describe, expect, test } from "vitest";
import { demoBook } from "../../data/demo/book.ts";
import { type BookInput, changed, kg, library, meetsOf, SMALL_BOOK } from "../../tests/small-book.ts";
import * as formula from "../formula/rules.ts";
import { given } from "../ledger/ledger.ts";
import * as arithmetic from "../ledger/rules.ts";
import { Tracer } from "../ledger/tracer.ts";
import * as pantry from "../pantry/rules.ts";
import { balanceResult, batchSheetsResult, needsResult, platesResult } from "../production/amounts-result.ts";
import { clockOf } from "../production/clock.ts";
import { computeAmounts } from "../production/compute-amounts.ts";
import * as plan from "../production/plan-rules.ts";
import * as production from "../production/rules.ts";
import { Buying } from "../purchasing/buying.ts";
import { orderedRules } from "../purchasing/order-trace.ts";
import { orderedAgain, ordersResult } from "../purchasing/orders-result.ts";
import * as purchasing from "../purchasing/rules.ts";
import { costResult } from "./cost-result.ts";
import { costCells } from "./costs.ts";
import * as costing from "./rules.ts";

const RULES = {
  given,
  ...arithmetic,
  ...pantry,
  ...formula,
  ...production,
  ...plan,
  ...purchasing,
  ...costing,
} as unknown as Record<string, (...numbers: number[]) => number>;

/** The amounts, orders and costs of a service with their trace. */
function traced(book: BookInput, service: string, covers?: number) {
  const docs = library(book);
  const amounts = computeAmounts(docs, service, { covers, meets: meetsOf(docs) });
  const buying = new Buying(amounts, docs);
  const costs = costCells(amounts, docs, buying.offers);
  const tracer = new Tracer(amounts.ledger);
  const clock = clockOf(amounts.service.at, amounts.kitchen.zone, amounts.service.horizon);
  const { orders, ordering, outcome } = ordersResult(buying, amounts, docs, { clock }, tracer);
  const again = orderedRules(() => {
    const fresh = computeAmounts(docs, service, { covers, meets: meetsOf(docs) });
    return orderedAgain(new Buying(fresh, docs), fresh, { clock });
  });
  const rules = { ...RULES, ...again } as typeof RULES;
  const result = {
    orders,
    ordering,
    cost: costResult(costs, amounts, docs, outcome, tracer),
    needs: needsResult(amounts, tracer),
    balance: balanceResult(amounts, tracer),
    plates: platesResult(amounts, tracer),
    batchSheets: batchSheetsResult(amounts, docs, tracer),
  };
  return { docs, result, nodes: tracer.nodes(), rules };
}

/** JSON Pointers of all numbers in a value, and of money written as a decimal. */
function numbersIn(value: unknown, at = ""): [string, number][] {
  if (typeof value === "number") return [[at, value]];
  if (typeof value === "string") {
    const isMoney = /\/(price|total|goods|charge|belowMinimum)$/.test(at);
    return isMoney ? [[at, Number(value)]] : [];
  }
  if (value === null || typeof value !== "object") return [];
  return Object.entries(value).flatMap(([key, each]) => numbersIn(each, `${at}/${key}`));
}

/** A book with goods in cuts, shared needs, breaks and a minimum that bites. */
const intricate = changed(({ suppliers, services, dishes, ingredients }) => {
  suppliers[0]!.minimumOrder = "90";
  const rib = { ingredient: "short-rib", cut: "trimmed", innerPerPack: 1 };
  suppliers[1]!.offers!.push({ ...rib, id: "t", inner: kg(1), price: "12.00" });
  suppliers[0]!.offers!.push({
    id: "v-butter",
    ingredient: "butter",
    inner: kg(1),
    innerPerPack: 1,
    price: "11.00",
  });
  services[0]!.stock!.push({ item: { ingredient: "short-rib" }, amount: kg(1), useBy: "2027-03-01" });
  ingredients.find((each) => each.id === "short-rib")!.cuts![0]!.usableTrim = { share: 0.1, valuePerKg: "3" };
  const { preparation: _, ...bone } = { ...dishes[1]!.placements[0]!, n: 3 };
  dishes[1]!.placements.push({ ...bone, ingredient: "short-rib", amount: { value: 5, unit: "g" } });
});

test("O3 O7 these books have a minimum that pulls, goods in a cut, and a need shared by two offers", () => {
  const { result } = traced(intricate, "small");
  // Without the minimum the butter comes from the other supplier.
  const butter = result.orders.find((order) => order.lines.some((line) => line.offer === "v-butter"))!;
  expect(butter).toMatchObject({ supplier: "valley", belowMinimum: expect.anything() });
  const offers = (of: typeof result) => of.orders.flatMap((order) => order.lines.map((line) => line.offer));
  expect(offers(result)).toContain("t");
  expect(offers(traced(SMALL_BOOK, "small").result)).toEqual(
    expect.arrayContaining(["v-celeriac", "c-celeriac"]),
  );
});

describe.each([
  ["the small supper", SMALL_BOOK, "small", undefined],
  ["the small supper for 333", SMALL_BOOK, "small", 333],
  ["an intricate order", intricate, "small", undefined],
  ["the supper at the observatory", demoBook, "demo", undefined],
  ["the supper at the observatory for 181", demoBook, "demo", 181],
] as const)("trace of %s", (_, book, service, covers) => {
  const { docs, result, nodes, rules } = traced(book, service, covers);

  test("C6 every number has its node, with the same value", () => {
    const numbers = numbersIn(result);
    expect(numbers.length).toBeGreaterThan(200);
    for (const [pointer, value] of numbers) {
      expect(nodes[pointer], pointer).toBeDefined();
      expect(nodes[pointer]!.value, pointer).toBeCloseTo(value, 9);
    }
  });

  test("C6 every node replays: its rule on the values of its inputs gives its value", () => {
    for (const [path, node] of Object.entries(nodes)) {
      for (const input of node.inputs) expect(nodes[input], `${input} of ${path}`).toBeDefined();
      if (node.rule === "given" && node.inputs.length === 0) continue;
      const rule = rules[node.rule];
      expect(rule, `${node.rule} of ${path}`).toBeDefined();
      const again = rule!(...node.inputs.map((input) => nodes[input]!.value));
      expect(Math.abs(again - node.value), path).toBeLessThanOrEqual(
        1e-9 * Math.max(1, Math.abs(node.value)),
      );
    }
  });

  test("C6 what is given stands in the book, or is a stated constant", () => {
    const lists = Object.fromEntries(
      Object.entries({ ...docs })
        .filter(([, map]) => map instanceof Map)
        .map(([kind, map]) => [kind, [...(map as Map<string, unknown>).values()]]),
    );
    for (const [path, node] of Object.entries(nodes)) {
      if (node.rule !== "given" || node.inputs.length > 0) continue;
      if (!path.startsWith("book:")) {
        expect(path).toMatch(/^(const:|calc:\/covers$|\/.*\/(index|batch)$)/);
        continue;
      }
      let here: unknown = lists;
      for (const key of path.slice("book:/".length).split("/"))
        here = (here as Record<string, unknown>)?.[key];
      expect(here, path).toBeDefined();
      if (typeof here === "number") expect(here, path).toBe(node.value);
    }
  });
});
