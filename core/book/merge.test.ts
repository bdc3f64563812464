import fc from "fast-check";
import { expect, test } from "vitest";
import { mergeDocuments } from "./merge.ts";

const base = {
  id: "jus",
  name: "Jus",
  lines: [
    { id: "a", g: 100 },
    { id: "b", g: 200 },
  ],
  batch: { policy: "even" },
};

test("B7 changes of different fields and members are joined", () => {
  const theirs = { ...base, name: "Dark jus", lines: [{ id: "a", g: 120 }, base.lines[1]] };
  const mine = { ...base, lines: [base.lines[0], { id: "c", g: 5 }], batch: { policy: "whole-only" } };
  expect(mergeDocuments(base, theirs, mine)).toEqual({
    ok: true,
    value: {
      id: "jus",
      name: "Dark jus",
      lines: [
        { id: "a", g: 120 },
        { id: "c", g: 5 },
      ],
      batch: { policy: "whole-only" },
    },
  });
});

test("B7 what both changed differently is a clash with its path", () => {
  const theirs = { ...base, lines: [{ id: "a", g: 120 }, base.lines[1]] };
  const mine = { ...base, lines: [{ id: "a", g: 90 }, base.lines[1]] };
  expect(mergeDocuments(base, theirs, mine)).toEqual({ ok: false, clashes: ["/lines/a/g"] });
});

test("B7 taken out by one, changed by the other is a clash", () => {
  const theirs = { ...base, lines: [base.lines[1]] };
  const mine = { ...base, lines: [{ id: "a", g: 90 }, base.lines[1]] };
  expect(mergeDocuments(base, theirs, mine)).toEqual({ ok: false, clashes: ["/lines/a"] });
});

test("B7 a change against none is that change, from either side", () => {
  fc.assert(
    fc.property(fc.jsonValue(), fc.jsonValue(), (before, after) => {
      expect(mergeDocuments(before, after, before)).toEqual({ ok: true, value: after });
      expect(mergeDocuments(before, before, after)).toEqual({ ok: true, value: after });
      expect(mergeDocuments(before, after, after)).toEqual({ ok: true, value: after });
    }),
    { seed: 7 },
  );
});
