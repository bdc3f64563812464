import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { problems } from "../../tests/schedule/random-problems.ts";
import { findConflict } from "./conflict.ts";
import { whyNotEarlier, whyNotLater } from "./explain.ts";
import type { Problem, Task } from "./problem.ts";
import { solve } from "./solve.ts";

const hands = (id: string, duration: number, more: Partial<Task> = {}): Task => ({
  id,
  modes: [{ duration, people: [{ count: 1 }] }],
  ...more,
});

const line: Problem = {
  horizon: 200,
  tasks: [
    hands("chop", 30, { early: 1 }),
    hands("cook", 40, { early: 1 }),
    hands("plate", 10, { early: 1, deadline: 120 }),
    hands("sweep", 20, { release: 0 }),
  ],
  lags: [
    { from: { task: "chop", at: "end" }, to: { task: "cook", at: "start" }, least: 0 },
    { from: { task: "cook", at: "end" }, to: { task: "plate", at: "start" }, least: 5, rule: "rest" },
  ],
  persons: [{ id: "p", skills: [], shifts: [{ from: 0, to: 130 }] }],
};
const at = (task: string, start: number, end: number) => ({
  task,
  start,
  end,
  mode: 0,
  persons: ["p"],
  resources: [],
});

describe("S18: why not later, why not earlier", () => {
  const plan = {
    placements: [at("chop", 35, 65), at("cook", 65, 105), at("plate", 110, 120), at("sweep", 0, 20)],
    spans: [],
  };

  it("follows the binding chain to the date at its end", () => {
    expect(whyNotLater(line, plan, "chop")).toEqual({
      task: "chop",
      play: 0,
      end: "fixed",
      chain: [
        { task: "chop", limit: 35, rule: "least-lag", other: "cook" },
        { task: "cook", limit: 65, rule: "least-lag", on: "rest", other: "plate" },
        { task: "plate", limit: 110, rule: "deadline" },
      ],
    });
  });

  it("follows the people to the neighbour in the way", () => {
    expect(whyNotEarlier(line, plan, "chop")).toMatchObject({
      play: 15,
      chain: [
        { task: "chop", limit: 20, rule: "person-busy", on: "p", other: "sweep" },
        { task: "sweep", limit: 0, rule: "horizon" },
      ],
      end: "fixed",
    });
    expect(whyNotLater(line, plan, "sweep")).toMatchObject({
      play: 15,
      chain: [
        { task: "sweep", limit: 15, other: "chop" },
        { task: "chop" },
        { task: "cook" },
        { task: "plate" },
      ],
      end: "fixed",
    });
  });

  it("stops where the neighbour could give, and says how much", () => {
    const early = { ...plan, placements: [at("chop", 20, 50), ...plan.placements.slice(1)] };
    expect(whyNotLater(line, early, "sweep")).toEqual({
      task: "sweep",
      play: 0,
      end: "movable",
      gives: 15,
      chain: [{ task: "sweep", limit: 0, rule: "person-busy", on: "p", other: "chop" }],
    });
  });

  it("every chain starts at the task and each link's limit is where the checker begins to object", () => {
    fc.assert(
      fc.property(problems, fc.nat(6), (problem, pick) => {
        const { schedule, violations, earliest, latest } = solve(problem, { schedules: 15 });
        if (violations.length > 0 || !schedule) return;
        const i = pick % problem.tasks.length;
        const task = problem.tasks[i]!;
        for (const [why, limit] of [
          [whyNotLater(problem, schedule, task.id), latest[i]],
          [whyNotEarlier(problem, schedule, task.id), earliest[i]],
        ] as const) {
          expect(why.play).toBe(Math.abs(limit! - schedule.placements[i]!.start));
          if (why.chain[0]) expect(why.chain[0]).toMatchObject({ task: task.id, limit });
          expect(new Set(why.chain.map((l) => l.task)).size).toBe(why.chain.length);
          if (why.end === "fixed" && (problem.tasks.length === 1 || why.chain.length > 0))
            expect(why.chain.length).toBeGreaterThan(0);
        }
      }),
      { seed: 31, numRuns: 120 },
    );
  });
});

describe("S19: conflict sets are irreducible", () => {
  it("dates and waits alone: the circle, with the minutes missing", () => {
    const problem: Problem = {
      horizon: 500,
      tasks: [hands("a", 60, { release: 100 }), hands("b", 30), hands("c", 10, { deadline: 180 })],
      lags: [
        { from: { task: "a", at: "end" }, to: { task: "b", at: "start" }, least: 0, rule: "cool" },
        { from: { task: "b", at: "end" }, to: { task: "c", at: "start" }, least: 5 },
      ],
      persons: [{ id: "p", skills: [], shifts: [{ from: 0, to: 500 }] }],
    };
    // 100 + 60 + 30 + 5 + 10 = 205, 25 after 180.
    const conflict = findConflict(problem)!;
    expect(conflict).toMatchObject({ by: 25, irreducible: true });
    expect([...conflict.tasks].sort()).toEqual(["a", "b", "c"]);
    expect(conflict.rules).toContain("deadline of c");
    expect(conflict.rules).toContain("least wait: cool");
    const result = solve(problem, { schedules: 10 });
    expect(result.status).toBe("infeasible");
    expect(result.conflicts).toEqual([conflict]);
  });

  it("hands: only the tasks that compete, and each is needed", () => {
    const problem: Problem = {
      horizon: 500,
      tasks: [
        ...["a", "b", "c"].map((id) => hands(id, 40, { deadline: 100 })),
        ...["x", "y", "z"].map((id) => hands(id, 40, { deadline: 500 })),
      ],
      persons: [{ id: "p", skills: [], shifts: [{ from: 0, to: 500 }] }],
    };
    const conflict = findConflict(problem)!;
    expect(conflict.irreducible).toBe(true);
    expect([...conflict.tasks].sort()).toEqual(["a", "b", "c"]);
    expect(conflict.rules).toEqual(["deadline of a", "deadline of b", "deadline of c", "number of hands"]);
    for (const left of conflict.tasks) {
      const rest = { ...problem, tasks: problem.tasks.filter((t) => t.id !== left) };
      expect(findConflict(rest)).toBeNull();
    }
  });

  it("what a span holds counts, too, and every rule comes as a value", () => {
    const wait = (id: string): Problem["tasks"][number] => ({
      ...{ id, deadline: 100 },
      modes: [{ duration: 60 }],
    });
    const need = { of: ["kettle"], amount: [1], exclusive: true };
    const problem: Problem = {
      horizon: 500,
      tasks: [wait("a"), wait("b")],
      resources: [{ id: "kettle", capacity: [2] }],
      spans: ["a", "b"].map((task) => ({
        ...{ id: `in ${task}`, from: { task, at: "start" as const }, to: { task, at: "end" as const } },
        need,
      })),
    };
    const conflict = findConflict(problem)!;
    expect(conflict.parts).toEqual([
      { kind: "deadline", tasks: ["a"] },
      { kind: "deadline", tasks: ["b"] },
      { kind: "capacity", tasks: [], on: "kettle" },
    ]);
    expect(conflict.parts).toHaveLength(conflict.rules.length);
  });

  it("null when everything fits", () => {
    expect(findConflict(line)).toBeNull();
  });
});
