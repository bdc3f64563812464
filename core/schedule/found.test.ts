import { expect, test } from "vitest";
import { foundIn, questionOf } from "./found.ts";
import { plantService } from "./planted.ts";
import type { Problem } from "./problem.ts";
import { solve } from "./solve.ts";

const EFFORT = { seed: 3, schedules: 40 };

test("S23 what was found before gives the same answer, whole, without a search", () => {
  for (const seed of [1, 2, 3]) {
    const { problem } = plantService({ tasks: 60, seed: seed });
    const searched = solve(problem, EFFORT);
    const known = JSON.parse(JSON.stringify(foundIn(searched)));
    let asked = 0;
    const again = solve(problem, { ...EFFORT, known, stop: () => ++asked < 0 });
    expect(again).toEqual(searched);
    expect(asked).toBe(0);
  }
});

test("S23 a plan that breaks the rules is judged anew: what a stranger kept is not taken for feasible", () => {
  const { problem } = plantService({ tasks: 60, seed: 1 });
  const found = foundIn(solve(problem, EFFORT))!;
  const placements = found.schedule.placements.map((place) => ({ ...place, start: 0, end: 1 }));
  const told = solve(problem, {
    ...EFFORT,
    known: { ...found, schedule: { ...found.schedule, placements } },
  });
  expect(told.status).toBe("broken");
  expect(told.violations.length).toBeGreaterThan(0);
});

test("S23 a plan of another problem is not taken: it is searched", () => {
  const [one, other] = [
    plantService({ tasks: 60, seed: 1 }).problem,
    plantService({ tasks: 60, seed: 2 }).problem,
  ];
  const known = foundIn(solve(other, EFFORT));
  expect(solve(one, { ...EFFORT, known })).toEqual(solve(one, EFFORT));
});

test("S23 a search that a clock stopped is not kept; another effort or problem is another question", () => {
  const { problem } = plantService({ tasks: 60, seed: 1 });
  expect(foundIn(solve(problem, { ...EFFORT, stop: () => true }))).toBeUndefined();
  const later: Problem = { ...problem, horizon: problem.horizon + 1 };
  const asked = [questionOf(problem, EFFORT), questionOf(later, EFFORT), questionOf(problem, { seed: 4 })];
  expect(new Set(asked).size).toBe(3);
});
