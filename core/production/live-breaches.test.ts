import { describe, expect, test } from "vitest";
import { grouped } from "./grouped.ts";
import { newBreaches } from "./live-breaches.ts";
import type { Broken } from "./plan-types.ts";

const late = (n: number, by = 10): Broken => ({
  ...{ rule: "shift", tasks: [`t${n}`], by, unit: "min", what: `t${n} runs ${by} min outside working time` },
});
const told = (list: readonly Broken[]) => grouped(list.map((broken) => ({ broken, on: "mira" })));
const many = (count: number) => Array.from({ length: count }, (_, n) => late(n));

describe("L9 what is new in what a plan breaks", () => {
  test("the same breach is no news, less of it neither, more of it is", () => {
    expect(newBreaches([late(1)], [late(1)])).toEqual([]);
    expect(newBreaches([late(1)], [late(1, 4)])).toEqual([]);
    expect(newBreaches([late(1)], [late(1, 11)])).toEqual([late(1, 11)]);
    expect(newBreaches([late(1)], [late(2)])).toEqual([late(2)]);
  });

  test("of many told together one less is no news, one more is", () => {
    const [before] = [told(many(30))];
    expect(before).toHaveLength(1);
    expect(newBreaches(before, told(many(29)))).toEqual([]);
    expect(newBreaches(before, told(many(31)))).toEqual(told(many(31)));
    const worse = [...many(29), late(29, 25)];
    expect(newBreaches(before, told(worse))).toHaveLength(1);
  });

  test("many that have become few, and few that are told together, are no news", () => {
    expect(newBreaches(told(many(30)), told(many(12)))).toEqual([]);
    expect(newBreaches(many(25), told(many(25)))).toEqual([]);
    expect(newBreaches(many(20), told(many(25)))).toHaveLength(1);
  });

  test("two breaches of one task do not cover for each other", () => {
    const pair = (b: string, by: number): Broken => ({ ...late(1, by), rule: "hold", tasks: ["a", b] });
    expect(newBreaches([pair("b", 10), pair("c", 30)], [pair("b", 40)])).toHaveLength(1);
  });
});
