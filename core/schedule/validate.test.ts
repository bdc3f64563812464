import { describe, expect, it } from "vitest";
import type { Problem } from "./problem.ts";
import { validateProblem } from "./validate.ts";

const sound: Problem = {
  horizon: 600,
  tasks: [
    { id: "a", modes: [{ duration: 30, people: [{ count: 1, skill: "knife" }] }] },
    {
      id: "b",
      modes: [{ duration: 60, resources: [{ of: ["box"], amount: [2], state: { set: 180 } }] }],
      deadline: 500,
    },
  ],
  lags: [{ from: { task: "a", at: "end" }, to: { task: "b", at: "start" }, least: 0, most: 30 }],
  resources: [
    {
      id: "box",
      capacity: [4],
      dimensions: ["shelves"],
      state: { lowest: 60, highest: 250, tolerance: 5, minutesPerUnit: 0.2, leastMinutes: 5 },
    },
  ],
  persons: [{ id: "p", skills: ["knife"], shifts: [{ from: 0, to: 300, breaks: [{ from: 100, to: 120 }] }] }],
};

describe("S1: a problem is refused by name, with the path and the mend", () => {
  it("accepts a sound problem", () => {
    expect(validateProblem(sound)).toEqual([]);
  });

  const cases: [string, (p: Problem) => Problem, string, RegExp][] = [
    [
      "a duration below zero",
      (p) => ({ ...p, tasks: [{ id: "a", modes: [{ duration: -1 }] }, p.tasks[1]!] }),
      "/tasks/0/modes/0/duration",
      /"a" lasts -1 min/,
    ],
    [
      "a duration that is not whole",
      (p) => ({ ...p, tasks: [{ id: "a", modes: [{ duration: 1.5 }] }, p.tasks[1]!] }),
      "/tasks/0/modes/0/duration",
      /whole/,
    ],
    ["an unknown resource", (p) => ({ ...p, resources: [] }), "/tasks/1/modes/0/resources/0/of/0", /box/],
    [
      "a demand above capacity",
      (p) => ({ ...p, resources: [{ ...p.resources![0]!, capacity: [1] }] }),
      "/tasks/1/modes/0/resources/0",
      /needs 2 of shelves, "box" has 1/,
    ],
    [
      "a state out of range",
      (p) => ({
        ...p,
        resources: [{ ...p.resources![0]!, state: { ...p.resources![0]!.state!, highest: 150 } }],
      }),
      "/tasks/1/modes/0/resources/0",
      /needs the state 180, "box" reaches 60 to 150/,
    ],
    [
      "a skill nobody has",
      (p) => ({ ...p, persons: [{ ...p.persons![0]!, skills: [] }] }),
      "/tasks/0/modes/0/people/0",
      /needs 1 with the skill "knife", there are 0/,
    ],
    [
      "a shift without a working minute",
      (p) => ({
        ...p,
        persons: [{ ...p.persons![0]!, shifts: [{ from: 0, to: 20, breaks: [{ from: 0, to: 20 }] }] }],
      }),
      "/persons/0/shifts",
      /no working minute/,
    ],
    [
      "a calendar that never opens",
      (p) => ({
        ...p,
        resources: [{ ...p.resources![0]!, calendar: [{ from: 700, to: 800, capacity: [4] }] }],
      }),
      "/resources/0/calendar",
      /never available/,
    ],
    [
      "a lag to nobody",
      (p) => ({ ...p, lags: [{ from: { task: "a", at: "end" }, to: { task: "z", at: "start" }, least: 0 }] }),
      "/lags/0/to/task",
      /"z"/,
    ],
    [
      "two tasks of one name",
      (p) => ({ ...p, tasks: [p.tasks[0]!, p.tasks[0]!] }),
      "/tasks/1/id",
      /also tasks 0/,
    ],
    [
      "least lags in a circle",
      (p) => ({
        ...p,
        lags: [...p.lags!, { from: { task: "b", at: "end" }, to: { task: "a", at: "start" }, least: 0 }],
      }),
      "/lags",
      /circle/,
    ],
    [
      "a started task without a start",
      (p) => ({ ...p, tasks: [{ ...p.tasks[0]!, status: "started" as const }, p.tasks[1]!] }),
      "/tasks/0/pin",
      /no start/,
    ],
  ];
  for (const [name, spoil, path, what] of cases)
    it(`refuses ${name}`, () => {
      const refusals = validateProblem(spoil(sound));
      const hit = refusals.find((r) => r.path === path);
      expect(hit, JSON.stringify(refusals)).toBeDefined();
      expect(hit!.what).toMatch(what);
      expect(hit!.mend.length).toBeGreaterThan(5);
    });
});
