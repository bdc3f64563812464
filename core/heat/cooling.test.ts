import { describe, expect, test } from "vitest";
import {
  judgeCooking,
  judgeCooling,
  judgeHolding,
  judgeReheating,
  longestAbove,
  minuteAtOrBelow,
  minutesBetween,
  outOfControlMinutes,
} from "./cooling.ts";
import { cookRules, coolingRules } from "./limits-data.ts";

const at = (...pairs: [number, number][]) => pairs.map(([minute, celsius]) => ({ minute, celsius }));
const foodCode = coolingRules.find((r) => r.id === "food-code")!;

describe("H12 cooling is judged against each stage of its rule", () => {
  test("57 to 21 in two hours and to 5 in six: met, with the time to spare", () => {
    const judged = judgeCooling(at([0, 70], [13, 57], [103, 21], [280, 5]), foodCode);
    expect(judged.state).toBe("met");
    expect(judged.stages.map((s) => s.minutes)).toEqual([90, 267]);
    expect(judged.stages.map((s) => s.spareMin)).toEqual([30, 93]);
    expect(judged.remedy).toBe("none");
  });
  test("the first stage missed while the six hours run: reheat at once", () => {
    const judged = judgeCooling(at([0, 57], [130, 30]), foodCode);
    expect(judged.stages[0]).toMatchObject({ state: "missed", minutes: null, spareMin: -10 });
    expect(judged.stages[1]!.state).toBe("running");
    expect(judged.remedy).toBe("reheat at once");
  });
  test("the six hours run out: discard", () => {
    expect(judgeCooling(at([0, 57], [100, 21], [400, 8]), foodCode).remedy).toBe("discard");
    expect(judgeCooling(at([0, 57], [400, 21]), foodCode).remedy).toBe("discard");
  });
  test("a log that has not run out yet is running, not missed", () => {
    expect(judgeCooling(at([0, 60], [60, 40]), foodCode)).toMatchObject({ state: "running", remedy: "none" });
  });
  test("exactly on the limit is met", () => {
    expect(judgeCooling(at([0, 57], [120, 21], [360, 5]), foodCode).state).toBe("met");
    expect(judgeCooling(at([0, 57], [120.1, 21], [360, 5]), foodCode).state).toBe("missed");
  });
  test("food never that warm has nothing to cool; an empty log neither", () => {
    expect(judgeCooling(at([0, 4], [60, 4]), foodCode).state).toBe("met");
    expect(judgeCooling([], foodCode).state).toBe("met");
  });
  test("FSIS option 1 times each stage by itself", () => {
    const rule = coolingRules.find((r) => r.id === "fsis-1")!;
    expect(judgeCooling(at([0, 54.4], [80, 26.7], [370, 4.4]), rule).state).toBe("met");
    expect(judgeCooling(at([0, 54.4], [95, 26.7], [370, 4.4]), rule).state).toBe("missed");
  });
});

describe("H11 cooking is judged by temperature held, without a break", () => {
  test("poultry at 74 in an instant; not at 73.9", () => {
    expect(judgeCooking(at([0, 4], [30, 74]), cookRules.poultry).met).toBe(true);
    expect(judgeCooking(at([0, 4], [30, 73.9]), cookRules.poultry).met).toBe(false);
  });
  test("ground meat: 68 for 17 s or 63 for 3 minutes", () => {
    expect(judgeCooking(at([0, 60], [1, 68], [1.3, 68], [2, 60]), cookRules["ground-meat"]).met).toBe(true);
    expect(judgeCooking(at([0, 63], [3, 63]), cookRules["ground-meat"]).met).toBe(true);
    const short = judgeCooking(at([0, 63], [2.9, 63]), cookRules["ground-meat"]);
    expect(short).toMatchObject({ met: false, option: { celsius: 63 } });
  });
  test("two halves of a hold with a dip between do not add", () => {
    const dipped = at([0, 63], [2, 63], [2.5, 60], [3, 63], [4.5, 63]);
    expect(longestAbove(dipped, 63)).toBeCloseTo(120, 9);
    expect(judgeCooking(dipped, cookRules["ground-meat"]).met).toBe(false);
  });
});

describe("H13 time out of control is added over the whole life of a batch", () => {
  test("crossings are found on the straight line between readings", () => {
    expect(minutesBetween(at([0, 0], [10, 100]), 5, 57)).toBeCloseTo(5.2, 9);
    expect(minuteAtOrBelow(at([0, 100], [10, 0]), 21)).toBeCloseTo(7.9, 9);
  });
  test("several curves add", () => {
    expect(
      outOfControlMinutes([at([0, 20], [30, 20]), at([0, 4], [60, 4]), at([0, 80], [10, 40])]),
    ).toBeCloseTo(30 + 10 * (17 / 40), 9);
  });
  test("hot holding names the worst reading, cold holding too, a local limit counts", () => {
    expect(judgeHolding(at([0, 63], [60, 58]), "hot")).toMatchObject({ met: true, worstC: 58 });
    expect(judgeHolding(at([0, 63], [60, 58]), "hot", 63).met).toBe(false);
    expect(judgeHolding(at([0, 3], [60, 6]), "cold")).toMatchObject({ met: false, worstC: 6 });
  });
  test("reheating: 74 for 15 s within two hours", () => {
    expect(judgeReheating(at([0, 4], [110, 74], [111, 75])).met).toBe(true);
    expect(judgeReheating(at([0, 4], [130, 74], [131, 75])).met).toBe(false);
    expect(judgeReheating(at([0, 4], [110, 73])).minutes).toBeNull();
  });
});
