import { describe, expect, it } from "vitest";
import { differences, type KeptPlan, keptPlan } from "./compare.ts";
import type { PlanTask, Result } from "./result.ts";
import { figuresOf } from "./summary.ts";

const task = (
  id: string,
  startMin: number,
  endMin: number,
  hands: string[],
  hold?: [number, number],
): PlanTask => ({
  ...{
    id,
    startMin,
    endMin,
    hands,
    name: id.toUpperCase(),
    start: `D ${startMin}`,
    end: "",
    preparation: "",
    step: "",
  },
  ...{ batch: 1, kind: "work", equipment: [], earliest: "", latest: "", slackMin: 0, after: [] },
  ...(hold ? { hold: { state: "hot", maxMin: hold[0], usedMin: hold[1] } } : {}),
});
const BREACH = { rule: "hold", tasks: [], by: 1, unit: "min", what: "" };
const kept = (tasks: PlanTask[], broken: number, name = "at 14:10"): KeptPlan =>
  keptPlan(name, {
    summary: {
      ...{ service: "s", covers: 72, kitchen: "k", handsMinutes: 90, spareMin: 15, costPerCover: 11.5 },
      ...figuresOf({ tasks, broken: Array.from({ length: broken }, () => BREACH) }),
    },
    plan: {
      tasks,
      broken: Array.from({ length: broken }, () => ({ rule: "hold" })),
      objective: [{ key: "heatUps", value: 3 }],
    },
  } as unknown as Result);

describe("R12 two plans side by side", () => {
  it("R12 keeps the figures that are compared, counted by hand", () => {
    // Two at work from 10 to 20; who ends at 20 is free for what begins then.
    const plan = kept(
      [task("a", 0, 20, ["x"]), task("b", 10, 20, ["y"]), task("c", 20, 30, ["x", "z"], [40, 37])],
      2,
    );
    expect(plan).toMatchObject({
      peakHands: 2,
      holdsNearlyUsed: 1,
      breaches: 2,
      heatUps: 3,
      spareMin: 15,
      name: "at 14:10",
    });
    expect(kept([task("a", 0, 20, ["x"]), task("b", 19, 25, ["y", "z"])], 0).peakHands).toBe(3);
    expect(kept([task("a", 0, 20, [], [40, 36])], 0)).toMatchObject({ peakHands: 0, holdsNearlyUsed: 0 });
  });

  it("R12 tells what moved, furthest first, whose hands differ, and what only one has", () => {
    const before = kept(
      [task("a", 0, 20, ["x"]), task("b", 30, 40, ["x", "y"]), task("c", 50, 60, []), task("d", 70, 80, [])],
      0,
    );
    const after = kept(
      [task("a", 5, 25, ["x"]), task("b", 30, 40, ["y", "z"]), task("c", 20, 30, []), task("e", 0, 1, [])],
      0,
    );
    expect(differences(before, after)).toEqual([
      { task: "c", name: "C", before: "D 50", after: "D 20", byMin: -30, otherHands: false },
      { task: "a", name: "A", before: "D 0", after: "D 5", byMin: 5, otherHands: false },
      { task: "d", name: "D", before: "D 70", byMin: 0, otherHands: false },
      { task: "b", name: "B", before: "D 30", after: "D 30", byMin: 0, otherHands: true },
      { task: "e", name: "E", after: "D 0", byMin: 0, otherHands: false },
    ]);
    // The same hands in another order are the same hands.
    expect(
      differences(before, {
        ...before,
        tasks: before.tasks.map((t) => ({ ...t, hands: [...t.hands].reverse() })),
      }),
    ).toEqual([]);
  });
});
