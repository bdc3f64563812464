import { describe, expect, it } from "vitest";
import { checkSchedule } from "./check.ts";
import type { Mode, Placement, Problem, Schedule, Task, Violation } from "./problem.ts";
import { repair } from "./repair.ts";

// Each case starts from a plan that keeps every rule and spoils one thing; the amount is worked out by hand.

const task = (id: string, mode: Mode, more: Partial<Task> = {}): Task => ({ id, modes: [mode], ...more });
const at = (
  id: string,
  start: number,
  end: number,
  persons: string[] = [],
  resources: string[] = [],
): Placement => ({
  task: id,
  start,
  end,
  mode: 0,
  persons,
  resources,
});
const plan = (...placements: Placement[]): Schedule => ({ placements, spans: [] });
const persons = [
  {
    id: "ann",
    skills: ["knife"],
    shifts: [
      { from: 0, to: 240, breaks: [{ from: 100, to: 120 }] },
      { from: 480, to: 700 },
    ],
  },
  { id: "bo", skills: [], shifts: [{ from: 0, to: 700 }] },
];
const brief = (violations: readonly Violation[]) => violations.map((v) => [v.rule, v.tasks.join(), v.by]);

function expectBroken(problem: Problem, schedule: Schedule, ...wanted: [string, string, number][]): void {
  expect(brief(checkSchedule(problem, schedule))).toEqual(wanted);
}

describe("S2: dates and pins", () => {
  const problem: Problem = {
    horizon: 600,
    now: 30,
    tasks: [task("a", { duration: 60 }, { release: 50, deadline: 200, pin: { start: 100 } })],
  };
  it("keeps them", () => expectBroken(problem, plan(at("a", 100, 160))));
  it("moved off its pin, before its release and now", () =>
    expectBroken(problem, plan(at("a", 20, 80)), ["pin", "a", 80], ["now", "a", 10], ["release", "a", 30]));
  it("past its deadline and the horizon", () =>
    expectBroken(
      problem,
      plan(at("a", 560, 620)),
      ["pin", "a", 460],
      ["horizon", "a", 20],
      ["deadline", "a", 420],
    ));
  it("shorter than its duration", () =>
    expectBroken(problem, plan(at("a", 100, 150)), ["duration", "a", 10]));
});

describe("S3: lags both ways, from start or end to start or end", () => {
  const problem = (least: number, most: number): Problem => ({
    horizon: 600,
    tasks: [task("a", { duration: 60 }), task("b", { duration: 30 })],
    lags: [{ from: { task: "a", at: "end" }, to: { task: "b", at: "end" }, least, most, rule: "rest" }],
  });
  // b ends at 130, 70 after a ends.
  const schedule = plan(at("a", 0, 60), at("b", 100, 130));
  it("keeps them", () => expectBroken(problem(70, 70), schedule));
  it("too soon", () => expectBroken(problem(75, 80), schedule, ["least-lag", "a,b", 5]));
  it("too late", () => expectBroken(problem(0, 45), schedule, ["longest-wait", "a,b", 25]));
  it("names the rule it was given", () =>
    expect(checkSchedule(problem(0, 45), schedule)[0]!.on).toBe("rest"));
});

describe("S4: people", () => {
  const one: Mode = { duration: 40, people: [{ count: 1, skill: "knife" }] };
  const problem = (mode: Mode, count = 1): Problem => ({
    horizon: 700,
    persons,
    tasks: Array.from({ length: count }, (_, i) => task("ab"[i]!, mode)),
  });
  it("keeps them", () => expectBroken(problem(one), plan(at("a", 0, 40, ["ann"]))));
  it("without the skill", () => expectBroken(problem(one), plan(at("a", 0, 40, ["bo"])), ["skill", "a", 1]));
  it("nobody, or too many", () => {
    expectBroken(problem(one), plan(at("a", 0, 40)), ["person-choice", "a", 1]);
    expectBroken(problem(one), plan(at("a", 0, 40, ["ann", "bo"])), ["person-choice", "a", 1]);
  });
  it("the same person twice in one task", () =>
    expectBroken(problem({ duration: 40, people: [{ count: 2 }] }), plan(at("a", 0, 40, ["bo", "bo"])), [
      "person-choice",
      "a",
      1,
    ]));
  it("two tasks at once", () =>
    expectBroken(problem(one, 2), plan(at("a", 0, 40, ["ann"]), at("b", 25, 65, ["ann"])), [
      "person-busy",
      "a,b",
      15,
    ]));
  it("unbroken work over a break counts the break as overtime", () =>
    expectBroken(problem(one), plan(at("a", 90, 130, ["ann"])), ["shift", "a", 20]));
  it("work after the shift counts as overtime", () =>
    expectBroken(problem(one), plan(at("a", 220, 260, ["ann"])), ["shift", "a", 20]));

  const paused: Mode = { ...one, interrupt: "breaks" };
  it("work that may pause spans the break", () =>
    expectBroken(problem(paused), plan(at("a", 90, 150, ["ann"]))));
  it("and may not stop short or run on", () => {
    expectBroken(problem(paused), plan(at("a", 90, 130, ["ann"])), ["shift", "a", 20]);
    expectBroken(problem(paused), plan(at("a", 90, 160, ["ann"])), ["duration", "a", 10]);
  });
  it("pausing at breaks does not carry over to the next shift", () => {
    const overnight = plan(at("a", 220, 500, ["ann"]));
    expectBroken(problem(paused), overnight, ["shift", "a", 240]);
    expectBroken(problem({ ...one, interrupt: "shifts" }), overnight);
  });
  it("two people work when both work", () => {
    const two: Mode = { duration: 40, interrupt: "breaks", people: [{ count: 2 }] };
    expectBroken(problem(two), plan(at("a", 90, 150, ["ann", "bo"])));
    expectBroken(problem(two), plan(at("a", 90, 130, ["ann", "bo"])), ["shift", "a", 20]);
  });
  it("the same persons: the smaller set inside the larger", () => {
    const mode = (count: number): Mode => ({ duration: 10, people: [{ count, same: "crew" }] });
    const both: Problem = {
      horizon: 700,
      persons,
      tasks: [task("a", mode(2)), task("b", mode(1)), task("c", mode(1))],
    };
    const kept = plan(at("a", 0, 10, ["ann", "bo"]), at("b", 10, 20, ["bo"]), at("c", 20, 30, ["bo"]));
    expectBroken(both, kept);
    const split = plan(at("a", 0, 10, ["ann", "bo"]), at("b", 10, 20, ["bo"]), at("c", 20, 30, ["ann"]));
    expectBroken(both, split, ["same-persons", "b,c", 1]);
  });
});

describe("S5: resources by amount and hour", () => {
  const need = { of: ["rack"], amount: [2, 30] };
  const rack = { id: "rack", capacity: [3, 100], dimensions: ["shelves", "kg"] };
  const problem: Problem = {
    horizon: 600,
    resources: [rack, { id: "other", capacity: [9, 9] }],
    tasks: [task("a", { duration: 60, resources: [need] }), task("b", { duration: 60, resources: [need] })],
  };
  it("keeps them", () =>
    expectBroken(problem, plan(at("a", 0, 60, [], ["rack"]), at("b", 60, 120, [], ["rack"]))));
  it("too full", () =>
    expectBroken(problem, plan(at("a", 0, 60, [], ["rack"]), at("b", 50, 110, [], ["rack"])), [
      "capacity",
      "a,b",
      1,
    ]));
  it("a resource it did not ask for", () =>
    expectBroken(problem, plan(at("a", 0, 60, [], ["other"]), at("b", 60, 120, [], ["rack"])), [
      "resource-choice",
      "a",
      1,
    ]));
  it("closed, or smaller by the hour", () => {
    const calendar = [
      { from: 0, to: 100, capacity: [3, 100] },
      { from: 200, to: 300, capacity: [1, 100] },
    ];
    const closed = { ...problem, resources: [{ ...rack, calendar }] };
    const schedule = plan(at("a", 50, 110, [], ["rack"]), at("b", 200, 260, [], ["rack"]));
    expectBroken(closed, schedule, ["capacity", "a", 2], ["capacity", "b", 1], ["capacity", "a", 30]);
  });
  it("alone where it asked to be", () => {
    const exclusive: Problem = {
      ...problem,
      tasks: [
        task("a", { duration: 60, resources: [{ ...need, exclusive: true }] }),
        task("b", { duration: 60, resources: [{ of: ["rack"], amount: [] }] }),
      ],
    };
    expectBroken(exclusive, plan(at("a", 0, 60, [], ["rack"]), at("b", 45, 105, [], ["rack"])), [
      "exclusive",
      "a,b",
      15,
    ]);
  });
  it("a load goes in together", () => {
    const load = (batch: string): Mode => ({
      duration: 60,
      resources: [{ of: ["rack"], amount: [1, 10], batch }],
    });
    const loads = (b: string): Problem => ({ ...problem, tasks: [task("a", load("x")), task("b", load(b))] });
    expectBroken(loads("x"), plan(at("a", 0, 60, [], ["rack"]), at("b", 0, 60, [], ["rack"])));
    expectBroken(loads("x"), plan(at("a", 0, 60, [], ["rack"]), at("b", 20, 80, [], ["rack"])), [
      "batch",
      "a,b",
      40,
    ]);
    expectBroken(loads("y"), plan(at("a", 0, 60, [], ["rack"]), at("b", 0, 60, [], ["rack"])), [
      "batch",
      "a,b",
      60,
    ]);
  });
  it("S7: the same resource under one name", () => {
    const same = (of: string[]): Mode => ({ duration: 60, resources: [{ of, amount: [1], same: "pot" }] });
    const both: Problem = {
      ...problem,
      tasks: [task("a", same(["rack", "other"])), task("b", same(["rack", "other"]))],
    };
    expectBroken(both, plan(at("a", 0, 60, [], ["rack"]), at("b", 60, 120, [], ["other"])), [
      "same-resource",
      "a,b",
      1,
    ]);
  });
  it("S7: a span holds across what lies between", () => {
    const spanned: Problem = {
      ...problem,
      tasks: [
        task("a", { duration: 10 }),
        task("b", { duration: 10 }),
        task("c", { duration: 60, resources: [need] }),
      ],
      spans: [{ id: "kept", from: { task: "a", at: "start" }, to: { task: "b", at: "end" }, need }],
    };
    const schedule = (start: number): Schedule => ({
      placements: [at("a", 0, 10), at("b", 100, 110), at("c", start, start + 60, [], ["rack"])],
      spans: ["rack"],
    });
    expectBroken(spanned, schedule(110));
    expectBroken(spanned, schedule(90), ["capacity", "kept,c", 1]);
  });
});

describe("S6: states, changeovers, cleaning", () => {
  const oven = {
    id: "oven",
    capacity: [4],
    state: { lowest: 50, highest: 250, tolerance: 5, minutesPerUnit: 0.5, leastMinutes: 10 },
    setups: [{ from: "nuts", to: "plain", minutes: 25 }],
  };
  const bake = (set: number, kind?: string): Mode => ({
    duration: 60,
    resources: [{ of: ["oven"], amount: [1], state: { set }, ...(kind ? { class: kind } : {}) }],
  });
  const problem = (...modes: Mode[]): Problem => ({
    horizon: 600,
    resources: [oven],
    tasks: modes.map((m, i) => task("abc"[i]!, m)),
  });
  const starts = (...list: number[]) => plan(...list.map((s, i) => at("abc"[i]!, s, s + 60, [], ["oven"])));
  it("shares within the tolerance", () => expectBroken(problem(bake(180), bake(185)), starts(0, 20)));
  it("does not share beyond it", () =>
    expectBroken(problem(bake(180), bake(190)), starts(0, 20), ["state", "a,b", 10]));
  it("takes the larger of the least and the way to go", () => {
    expectBroken(problem(bake(180), bake(190)), starts(0, 70));
    expectBroken(problem(bake(180), bake(190)), starts(0, 66), ["changeover", "a,b", 4]);
    expectBroken(problem(bake(180), bake(230)), starts(0, 66), ["changeover", "a,b", 19]);
  });
  it("counts only minutes in which it stands empty", () => {
    // a at 180, then c at 184 which both could bear, then b at 188: never empty in between.
    expectBroken(problem(bake(180), bake(188), bake(184)), starts(0, 90, 40), ["changeover", "a,b", 10]);
  });
  it("cleans from nuts to plain and not back", () => {
    expectBroken(problem(bake(180, "nuts"), bake(180, "plain")), starts(0, 70), ["changeover", "a,b", 15]);
    expectBroken(problem(bake(180, "plain"), bake(180, "nuts")), starts(0, 60));
    expectBroken(problem(bake(180, "plain"), bake(180, "nuts")), starts(0, 30), ["changeover", "a,b", 25]);
  });
});

describe("S8: what has happened is not judged", () => {
  const problem: Problem = {
    horizon: 600,
    now: 100,
    tasks: [
      task("a", { duration: 60 }, { status: "done", pin: { start: 0, end: 90 }, release: 30, deadline: 50 }),
      task("b", { duration: 60 }, { status: "started", pin: { start: 95 } }),
      task("c", { duration: 20 }),
    ],
    lags: [
      { from: { task: "a", at: "end" }, to: { task: "b", at: "start" }, least: 10 },
      { from: { task: "a", at: "end" }, to: { task: "c", at: "start" }, most: 60 },
    ],
  };
  it("but still anchors what is to come", () => {
    expectBroken(problem, plan(at("a", 0, 90), at("b", 95, 155), at("c", 150, 170)));
    expectBroken(problem, plan(at("a", 0, 90), at("b", 95, 155), at("c", 155, 175)), [
      "longest-wait",
      "a,c",
      5,
    ]);
  });
});

describe("S8: what is done leaves its state and class behind", () => {
  const resources = [
    {
      ...{ id: "oven", capacity: [2] },
      state: { lowest: 50, highest: 250, tolerance: 5, minutesPerUnit: 0.5, leastMinutes: 10 },
      setups: [{ from: "nuts", to: "plain", minutes: 25 }],
    },
  ];
  const use = (set: number, kind: string) => ({
    ...{ of: ["oven"], amount: [2], state: { set }, class: kind },
  });
  const over = (id: string, set: number, start: number, end: number): Task => ({
    ...task(id, { duration: end - start, resources: [use(set, "nuts")] }),
    ...{ status: "done", pin: { start, end } },
  });
  const on = (id: string, start: number, end: number) => ({ ...at(id, start, end), resources: ["oven"] });
  const problem: Problem = {
    ...{ horizon: 600, now: 60, resources },
    tasks: [
      over("a", 180, 0, 60),
      over("b", 220, 0, 50),
      task("c", { duration: 30, resources: [use(180, "plain")] }),
    ],
  };

  it("what comes next stands as far off as from anything else; what is over is not at fault itself", () => {
    const here = (start: number) => plan(on("a", 0, 60), on("b", 0, 50), on("c", start, start + 30));
    expectBroken(problem, here(85));
    // The ten minutes since the last of them ended are all that either has had.
    expectBroken(problem, here(70), ["changeover", "b,c", 15], ["changeover", "a,c", 15]);
  });

  it("is kept when a plan is mended, though nothing else ties the two", () => {
    const old = plan(on("a", 0, 60), on("b", 0, 50), on("c", 200, 230));
    const pulled = problem.tasks.map((t) => (t.id === "c" ? { ...t, deadline: 120 } : t));
    const { schedule, violations } = repair({ ...problem, tasks: pulled }, old);
    expect(violations).toEqual([]);
    expect(schedule.placements[2]!.start).toBeGreaterThanOrEqual(85);
    const soon = problem.tasks.map((t) => (t.id === "c" ? { ...t, deadline: 110 } : t));
    expect(repair({ ...problem, tasks: soon }, old).violations).not.toEqual([]);
  });
});

it("S2: a schedule that does not fit the problem is refused", () => {
  const problem: Problem = { horizon: 10, tasks: [task("a", { duration: 1 })] };
  expect(() => checkSchedule(problem, plan())).toThrow("0 placements for 1 tasks");
  expect(() => checkSchedule(problem, plan(at("b", 0, 1)))).toThrow('placement 0 is of "b", not "a"');
  expect(() => checkSchedule(problem, plan({ ...at("a", 0, 1), mode: 1 }))).toThrow('"a" has no mode 1');
  expect(() => checkSchedule(problem, plan(at("a", 0.5, 1)))).toThrow("placed from 0.5 to 1");
});
