import { describe, expect, it } from "vitest";
import type { Book } from "../../core/book/schema.ts";
import { countChanges, type Trial, withTrials } from "./trial.ts";

const book = {
  preparations: [
    { id: "a", name: "A" },
    { id: "b", name: "B" },
  ],
  dishes: [],
} as unknown as Book;
const trial = (id: string, name: string): Trial => ({
  kind: "preparations",
  id,
  document: { id, name } as never,
  baseRevision: 3,
});

describe("trial", () => {
  it("A4 lies over the book without changing it", () => {
    const tried = withTrials(book, [trial("b", "B, tried"), trial("c", "C, new")]);
    expect(tried.preparations.map((p) => p.name)).toEqual(["A", "B, tried", "C, new"]);
    expect(book.preparations.map((p) => p.name)).toEqual(["A", "B"]);
    expect(withTrials(book, [])).toBe(book);
  });
  it("counts what was changed", () => {
    expect(countChanges({ a: 1, b: { c: 2, d: [1, 2] } }, { a: 1, b: { c: 3, d: [1, 4] } })).toBe(2);
    expect(countChanges({ a: 1 }, { a: 1 })).toBe(0);
    expect(countChanges({ a: 1 }, { a: 1, more: { x: 1, y: 2 } })).toBe(1);
    expect(countChanges([1], { 0: 1 })).toBe(1);
  });
});
