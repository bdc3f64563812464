import { describe, expect, it } from "vitest";
import { preparation, type SmallBook, step, work } from "../../tests/small-kitchen.ts";
import { smallPlan } from "../../tests/small-plan.ts";
import { objectiveOf, totalOf } from "../schedule/index.ts";
import { ServiceSchema } from "./schema.ts";
import { USUAL_WEIGHTS, weightsFor } from "./weights.ts";

const plan = (book: SmallBook) => smallPlan(book, { schedules: 30, remedySchedules: 0 });
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
      "peaks",
      "breaks",
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

  /** Two cooks with nothing but work in the last hour before the line check. */
  const busy = (weights: object) =>
    plan({
      preparations: ["soup", "salad", "sauce", "cream", "jus", "oil", "dressing", "puree"].map((id) =>
        preparation(id, [step("make", { work: work(25), hold: { state: "cold", maxMin: 900 } })]),
      ),
      service: { weights },
    });

  it("P16 peaks of work: with a weight the same work is spread over more hours, and what is left over is told", () => {
    const [without, with_] = [busy({ peaks: 0 }), busy({ peaks: 5 })];
    const over = (result: ReturnType<typeof plan>) =>
      result.plan.peaks.reduce((sum, { overMin }) => sum + overMin, 0);
    expect(without.plan.status).toBe("feasible");
    expect(over(without)).toBeGreaterThan(0);
    expect(over(with_)).toBe(0);
    expect(term(with_, "peaks")).toMatchObject({ value: 0, unit: "min", weight: 5 });
    expect(term(without, "peaks")).toBeUndefined();
    for (const { from, to, workedMin, thereMin, overMin } of without.plan.peaks) {
      expect([from.slice(-2), to.slice(-2)]).toEqual(["00", "00"]);
      expect(overMin).toBeCloseTo(workedMin - 0.75 * thereMin, 9);
      expect(workedMin).toBeLessThanOrEqual(thereMin);
    }
  });

  it("P16 breaks: with a weight nothing is left half done for one", () => {
    const cook = { id: "ann", name: "Ann", skills: ["prep"] };
    const breaks = [{ from: "D 17:30", to: "D 18:00" }];
    const split = (weight: number) =>
      plan({
        preparations: [
          preparation("stew", [
            step("cut", { work: work(60, { interruptible: true }), hold: { state: "cold", maxMin: 900 } }),
          ]),
        ],
        kitchen: { crew: [{ ...cook, shifts: [{ from: "D 12:00", to: "D 22:00", breaks }] }] },
        service: { weights: { breaks: weight, peaks: 0 } },
      });
    const cut = (result: ReturnType<typeof plan>) => result.plan.tasks.find(({ id }) => id === "stew/cut/1")!;
    const [without, with_] = [split(0), split(10)];
    expect(cut(without).endMin - cut(without).startMin).toBe(90);
    expect(cut(with_).endMin - cut(with_).startMin).toBe(60);
    expect(term(with_, "breaks")).toMatchObject({ value: 0, unit: "times", weight: 10 });
  });

  it("P16 walking: with a weight a cook does what lies at one station together", () => {
    const at = (id: string, station: string) =>
      preparation(id, [step("do", { work: work(20, { station }), hold: { state: "cold", maxMin: 900 } })]);
    const walked = (walking: number) =>
      plan({
        preparations: [
          ...[at("soup", "bench"), at("salad", "pass"), at("sauce", "bench"), at("cream", "pass")],
          ...[at("jus", "bench"), at("oil", "pass"), at("dressing", "bench"), at("puree", "pass")],
        ],
        kitchen: {
          crew: [{ id: "ann", name: "Ann", skills: ["prep"], shifts: [{ from: "D 08:00", to: "D 22:00" }] }],
          walk: [{ from: "bench", to: "pass", min: 4 }],
        },
        service: { weights: { walking, peaks: 0 } },
      });
    const crossings = (result: ReturnType<typeof plan>) => {
      const places = result.plan.tasks
        .filter(({ hands, station }) => hands.length > 0 && station !== undefined)
        .sort((a, b) => a.startMin - b.startMin)
        .map(({ station }) => station);
      return places.filter((place, i) => i > 0 && place !== places[i - 1]).length;
    };
    const with_ = walked(20);
    expect(crossings(with_)).toBeLessThan(crossings(walked(0)));
    expect(term(with_, "walking")!.value).toBe(4 * crossings(with_));
  });

  it("P16 a weight below nought or an unknown one is refused", () => {
    const service = plan({ preparations: [stew] }).made.site.amounts.service;
    for (const weights of [{ slack: -1 }, { speed: 3 }, { heatUps: 1001 }])
      expect(ServiceSchema.safeParse({ ...service, weights }).success).toBe(false);
    expect(ServiceSchema.safeParse({ ...service, weights: { slack: 40 } }).success).toBe(true);
  });
});
