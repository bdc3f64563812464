import { describe, expect, test } from "vitest";
import { judgeCooking, judgeCooling, judgeReheating } from "../core/heat/cooling.ts";
import { holdSecondsAt, holdTable } from "../core/heat/lethality.ts";
import { cookRules, coolingRules, holding, parasiteFreezing } from "../core/heat/limits-data.ts";

/** FDA Food Code 2022, chapter 3 (published; read through adoptions that print the same sections). */
const held = (celsius: number, seconds: number) => [
  { minute: 0, celsius: 4 },
  { minute: 10, celsius },
  { minute: 10 + seconds / 60, celsius },
];

describe("3-401.11: cooking", () => {
  test.each([
    ["whole-meat", 63, 15],
    ["fish", 63, 15],
    ["egg-for-one", 63, 15],
    ["ground-meat", 63, 180],
    ["ground-meat", 66, 60],
    ["ground-meat", 68, 17],
    ["ground-meat", 70, 0],
    ["egg", 68, 17],
    ["poultry", 74, 0],
    ["roast", 54.4, 112 * 60],
    ["roast", 55, 89 * 60],
    ["roast", 60, 12 * 60],
    ["roast", 62.8, 4 * 60],
    ["roast", 63.9, 134],
    ["roast", 65, 85],
    ["roast", 68.3, 22],
    ["roast", 70, 0],
  ] as const)(
    "%s: %d °C for %d s is enough, and one second or a tenth of a degree less is not",
    (food, c, s) => {
      expect(judgeCooking(held(c, s), cookRules[food]).met).toBe(true);
      if (s > 0) expect(judgeCooking(held(c, s - 1), cookRules[food]).met).toBe(false);
      const next = Math.max(...cookRules[food].options.filter((o) => o.celsius < c).map((o) => o.seconds), 0);
      if (next === 0) expect(judgeCooking(held(c - 0.1, s), cookRules[food]).met).toBe(false);
    },
  );
  test("the roast table is FSIS's 6.5 log column, row for row, within its rounding to 0.1 °C", () => {
    const table = holdTable({ table: "fsis-meat-6.5" });
    for (const { celsius, seconds } of cookRules.roast.options) {
      if (seconds === 0) continue;
      const near = holdSecondsAt(table, Math.max(celsius, 54.4444445));
      expect(Math.abs(near - seconds) / seconds, `${celsius}`).toBeLessThan(0.06);
    }
  });
});

describe("3-501.14, 3-403.11, 3-501.16, 3-402.11", () => {
  const rule = coolingRules.find((r) => r.id === "food-code")!;
  test("57 to 21 °C in 2 hours and to 5 in 6, and a minute more is too much", () => {
    const curve = (first: number, second: number) => [
      { minute: 0, celsius: 57 },
      { minute: first, celsius: 21 },
      { minute: second, celsius: 5 },
    ];
    expect(judgeCooling(curve(120, 360), rule).state).toBe("met");
    expect(judgeCooling(curve(121, 360), rule).state).toBe("missed");
    expect(judgeCooling(curve(120, 361), rule).state).toBe("missed");
    // Time left from the first stage carries over: 1 hour and then 5.
    expect(judgeCooling(curve(60, 360), rule).state).toBe("met");
  });
  test("reheating to 74 °C within 2 hours", () => {
    expect(judgeReheating(held(74, 15)).met).toBe(true);
    expect(judgeReheating(held(74, 14)).met).toBe(false);
    expect(judgeReheating(held(73.9, 60)).met).toBe(false);
  });
  test("holding 57 and 5 °C; parasites -20 °C for 7 days, or -35 for 15 hours", () => {
    expect([holding.hotC, holding.roastHotC, holding.coldC]).toEqual([57, 54, 5]);
    expect(parasiteFreezing.options).toEqual([
      { celsius: -20, hours: 168 },
      { celsius: -35, hours: 15 },
    ]);
  });
});
