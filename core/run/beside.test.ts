import { expect, test } from "vitest";
import { demoBook } from "../../data/demo/book.ts";
import { parseBook } from "../book/index.ts";
import type { Book } from "../book/schema.ts";
import { inspect } from "../inspection/index.ts";
import { replayTrace } from "./replay.ts";
import type { Result } from "./result.ts";
import { run } from "./run.ts";

const parsed = parseBook(demoBook);
if (!("value" in parsed)) throw new Error("the demo does not parse");
const demo = parsed.value;
const OPTIONS = { schedules: 20, remedies: false, sensitivity: false } as const;

/** The bench trial with so many g of butter a cover beside the plates. */
function laid(grams: number): Book {
  const book = structuredClone(demo);
  const service = book.services.find(({ id }) => id === "bench-trial")!;
  const menu = book.menus.find(({ id }) => id === service.menu)!;
  delete menu.surround;
  if (grams > 0)
    menu.surround = { items: [{ item: { ingredient: "butter" }, amount: { value: grams, unit: "g" } }] };
  return book;
}

const butterOf = (result: Result) =>
  result.orders
    .flatMap(({ lines }) => lines)
    .filter((line) => line.ingredient === "butter")
    .reduce((sum, line) => sum + line.need.value * (line.need.unit === "kg" ? 1000 : 1), 0);

test("P20 O1 what goes with every cover is ordered by the covers, in time, and the inspector agrees", {
  timeout: 120_000,
}, () => {
  const [without, with400] = [laid(0), laid(400)];
  const bare = run(without, "bench-trial", { ...OPTIONS, trace: false });
  const result = run(with400, "bench-trial", OPTIONS);
  const covers = result.summary.covers;
  expect(butterOf(result) - butterOf(bare)).toBeCloseTo(400 * covers, 6);
  expect(Number(result.summary.orderTotal)).toBeGreaterThan(Number(bare.summary.orderTotal));
  // The plates cost what they cost; it stands beside them, at the usable price.
  expect(result.cost.menu).toBeCloseTo(bare.cost.menu, 9);
  expect(result.plan.status).toBe("feasible");
  expect(inspect(with400, result, { service: "bench-trial" }).findings).toEqual([]);
  const delivery = result.orders.find(({ lines }) => lines.some((line) => line.ingredient === "butter"))!;
  expect(delivery.deliver).not.toBe("");
  expect(replayTrace(with400, result, OPTIONS)).toEqual([]);
});

test("I13 orders made without it are told as too little", () => {
  const book = laid(2000);
  const bare = run(laid(0), "bench-trial", { ...OPTIONS, trace: false });
  const findings = inspect(book, bare, { service: "bench-trial" }).findings;
  expect(findings.some(({ what }) => /too little/.test(what) && /butter/i.test(what))).toBe(true);
});

test("P27 A6 a preparation that goes with every cover is made, planned, ordered for, and counted once", {
  timeout: 120_000,
}, () => {
  const bread = "sourdough";
  const laidWith = (grams: number): Book => {
    const book = laid(0);
    const service = book.services.find(({ id }) => id === "bench-trial")!;
    const menu = book.menus.find(({ id }) => id === service.menu)!;
    if (grams > 0)
      menu.surround = { items: [{ item: { preparation: bread }, amount: { value: grams, unit: "g" } }] };
    return book;
  };
  const [bare, book] = [run(laidWith(0), "bench-trial", OPTIONS), laidWith(60)];
  const result = run(book, "bench-trial", OPTIONS);
  const { covers } = result.summary;
  expect(bare.needs.some(({ preparation }) => preparation === bread)).toBe(false);
  const need = result.needs.find(({ preparation }) => preparation === bread)!;
  expect(need.usedBy).toEqual([{ everyCover: true, amount: { value: 60 * covers, unit: "g" } }]);
  const baked = result.plan.tasks.filter(({ preparation }) => preparation === bread);
  expect(baked.map(({ step }) => step)).toContain("bake");
  // It is there before the first plates, and stands on the lists, the sheets and the labels of its kitchen.
  const plateUp = Math.min(
    ...result.plan.tasks.filter(({ kind }) => kind === "plate").map(({ startMin }) => startMin),
  );
  expect(Math.max(...baked.map(({ endMin }) => endMin))).toBeLessThanOrEqual(plateUp);
  const listed = new Set(result.prepLists.flatMap(({ entries }) => entries.map(({ task }) => task)));
  expect(baked.some(({ id }) => listed.has(id))).toBe(true);
  expect(result.batchSheets.filter(({ preparation }) => preparation === bread)).toHaveLength(1);
  const [label] = result.labels.filter(({ preparation }) => preparation === bread);
  expect(label!.for).toBeUndefined();
  // Ordered for once: the flour of what is made, beyond what the plates take.
  const flour = (of: Result) =>
    of.orders
      .flatMap(({ lines }) => lines)
      .filter((line) => line.ingredient === "strong-flour")
      .reduce((sum, line) => sum + line.need.value, 0);
  expect(flour(bare)).toBe(0);
  expect(flour(result)).toBeGreaterThan(0);
  // Costed once beside the plates, as before it was planned.
  const perG = result.cost.preparations.find(({ preparation }) => preparation === bread)!.perKg / 1000;
  expect(result.cost.qFactor!.perCover).toBeCloseTo(60 * perG, 9);
  expect(result.cost.menu).toBeCloseTo(bare.cost.menu, 9);
  expect(inspect(book, result, { service: "bench-trial" }).findings).toEqual([]);
  expect(replayTrace(book, result, OPTIONS)).toEqual([]);
  // What was planned without it is told as missing.
  expect(
    inspect(book, bare, { service: "bench-trial" }).findings.some(({ what }) => /sourdough/i.test(what)),
  ).toBe(true);
});
