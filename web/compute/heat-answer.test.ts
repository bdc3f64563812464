import { describe, expect, it } from "vitest";
import { answerInverse, answerTrial } from "./heat-answer.ts";
import type { HeatTold } from "./heat-protocol.ts";

const roll = {
  shape: { kind: "cylinder", diameterMm: 50 },
  material: { composition: { water: 0.74, protein: 0.2, fat: 0.05, ash: 0.01 } },
  startC: 4,
  altitudeM: 0,
  stages: [{ medium: "boiling-water", untilCoreC: 71 }],
  spread: { thicknessMm: 2, startC: 1, mediumC: 1, coefficient: 0.2 },
};
const told = (input: unknown, food?: "poultry") => [...answerTrial({ input, food })];

describe("heat answer", () => {
  it("A2 tells the trial first, then both ends, the rest and the limits", () => {
    const [first, second] = told(roll, "poultry") as HeatTold[];
    expect(first!.more).toBeUndefined();
    const more = second!.more!;
    const band = first!.result.band!.totalMinutes;
    expect(more.slow!.at(-1)![0]).toBeCloseTo(band.high!, 6);
    expect(more.quick!.at(-1)![0]).toBeCloseTo(band.low, 6);
    expect(more.leftAlone!.peakC).toBeGreaterThan(71.5);
    expect(more.leftAlone!.minute).toBeGreaterThan(first!.result.totalMinutes);
    expect(more.limits.map((line) => line.kind)).toEqual(["asked", "cook"]);
    const cook = more.limits[1]!;
    // The code asks 74 °C of poultry (Food Code 2022, 3-401.11(A)(3)); 71 °C in the slow piece is below.
    expect(cook.kind === "cook" && cook.judged.met).toBe(false);
  });
  it("A3 what can't be read comes back with its place", () => {
    const [only, ...rest] = told({ ...roll, shape: { kind: "cylinder", diameterMm: "wide" } });
    expect(rest).toEqual([]);
    expect(only).toMatchObject({ problems: [{ path: "/shape/diameterMm" }] });
  });
  it("judges cooling where it cools, by both stages", () => {
    const chilled = {
      ...roll,
      startC: 80,
      stages: [{ medium: "ice-bath", untilCoreC: 5 }],
    };
    const [, second] = told(chilled) as HeatTold[];
    const cool = second!.more!.limits.find((line) => line.kind === "cool")!;
    expect(cool.kind === "cool" && cool.judged.stages.map((stage) => stage.state)).toEqual(["met", "met"]);
    expect(second!.more!.leftAlone).toBeUndefined();
  });
  it("turns a trial round: thickness for minutes, and the latest start by the slow end", () => {
    const thick = answerInverse({ input: roll }, { find: "thickness", minutes: 30 });
    if ("problems" in thick) throw new Error("refused");
    const [back] = told({ ...roll, shape: { kind: "cylinder", diameterMm: thick.value } }) as HeatTold[];
    expect(Math.abs(back!.result.totalMinutes - 30)).toBeLessThan(0.3);
    const start = answerInverse({ input: roll }, { find: "start", readyAtMinute: 1170 });
    if ("problems" in start) throw new Error("refused");
    expect(start.value).toBe(1170 - Math.ceil(start.minutes));
  });
});
