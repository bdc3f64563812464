import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { problems } from "../../tests/schedule/random-problems.ts";
import { checkSchedule } from "./check.ts";
import { placesLike } from "./like.ts";
import { buildModel } from "./model.ts";
import { plantService } from "./planted.ts";
import type { Problem, Schedule } from "./problem.ts";
import { faultOf } from "./rcpsp/project.ts";
import { easierThan, FIRST, proofOf, refuted } from "./refute.ts";
import { solve } from "./solve.ts";

/** What of the easier problem a plan breaks, in words; it must break nothing. */
function fault(problem: Problem, { placements }: Schedule): string | null {
  const easier = easierThan(problem);
  const proof = proofOf(problem);
  if (!easier || !proof) return "no plan at all";
  // What stands for absence is fixed where it stands.
  const start = Int32Array.from(
    { length: easier.n },
    (_, i) => placements[i]?.start ?? proof.bounds.min(i) - FIRST,
  );
  const lasts = (i: number) => start[i]! + easier.duration[i]!;
  const together = (easier.apart ?? []).find(([i, j]) => start[i]! < lasts(j) && start[j]! < lasts(i));
  return together ? `${together.join(" and ")} at once` : faultOf(easier, start);
}

describe("S24 what is refuted has no plan", () => {
  it("S24 every plan found of random problems is a plan of the easier one too", () => {
    const seen = { plans: 0, refuted: 0 };
    fc.assert(
      fc.property(problems, (problem) => {
        const { status, schedule } = solve(problem, { schedules: 8 });
        const impossible = refuted(problem);
        if (impossible) seen.refuted++;
        if (status !== "feasible" && status !== "optimal") return;
        expect(impossible).toBe(false);
        if (problem.tasks.some((t) => (t.status ?? "open") !== "open" || t.pin?.end !== undefined)) return;
        expect(fault(problem, schedule!)).toBeNull();
        seen.plans++;
      }),
      { seed: 24, numRuns: 500 },
    );
    expect(seen.plans).toBeGreaterThan(60);
    expect(seen.refuted).toBeGreaterThan(8);
  });

  it("S24 so is the planted plan of whole services", () => {
    for (const [tasks, seed] of [
      [60, 1],
      [60, 2],
      [200, 3],
      [200, 4],
    ] as const) {
      const { problem, plan } = plantService({ tasks, seed, optimal: false });
      expect(checkSchedule(problem, plan)).toEqual([]);
      expect(fault(problem, plan)).toBeNull();
      expect(refuted(problem)).toBe(false);
    }
  });

  const cook = (id: string, skills: string[], from: number, to: number) => ({
    id,
    skills,
    shifts: [{ from, to }],
  });
  const work = (id: string, duration: number, skill: string, deadline: number) => ({
    ...{ id, deadline, modes: [{ duration, people: [{ count: 1, skill }] }] },
  });

  it("S24 three hours of one skill in two hours of the only one who has it are refuted; two hours are not", () => {
    const three = (minutes: number): Problem => ({
      horizon: 600,
      tasks: ["a", "b", "c"].map((id) => work(id, minutes, "sauce", 220)),
      persons: [cook("ann", ["sauce"], 100, 220), cook("bob", [], 0, 600)],
    });
    expect(refuted(three(60))).toBe(true);
    expect(refuted(three(40))).toBe(false);
  });

  it("S24 two loads that fill an oven, one after the other, do not fit where a third of another heat lies between", () => {
    const bake = (id: string, set: number, release: number, deadline: number) => ({
      ...{ id, release, deadline },
      modes: [{ duration: 50, resources: [{ of: ["oven"], amount: [1], state: { set } }] }],
    });
    const oven = {
      ...{ id: "oven", capacity: [4] },
      state: { lowest: 50, highest: 250, tolerance: 5, minutesPerUnit: 0, leastMinutes: 0 },
    };
    const day = (deadline: number): Problem => ({
      horizon: 400,
      tasks: [bake("tart", 180, 0, deadline), bake("loaf", 220, 0, deadline), bake("pie", 150, 0, deadline)],
      resources: [oven],
    });
    expect(refuted(day(149))).toBe(true);
    expect(refuted(day(150))).toBe(false);
    expect(solve(day(150), { schedules: 50 }).violations).toEqual([]);
  });

  it("S24 what has begun is not reckoned with", () => {
    const task = work("a", 60, "sauce", 30);
    const problem: Problem = { horizon: 600, tasks: [task], persons: [cook("ann", ["sauce"], 0, 600)] };
    expect(refuted(problem)).toBe(true);
    const begun = { ...task, status: "started" as const, pin: { start: 0, persons: ["ann"] } };
    expect(refuted({ ...problem, now: 10, tasks: [begun] })).toBe(false);
  });

  it("S24 a search that may ask fights for nothing that is refuted, and finds what it finds without asking", () => {
    const sauces = (minutes: number): Problem => ({
      horizon: 600,
      tasks: ["a", "b", "c", "d"].map((id) => work(id, minutes, "sauce", 220)),
      persons: [cook("ann", ["sauce"], 100, 220)],
    });
    const [fought, asked] = [false, true].map((prove) =>
      solve(sauces(40), { schedules: 60, any: true, prove }),
    );
    expect([fought!.status, asked!.status]).toEqual(["broken", "broken"]);
    expect(asked!.schedules).toBeLessThan(fought!.schedules);
    expect(solve(sauces(30), { any: true, prove: true }).schedule).toEqual(
      solve(sauces(30), { any: true }).schedule,
    );
  });

  it("S24 its attempt begins where one at a problem much like it stands, but for what breaks a rule here", () => {
    const { problem, plan } = plantService({ tasks: 60, seed: 1, optimal: false });
    const like = { ...plan, spanIds: (problem.spans ?? []).map(({ id }) => id) };
    const model = buildModel(problem, { mirrored: true });
    expect(placesLike(problem, model, like)!.size).toBe(problem.tasks.length);
    const { task, start } = plan.placements.find((p) => p.persons.length > 0)!;
    const pinned = problem.tasks.map((t) => (t.id === task ? { ...t, pin: { start: start + 1 } } : t));
    const at = problem.tasks.findIndex(({ id }) => id === task);
    const places = placesLike({ ...problem, tasks: pinned }, model, like)!;
    expect(places.has(at)).toBe(false);
    expect(places.size).toBe(problem.tasks.length - 1);
    const more = { ...problem, tasks: [...problem.tasks, { ...problem.tasks[0]!, id: "one more" }] };
    expect(placesLike(more, model, like)).toBeUndefined();
  });
});
