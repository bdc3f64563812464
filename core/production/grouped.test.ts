import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Breach, grouped } from "./grouped.ts";

const breach: fc.Arbitrary<Breach> = fc.record({
  broken: fc.record({
    rule: fc.constantFrom("hands", "shift", "room"),
    tasks: fc.array(fc.constantFrom("a", "b", "c", "d"), { minLength: 1, maxLength: 2 }),
    by: fc.integer({ min: 1, max: 90 }),
    unit: fc.constantFrom("min", "shelves"),
    what: fc.constantFrom("one thing", "another"),
  }),
  on: fc.constantFrom(undefined, "Ana", "oven"),
});

describe("P17: breaches can be read, and none is lost", () => {
  it("few are told one by one", () => {
    fc.assert(
      fc.property(fc.array(breach, { maxLength: 20 }), (list) => {
        expect(grouped(list)).toEqual(list.map(({ broken }) => broken));
      }),
    );
  });
  it("many are told by rule and by unit or person: count, tasks and minutes are all there", () => {
    fc.assert(
      fc.property(fc.array(breach, { minLength: 21, maxLength: 200 }), (list) => {
        const lines = grouped(list);
        // Three rules on three things in two units.
        expect(lines.length).toBeLessThanOrEqual(18);
        expect(lines.reduce((sum, b) => sum + (b.times ?? 1), 0)).toBe(list.length);
        for (const { broken } of list)
          expect(
            lines.some((l) => l.rule === broken.rule && broken.tasks.every((t) => l.tasks.includes(t))),
          ).toBe(true);
      }),
    );
  });
  it("minutes add up; the worst says the rest", () => {
    const one = (by: number) => ({
      broken: { rule: "hands", tasks: [`t${by}`], by, unit: "min", what: `Ana is missing for ${by} min` },
      on: "Ana",
    });
    const [line, ...rest] = grouped(Array.from({ length: 30 }, (_, k) => one(k + 1)));
    expect(rest).toEqual([]);
    expect(line).toMatchObject({ by: 465, times: 30 });
    expect(line!.what).toBe("Ana is missing for 30 min; with 29 more of the kind, 7 h 45 min in all");
  });
});
