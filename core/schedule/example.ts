import type { Problem } from "./problem.ts";

/** A small problem that says what the file format can: two cooks, an oven with a temperature, a lag both ways. */
export const EXAMPLE: Problem = {
  horizon: 480,
  tasks: [
    {
      id: "dough",
      modes: [
        { duration: 30, people: [{ count: 1 }] },
        { duration: 18, people: [{ count: 2 }] },
      ],
    },
    {
      id: "bake",
      modes: [
        { duration: 40, resources: [{ of: ["oven"], amount: [2], state: { set: 220, tolerance: 5 } }] },
      ],
    },
    {
      id: "roast",
      modes: [{ duration: 60, resources: [{ of: ["oven"], amount: [3], state: { set: 160 } }] }],
      deadline: 240,
    },
    { id: "slice", modes: [{ duration: 15, people: [{ count: 1, skill: "knife" }] }], due: 200, late: 2 },
  ],
  lags: [
    { from: { task: "dough", at: "end" }, to: { task: "bake", at: "start" }, least: 60, most: 120 },
    { from: { task: "bake", at: "end" }, to: { task: "slice", at: "start" }, least: 20 },
  ],
  resources: [
    {
      id: "oven",
      capacity: [4],
      dimensions: ["shelves"],
      state: { lowest: 20, highest: 250, tolerance: 10, minutesPerUnit: 0.1, leastMinutes: 5 },
    },
  ],
  persons: [
    { id: "ana", skills: ["knife"], shifts: [{ from: 0, to: 300, breaks: [{ from: 120, to: 150 }] }] },
    { id: "ben", skills: [], shifts: [{ from: 0, to: 240 }] },
  ],
  objective: { makespan: 1, late: 1 },
};
