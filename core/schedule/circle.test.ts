import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Arc, positiveCircle } from "./circle.ts";

const N = 5;
const arcs = fc.array(
  fc.record({
    from: fc.nat(N - 1),
    to: fc.nat(N - 1),
    length: fc.integer({ min: -3, max: 3 }),
  }),
  { maxLength: 9 },
);

/** Whether any closed walk asks for more than no time: every simple circle is one, tried out. */
function anyCircle(list: readonly Arc[]): boolean {
  const go = (first: number, at: number, sum: number, seen: ReadonlySet<number>): boolean =>
    list.some(({ from, to, length }) => {
      if (from !== at) return false;
      if (to === first) return sum + length > 0;
      return !seen.has(to) && go(first, to, sum + length, new Set([...seen, to]));
    });
  return Array.from({ length: N }, (_, m) => m).some((m) => go(m, m, 0, new Set([m])));
}

describe("S1 S19 circles that ask for more time than there is", () => {
  it("S1 S19 one is found where there is one, closed, in its order and of positive length", () => {
    let found = 0;
    fc.assert(
      fc.property(arcs, (list) => {
        const circle = positiveCircle(N, list);
        expect(circle !== null).toBe(anyCircle(list));
        if (!circle) return;
        found++;
        for (const [k, arc] of circle.entries()) expect(circle[(k + 1) % circle.length]!.from).toBe(arc.to);
        expect(circle.reduce((sum, { length }) => sum + length, 0)).toBeGreaterThan(0);
      }),
      { seed: 19, numRuns: 2000 },
    );
    expect(found).toBeGreaterThan(300);
  });

  it("S22 a chain of 10,000 listed either way takes two rounds", () => {
    const chain = Array.from({ length: 10_000 }, (_, k) => ({ from: k, to: k + 1, length: 1 }));
    for (const list of [chain, chain.toReversed()]) {
      expect(positiveCircle(10_001, list)).toBeNull();
      expect(positiveCircle(10_001, [...list, { from: 10_000, to: 0, length: -9_999 }])).toHaveLength(10_001);
    }
  });
});
