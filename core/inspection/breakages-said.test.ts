import { describe, expect, test } from "vitest";
import { judgedWhole, type Small, toldBy } from "./testing/breaking.ts";

const told = (breaking: (s: Small) => unknown) => toldBy(judgedWhole(breaking));
const whole = (breaking: (s: Small) => unknown) =>
  judgedWhole(breaking).findings.map(({ rule, what }) => `${rule}: ${what}`);

describe("I20 what is said of each task, worked out again", () => {
  test("worked by hand nothing is wrong with it", () => {
    expect(told(() => {})).toEqual([]);
  });

  test("slack said too long or too short, task by task, in words with both figures", () => {
    expect(
      whole((s) => Object.assign(s.task("gratin/slice/1"), { slackMin: 90, latest: "D 18:30" })),
    ).toEqual(["slack: Gratin: Slice (D 17:00) is said to have 1 h 30 min of slack, it has 1 h 26 min"]);
    const ids = judgedTasks();
    expect(ids.length).toBe(21);
    for (const id of ids)
      for (const by of [1, -1])
        expect(told((s) => (s.task(id).slackMin += by))).toEqual([["slack", [id], 1]]);
  });

  test("a latest start that is not its start and its slack", () => {
    expect(told((s) => (s.task("gratin/slice/1").latest = "D 18:27"))).toEqual([
      ["slack", ["gratin/slice/1"], 1],
    ]);
  });

  test("slack ends where a unit is no longer there", () => {
    const until = (s: Small) => {
      s.unit("combi").days = [{ from: "D 08:00", to: "D 19:10" }];
    };
    // The gratin is in by 18:25, so sliced from 18:10: 5 and 70 min instead of 21 and 86.
    expect(told(until)).toEqual([
      ["slack", ["gratin/slice/1"], 16],
      ["slack", ["gratin/bake/1/wait"], 16],
    ]);
  });

  test("slack ends where a guest's plate would get traces: nothing is pushed past what must come after it", () => {
    // Whoever is coeliac gets gratin, tarts are of flour and mixed at the same bench.
    const shared = (s: Small) => {
      s.step("gratin", "slice").work.station = "cold";
      s.time("gratin/slice/1", "09:00", "09:15");
      s.step("gratin", "slice").hold = { state: "cold", maxMin: 700 };
      s.task("gratin/slice/1").hold = { state: "cold", maxMin: 700, usedMin: 545 };
      s.task("gratin/slice/1").hands = ["cas"];
      s.kitchen.crew[2].skills = ["prep"];
    };
    // Tarts are mixed by 13:10, a minute after the bench is wiped: sliced by 13:09, from 12:54.
    const findings = judgedWhole(shared).findings;
    expect(findings.map(({ rule, what }) => `${rule}: ${what}`)).toEqual([
      "slack: Gratin: Slice (D 09:00) is said to have 1 h 26 min of slack, it has 3 h 54 min",
    ]);
  });

  test("what comes after what: left out, or made up", () => {
    expect(told((s) => (s.task("plate/main/meat").after = ["sauce/reduce/1/wait"]))).toEqual([
      ["comes-after", ["plate/main/meat"], 1],
    ]);
    expect(whole((s) => s.task("sauce/reduce/1").after.push("gratin/slice/1"))).toEqual([
      "comes-after: Sauce: Reduce (D 18:00) is said to come after Gratin: Slice (D 17:00)",
    ]);
  });

  test("the wait that is nearest to its limit", () => {
    expect(whole((s) => (s.task("gratin/bake/1/wait").hold.usedMin = 24))).toEqual([
      "waits: Gratin: Bake (the waiting, D 18:20) is said to be kept 24 min of 1 h 30 min hot, it is 25 min of 1 h 30 min hot",
    ]);
    for (const wrong of [{ maxMin: 91 }, { state: "cold" }, { usedMin: 26 }])
      expect(told((s) => Object.assign(s.task("gratin/bake/1/wait").hold, wrong))[0]!.slice(0, 2)).toEqual([
        "waits",
        ["gratin/bake/1/wait"],
      ]);
    expect(told((s) => (s.task("sauce/reduce/1/wait").hold = undefined))).toEqual([
      ["waits", ["sauce/reduce/1/wait"], 62],
    ]);
    expect(told((s) => (s.task("tart/mix/1").hold = { state: "cold", maxMin: 30, usedMin: 20 }))).toEqual([
      ["waits", ["tart/mix/1"], 20],
    ]);
  });

  test("its station", () => {
    expect(told((s) => (s.task("gratin/slice/1").station = "hot"))).toEqual([
      ["station", ["gratin/slice/1"], 1],
    ]);
    expect(told((s) => (s.task("plate/main/meat").station = undefined))).toEqual([
      ["station", ["plate/main/meat"], 1],
    ]);
  });

  test("room in every dimension that is written, on the work and on the waiting", () => {
    const oven = (s: Small) => s.task("tart/bake/1/wait").equipment;
    const half = (kg: number) => (s: Small) => oven(s).push({ ...oven(s)[0], unit: "kg", space: kg });
    expect(told(half(0.5))).toEqual([]);
    expect(told(half(0.7))).toEqual([["room", ["tart/bake/1/wait"], 0.2]]);
    expect(told((s) => (s.task("stock/simmer/1/wait").equipment[0].space = 2))).toEqual([
      ["room", ["stock/simmer/1/wait"], 1.01],
    ]);
  });
});

function judgedTasks(): string[] {
  let ids: string[] = [];
  judgedWhole((s) => (ids = s.result.plan.tasks.map((task: { id: string }) => task.id)));
  return ids;
}
