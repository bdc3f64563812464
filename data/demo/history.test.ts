import { expect, test } from "vitest";
import { parseBook } from "../../core/book/index.ts";
import { learn } from "../../core/learning/learn.ts";
import { LEARNING_BODIES } from "../../core/learning/schema.ts";
import { Recall } from "../../core/safety/lots-recall.ts";
import { LOT_BODIES } from "../../core/safety/lots-schema.ts";
import { lotKey } from "../../core/safety/lots-stock.ts";
import { weighBy } from "../../core/safety/lots-weigh.ts";
import { demoBook } from "./book.ts";
import { demoHistory } from "./history.ts";

const lines = demoHistory();
const read = parseBook(demoBook);
if (!read.ok) throw new Error("refused");
const book = read.value;

test("D14 the invented history is small, its entries are judged good, each once, and of no service of the book", () => {
  const schemas = new Map([...LEARNING_BODIES, ...LOT_BODIES].map((s) => [s.shape.kind.value as string, s]));
  expect(lines.length).toBeGreaterThan(60);
  expect(lines.length).toBeLessThanOrEqual(120);
  expect(new Set(lines.map(({ id }) => id)).size).toBe(lines.length);
  for (const { body, service } of lines) {
    if (body.kind !== "note") expect(schemas.get(body.kind)!.safeParse(body).success).toBe(true);
    expect(book.services.some(({ id }) => id === service)).toBe(false);
  }
  expect(lines.filter(({ body }) => body.kind === "note" && body.text.includes("invented"))).toHaveLength(5);
});

test("D14 something is learned from all of it, and one odd trim is asked about", () => {
  const estimates = learn(book, lines);
  expect(estimates).toHaveLength(10);
  expect(estimates.flatMap(({ measured }) => measured).filter(({ asked }) => asked)).toHaveLength(1);
  for (const { n } of estimates) expect(n).toBeGreaterThanOrEqual(5);
});

test("D14 its stock adds up, and a lot of hazelnuts is followed to the suppers it was opened for", () => {
  const recall = new Recall(lines, weighBy(new Map(book.ingredients.map((one) => [one.id, one]))));
  expect(recall.stock.doubts).toEqual([]);
  const [lot] = recall.lotsOf("hn-2206");
  const forward = recall.forward([lotKey(lot!.ref)]);
  const certain = forward.plates.filter((one) => one.certain).map(({ what }) => what.service);
  expect(new Set(certain)).toEqual(
    new Set(["first-light-2026-10-03", "first-light-2026-10-24", "first-light-2026-11-14"]),
  );
});
