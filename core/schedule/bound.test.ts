import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { problems } from "../../tests/schedule/random-problems.ts";
import type { Problem } from "./problem.ts";
import { solve } from "./solve.ts";

const PEAK = { weight: 1, share: 0.75, every: 60 };

/** One cook for four hours; each job of so many minutes has to lie between two minutes. */
const day = (jobs: readonly (readonly [minutes: number, release: number, deadline: number])[]): Problem => ({
  horizon: 240,
  tasks: jobs.map(([duration, release, deadline], i) => ({
    ...{ id: `job${i}`, release, deadline, modes: [{ duration, people: [{ count: 1 }] }] },
  })),
  persons: [{ id: "ann", skills: [], shifts: [{ from: 0, to: 240, breaks: [] }] }],
  objective: { late: 0, early: 0, hold: 0, modes: 0, peak: PEAK },
});

const peakOf = (problem: Problem) => {
  const result = solve(problem, { schedules: 200 });
  expect(result.status).not.toBe("broken");
  return result.objective.find(({ term }) => term === "peak")!;
};

describe("S15: a bound on peaks of work", () => {
  it("work that fits nowhere else than two hours is above three quarters of them, wherever it lies", () => {
    // 50 + 55 of 120 minutes: 105 - 90. The job of the last hour has 240 minutes to itself otherwise.
    const tight = day([
      [50, 0, 120],
      [55, 0, 120],
      [40, 120, 240],
    ]);
    expect(peakOf(tight)).toMatchObject({ value: 15, bound: 15 });
  });

  it("runs apart from each other add up, and a calm hour between them takes nothing off", () => {
    const apart = day([
      [55, 0, 60],
      [10, 60, 180],
      [50, 180, 240],
    ]);
    // 55 - 45 and 50 - 45.
    expect(peakOf(apart)).toMatchObject({ value: 15, bound: 15 });
  });

  it("where the work may lie anywhere and there is room, nought", () => {
    const free = day([
      [50, 0, 240],
      [50, 0, 240],
    ]);
    expect(peakOf(free)).toMatchObject({ value: 0, bound: 0 });
  });

  it("no plan of random problems has less", () => {
    let above = 0;
    fc.assert(
      fc.property(problems, (problem) => {
        const peak = { weight: 1, share: 0.3, every: 30, from: 10 };
        const { violations, objective } = solve(
          { ...problem, objective: { ...problem.objective, peak } },
          { schedules: 30 },
        );
        const term = objective.find((each) => each.term === "peak");
        if (violations.length > 0 || term?.bound === undefined) return;
        expect(term.bound).toBeLessThanOrEqual(term.value + 1e-9);
        if (term.bound > 0) above++;
      }),
      { seed: 17, numRuns: 150 },
    );
    expect(above).toBeGreaterThan(5);
  });
});
