import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CellSet } from "./cell-set.ts";
import { type Cell, given, Ledger, type Rule } from "./ledger.ts";
import * as rules from "./rules.ts";
import { nothing, stated } from "./stated.ts";
import { Tracer, untraced } from "./tracer.ts";

const RULES: readonly Rule[] = [rules.sum, rules.minus, rules.times, rules.smallest, rules.sumOfProducts];

/** A random ledger: some given cells, then derived ones from random earlier cells. */
const shape = fc.record({
  given: fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 1, maxLength: 6 }),
  derived: fc.array(
    fc.record({ rule: fc.nat(RULES.length - 1), inputs: fc.array(fc.nat(), { minLength: 2, maxLength: 5 }) }),
    { maxLength: 40 },
  ),
  changes: fc.array(fc.record({ cell: fc.nat(), value: fc.integer({ min: -50, max: 50 }) }), {
    maxLength: 12,
  }),
});
type Shape = typeof shape extends fc.Arbitrary<infer T> ? T : never;

/** Values are kept small, so that products of products stay finite. */
const small: Rule = (...inputs) => rules.sumOfProducts(...inputs) % 1000;

function build(of: Shape, values: readonly number[]): Ledger {
  const ledger = new Ledger();
  values.forEach((value, i) => {
    ledger.give(`given/${i}`, "g", value);
  });
  of.derived.forEach(({ rule, inputs }, i) => {
    const cells = inputs.map((at) => (at % ledger.size) as Cell);
    const applied = RULES[rule]!;
    ledger.derive(
      `derived/${i}`,
      "g",
      applied === rules.sumOfProducts || applied === rules.times ? small : applied,
      cells,
    );
  });
  return ledger;
}

describe("ledger", () => {
  test("L1 a path stands once and values are finite", () => {
    const ledger = new Ledger();
    const a = ledger.give("a", "g", 1);
    expect(() => ledger.give("a", "g", 2)).toThrow(/twice/);
    expect(() => ledger.give("b", "g", Number.NaN)).toThrow(/NaN/);
    expect(() => ledger.derive("c", "g", (x) => x / 0, [a])).toThrow(/Infinity/);
    const d = ledger.derive("d", "g", rules.sum, [a, a]);
    expect(() => ledger.change(d, 3)).toThrow(/derived/);
    expect(() => ledger.change(a, Number.POSITIVE_INFINITY)).toThrow(/Infinity/);
  });

  test("L2 after any history of changes every value is what a fresh ledger gives", () => {
    fc.assert(
      fc.property(shape, (of) => {
        const values = [...of.given];
        const ledger = build(of, values);
        for (const { cell, value } of of.changes) {
          const at = cell % values.length;
          values[at] = value;
          ledger.change(at as Cell, value);
          // Several changes before a settle must do too.
          if (value % 3 === 0) continue;
          ledger.settle();
          const fresh = build(of, values);
          // + 0: the sign of nothing is no difference.
          for (let i = 0; i < ledger.size; i++)
            expect(ledger.value(i as Cell) + 0).toBe(fresh.value(i as Cell) + 0);
        }
      }),
      { seed: 11, numRuns: 300 },
    );
  });

  test("L2 only what depends on a change is computed", () => {
    const ledger = new Ledger();
    const [a, b] = [ledger.give("a", "g", 1), ledger.give("b", "g", 2)];
    ledger.derive("twice", "g", rules.sum, [a, a]);
    const other = ledger.derive("other", "g", rules.sum, [b, b]);
    ledger.change(a, 5);
    expect(ledger.settle()).toBe(1);
    expect(ledger.value(other)).toBe(4);
  });

  test("L2 cells may be added between changes", () => {
    const ledger = new Ledger();
    const a = ledger.give("a", "g", 1);
    const twice = ledger.derive("twice", "g", rules.sum, [a, a]);
    ledger.change(a, 2);
    const three = ledger.derive("three", "g", rules.sum, [a, a, a]);
    const late = ledger.derive("late", "g", rules.sum, [twice, three]);
    ledger.change(a, 3);
    ledger.settle();
    expect([twice, three, late].map((cell) => ledger.value(cell))).toEqual([6, 9, 15]);
  });

  test("L2 the set of stale cells gives each once, in rising order, while it grows", () => {
    fc.assert(
      fc.property(fc.array(fc.nat(5000), { minLength: 1 }), fc.array(fc.nat(5000)), (first, more) => {
        const set = new CellSet();
        for (let cell = 0; cell <= 5000; cell++) set.reach(cell);
        const add = (cells: number[]) => set.add(Int32Array.from(cells), 0, cells.length);
        add(first);
        const start = Math.min(...first);
        const later = more.filter((cell) => cell > start);
        const found: number[] = [];
        const taken = set.drain((cell) => {
          if (found.length === 0) add(later);
          found.push(cell);
        });
        expect(found).toEqual([...new Set([...first, ...later])].sort((a, b) => a - b));
        expect(taken).toBe(found.length);
        expect(set.drain(() => {})).toBe(0);
      }),
      { seed: 13 },
    );
  });

  test("L3 every node replays from the values of its inputs", () => {
    fc.assert(
      fc.property(shape, (of) => {
        const ledger = build(of, of.given);
        for (let i = 0; i < ledger.size; i++) {
          const node = ledger.trace(i as Cell);
          if (node.rule === "given") continue;
          const values = node.inputs.map((path) => ledger.value(ledger.find(path)!));
          expect(ledger.ruleOf(i as Cell)(...values)).toBe(node.value);
        }
      }),
      { seed: 12 },
    );
  });
});

describe("tracer", () => {
  test("L4 results are cited by pointer, sums by their path, the book by its place", () => {
    const ledger = new Ledger();
    const written = stated(ledger, "book:/preparations/0/lines/0/amount/value", "g", 120);
    expect(stated(ledger, "book:/preparations/0/lines/0/amount/value", "g", 120)).toBe(written);
    const covers = ledger.give("calc:/covers", "cover", 10);
    const hidden = ledger.derive("calc:/a", "g", rules.times, [written, covers]);
    const shown = ledger.derive("calc:/b", "g", rules.sum, [hidden, nothing(ledger)]);
    const last = ledger.derive("calc:/c", "g", rules.sum, [shown, written]);

    const tracer = new Tracer(ledger);
    const read = tracer.under("/needs/0");
    expect(read.of(shown, "amount/value")).toBe(1200);
    expect(read.under("batches/0").of(last, "amount")).toBe(1320);
    expect(read.of(written, "written")).toBe(120);
    read.note("told", () => ({
      value: 1200,
      unit: "g",
      rule: "sum",
      inputs: [hidden, "/needs/0/amount/value"],
    }));
    const nodes = tracer.nodes();
    expect(nodes["/needs/0/amount/value"]).toEqual({
      value: 1200,
      unit: "g",
      rule: "sum",
      inputs: ["calc:/a", "const:/nothing"],
    });
    expect(nodes["/needs/0/batches/0/amount"]!.inputs).toEqual([
      "/needs/0/amount/value",
      "book:/preparations/0/lines/0/amount/value",
    ]);
    expect(nodes["/needs/0/written"]).toMatchObject({
      rule: given.name,
      inputs: ["book:/preparations/0/lines/0/amount/value"],
    });
    expect(nodes["/needs/0/told"]!.inputs).toEqual(["calc:/a", "/needs/0/amount/value"]);
    expect(nodes["calc:/a"]!.inputs).toEqual(["book:/preparations/0/lines/0/amount/value", "calc:/covers"]);
    for (const node of Object.values(nodes))
      for (const input of node.inputs) expect(nodes[input], input).toBeDefined();
  });

  test("L4 reading without a trace gives the same numbers", () => {
    const ledger = new Ledger();
    const a = ledger.give("a", "g", 7);
    const read = untraced(ledger);
    let asked = false;
    read.note("x", () => {
      asked = true;
      return { value: 1, unit: "", rule: "given", inputs: [] };
    });
    expect(read.under("deeper").of(a, "key")).toBe(7);
    expect(asked).toBe(false);
  });
});
