import { describe, expect, test } from "vitest";
import { judged, type Small, toldBy } from "./testing/breaking.ts";

/** The gratin's bake lies so deep in an oven that takes 50 mm. */
const deep = (depthMm: number) => (s: Small) => {
  s.unit("combi").maxDepthMm = 50;
  for (const use of s.step("gratin", "bake").uses) use.depthMm = depthMm;
};

describe("I11 depth", () => {
  test("food deeper than the unit takes, by how much", () => {
    const found = toldBy(judged(deep(65)));
    expect(found).toEqual([["depth", ["gratin/bake/1/wait"], 15]]);
  });
  test("food just so deep, or a unit that says no depth", () => {
    expect(toldBy(judged(deep(50)))).toEqual([]);
    const anyDepth = (s: Small) => {
      for (const use of s.step("gratin", "bake").uses) use.depthMm = 400;
    };
    expect(toldBy(judged(anyDepth))).toEqual([]);
  });
  test("a plan that owns up to it is not told again", () => {
    const report = judged((s) => {
      deep(65)(s);
      s.result.plan.status = "broken";
      s.result.plan.broken = [
        { rule: "depth", tasks: ["gratin/bake/1/wait"], by: 15, unit: "mm", what: "15 mm too deep" },
      ];
    });
    expect(report.findings).toEqual([]);
    expect(report.admitted).toHaveLength(1);
  });
});
