import { describe, expect, it } from "vitest";
import {
  anHour,
  preparation,
  type SmallBook,
  smallAmounts,
  smallDocuments,
  step,
  work,
} from "../../tests/small-kitchen.ts";
import { objectiveOf, solve, totalOf } from "../schedule/index.ts";
import type { Engine } from "./make-plan.ts";
import { planService } from "./plan-service.ts";
import { ServiceSchema } from "./schema.ts";
import { USUAL_WEIGHTS, weightsFor } from "./weights.ts";

const engine: Engine = (problem, { seed, schedules }) => solve(problem, { seed, schedules });
function plan(book: SmallBook) {
  const docs = smallDocuments(book);
  const options = { seed: 1, schedules: 30, engine, fillTarget: anHour, remedySchedules: 0 };
  return planService(docs, smallAmounts(docs), options);
}
const cake = preparation(
  "cake",
  [
    step("mix", {
      work: work(20, { hands: { least: 1, most: 2, split: "divides" } }),
      hold: { state: "cold", maxMin: 900 },
    }),
    step("bake", {
      from: ["mix"],
      passive: { min: 60 },
      uses: [{ kind: "oven", during: "passive", space: { value: 1, unit: "shelf" }, setC: 180 }],
      hold: { state: "cold", maxMin: 900 },
    }),
  ],
  { bestWithinMinutes: 30 },
);
const stew = preparation("stew", [step("cut", { work: work(40), hold: { state: "cold", maxMin: 900 } })]);
const term = (result: ReturnType<typeof plan>, key: string) =>
  result.plan.objective.find((t) => t.key === key);

describe("P16 what is good", () => {
  it("P16 each term in its own unit times its weight comes to what the engine minimised", () => {
    const result = plan({ preparations: [cake, stew], service: { slackMin: 20 } });
    const { problem, solved } = result.made;
    const told = result.plan.objective.reduce((sum, t) => sum + t.value * t.weight, 0);
    expect(told).toBeCloseTo(totalOf(objectiveOf(problem, solved.schedule!)), 9);
    expect(result.plan.objective.map((t) => t.key)).toEqual([
      "slack",
      "stale",
      "waiting",
      "heatUps",
      "walking",
      "hands",
    ]);
    for (const { key, weight } of result.plan.objective) expect(weight).toBe(USUAL_WEIGHTS[key]);
    expect(term(result, "heatUps")!.value).toBe(1);
    // Baked by the line check at 18:30 and plated until 19:30: an hour, thirty minutes beyond its best.
    expect(term(result, "stale")!.value).toBeGreaterThanOrEqual(29);
  });

  it("P16 the chef's weights are the engine's; what is not written has its usual weight, nought leaves a term out", () => {
    const weights = { waiting: 0, heatUps: 5 };
    const result = plan({ preparations: [cake, stew], service: { weights } });
    expect(result.made.problem.objective).toMatchObject({
      late: 20,
      changes: 5,
    });
    expect(term(result, "waiting")).toBeUndefined();
    expect(term(result, "heatUps")!.weight).toBe(5);
    expect(weightsFor({}).slack).toBe(USUAL_WEIGHTS.slack);
  });

  it("P16 a weight moves the plan: without one on slack things are made later, with it they wait longer", () => {
    const ready = (weights?: object) => {
      const made = plan({
        preparations: [cake, stew],
        service: { slackMin: 60, ...(weights ? { weights } : {}) },
      });
      return made.plan.tasks.find((task) => task.id === "cake/bake/1/wait")!.endMin;
    };
    expect(ready({ slack: 0 }) - ready()).toBeGreaterThanOrEqual(60);
  });

  it("P16 a weight below nought or an unknown one is refused", () => {
    const service = plan({ preparations: [stew] }).made.site.amounts.service;
    for (const weights of [{ slack: -1 }, { speed: 3 }, { heatUps: 1001 }])
      expect(ServiceSchema.safeParse({ ...service, weights }).success).toBe(false);
    expect(ServiceSchema.safeParse({ ...service, weights: { slack: 40 } }).success).toBe(true);
  });
});
