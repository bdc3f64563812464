import { describe, expect, it } from "vitest";
import { Board } from "./board.ts";
import { checkSchedule } from "./check.ts";
import { FirstPlan } from "./first.ts";
import { buildModel } from "./model.ts";
import { objectiveOf, totalOf } from "./objective.ts";
import { plantService } from "./planted.ts";
import { Random } from "./random.ts";
import { solve } from "./solve.ts";
import { validateProblem } from "./validate.ts";

describe("S14: services with a planted plan", () => {
  for (const optimal of [false, true])
    for (const tasks of [20, 60, 200])
      it(`${tasks} tasks${optimal ? ", planted optimum" : ""}: the planted plan is sound and solve() finds one as good`, () => {
        for (const seed of tasks < 200 ? [1, 2, 3] : [1]) {
          const { problem, plan } = plantService({ tasks, seed, optimal });
          expect(validateProblem(problem)).toEqual([]);
          expect(checkSchedule(problem, plan)).toEqual([]);
          const result = solve(problem, { schedules: 600 });
          expect(result.violations).toEqual([]);
          const planted = totalOf(objectiveOf(problem, plan));
          expect(result.value).toBeLessThanOrEqual(planted * (optimal ? 1.05 : 1));
          expect(result.bound).toBeLessThanOrEqual(Math.min(planted, result.value) + 1e-9);
        }
      });
});

describe("S13: when not everything fits, the best attempt says what it breaks", () => {
  it("one pair of hands fewer than the work needs comes back as overtime", () => {
    const hands = (id: string) => ({
      id,
      modes: [{ duration: 60, people: [{ count: 1 }] }],
      deadline: 180,
      early: 1,
    });
    const result = solve({
      horizon: 400,
      tasks: ["a", "b", "c", "d"].map(hands),
      persons: [{ id: "p", skills: [], shifts: [{ from: 0, to: 160 }] }],
    });
    // Four hours of work, 160 minutes of shift, no place after 180: 20 minutes of overtime place a third task,
    // the fourth has to stand on top of another or come late.
    expect(result.status).toBe("broken");
    const rules = new Set(result.violations.map((v) => v.rule));
    expect(rules.has("shift")).toBe(true);
    const placed = result.schedule!.placements.length;
    expect(placed).toBe(4);
  });

  it("what is more critical keeps its place", () => {
    const hands = (id: string, criticality: number) => ({
      id,
      modes: [{ duration: 60, people: [{ count: 1 }] }],
      deadline: 60,
      criticality,
    });
    for (const critical of ["a", "b", "c"]) {
      const result = solve(
        {
          horizon: 400,
          tasks: ["a", "b", "c"].map((id) => hands(id, id === critical ? 9 : 1)),
          persons: [{ id: "p", skills: [], shifts: [{ from: 0, to: 400 }] }],
        },
        { relax: ["late"] },
      );
      const late = result.violations.filter((v) => v.rule === "deadline").flatMap((v) => v.tasks);
      expect(late).not.toContain(critical);
    }
  });

  it("S22: a chain longer than the day is attempted, not fought for; in a long one windows moved count", () => {
    const chain = (length: number, horizon: number) => ({
      horizon,
      tasks: Array.from({ length }, (_, i) => ({
        id: `t${i}`,
        modes: [{ duration: 1, people: [{ count: 1 }] }],
      })),
      lags: Array.from({ length: length - 1 }, (_, i) => ({
        from: { task: `t${i}`, at: "end" as const },
        to: { task: `t${i + 1}`, at: "start" as const },
        least: 0,
      })),
      persons: [{ id: "p", skills: [], shifts: [{ from: 0, to: horizon }] }],
    });
    const tooLong = solve(chain(150, 120), { schedules: 400 });
    expect(tooLong.status).toBe("infeasible");
    expect(tooLong.violations.length).toBeGreaterThan(0);
    expect(tooLong.schedules).toBeLessThan(40);
    const fits = chain(200, 400);
    const board = new Board(buildModel(fits, { mirrored: true }));
    const first = new FirstPlan(board, new Random(1));
    expect(first.complete).toBe(true);
    expect(board.effort).toBeGreaterThan(board.tried);
    expect(solve(fits, { schedules: 20 }).status).toBe("optimal");
  });

  it("the order of what is given up is the caller's", () => {
    const problem = {
      horizon: 400,
      tasks: [{ id: "a", modes: [{ duration: 100, people: [{ count: 1 }] }], deadline: 100 }],
      persons: [{ id: "p", skills: [], shifts: [{ from: 50, to: 400 }] }],
    };
    expect(solve(problem, { relax: ["overtime", "late"] }).violations).toMatchObject([
      { rule: "shift", by: 50 },
    ]);
    expect(solve(problem, { relax: ["late", "overtime"] }).violations).toMatchObject([
      { rule: "deadline", by: 50 },
    ]);
  });
});
