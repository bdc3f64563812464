import { describe, expect, it } from "vitest";
import { preparation, step, work } from "../../tests/small-kitchen.ts";
import { smallPlan } from "../../tests/small-plan.ts";
import { solve } from "../schedule/index.ts";
import type { Problem } from "../schedule/problem.ts";
import { refuted } from "../schedule/refute.ts";
import { inFavour } from "./no-plan.ts";

const plan = (book: Parameters<typeof smallPlan>[0]) => smallPlan(book, { schedules: 12 }).plan;
const carved = (id: string, maxMin = 20) =>
  preparation(id, [step("carve", { work: work(35), hold: { state: "hot", maxMin } })]);
const crowd = (...ids: string[]) => ids.map((id) => carved(id));
const hot = (id: string, setC: number, minutes = 60) =>
  preparation(id, [
    step("bake", {
      passive: { min: minutes },
      uses: [{ kind: "oven", during: "passive", space: { value: 1, unit: "shelf" }, per: "batch", setC }],
      hold: { state: "hot", maxMin: 15 },
    }),
  ]);
const oven = (more: object = {}) => ({
  equipment: [
    {
      ...{ id: "oven", name: "Deck", kind: "oven", rangeC: [50, 250], ...more },
      capacity: [{ unit: "shelf", value: 4 }],
    },
  ],
});

describe("P28 whether no plan exists, or none was found", () => {
  it("P28 three to carve in the last hour with two pairs of hands: proved, by the rules of the conflict", () => {
    const { noPlan, conflict } = plan({ preparations: crowd("a", "b", "c") });
    expect(noPlan).toEqual({ proved: true, rules: conflict });
    expect(noPlan!.rules.length).toBeGreaterThan(2);
  });

  it("P28 an oven at two temperatures at once: proved", () => {
    const { noPlan } = plan({ preparations: [hot("cake", 220), hot("custard", 150)], kitchen: oven() });
    expect(noPlan!.proved).toBe(true);
    expect(noPlan!.rules.map(({ what }) => what).join("; ")).toContain("Deck has room for 4 shelves");
  });

  it("P28 equipment nobody has: proved by that alone", () => {
    const kiln = step("fire", {
      passive: { min: 30 },
      uses: [{ kind: "kiln", during: "passive", space: { value: 1, unit: "shelf" }, per: "batch" }],
    });
    const { noPlan } = plan({ preparations: [preparation("pot", [kiln])] });
    expect(noPlan!.proved).toBe(true);
    expect(noPlan!.rules.map(({ rule }) => rule)).toEqual(["equipment"]);
  });

  it("P28 where only the minutes between two temperatures are missing, none was found: it is not proved", () => {
    // Ten minutes each within the last quarter of an hour and the plate-up fit, the oven's change between them does not.
    const book = (leastMin: number) => ({
      preparations: [hot("cake", 220, 10), hot("custard", 150, 10)],
      kitchen: oven({ changeover: { perKMin: 0, leastMin } }),
    });
    expect(plan(book(0)).status).toBe("feasible");
    const broken = plan(book(45));
    expect(broken.status).toBe("broken");
    expect(broken.noPlan).toEqual({ proved: false, rules: [] });
  });

  it("P28 nothing is said of a plan that fits", () => {
    expect(plan({ preparations: crowd("a") }).noPlan).toBeUndefined();
  });

  it("P28 room rounded in whole steps refutes nothing that fits by the gram", () => {
    // 0.34 + 0.33 + 0.33 kg in a kilogram: counted up in 36ths they are 13 + 12 + 12.
    const problem: Problem = {
      horizon: 60,
      tasks: [13, 12, 12].map((amount, i) => ({
        ...{ id: `t${i}`, deadline: 60 },
        modes: [{ duration: 40, resources: [{ of: ["pot"], amount: [amount] }] }],
      })),
      resources: [{ id: "pot", capacity: [36], dimensions: ["kg"] }],
    };
    expect(solve(problem, { schedules: 4 }).status).toBe("broken");
    expect(refuted(problem)).toBe(true);
    expect(refuted(inFavour(problem))).toBe(false);
    // Shelves come whole: nothing is given back.
    const shelves = { ...problem, resources: [{ ...problem.resources![0]!, dimensions: ["shelf"] }] };
    expect(inFavour(shelves)).toEqual(shelves);
  });
});
