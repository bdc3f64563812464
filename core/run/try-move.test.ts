import { describe, expect, it } from "vitest";
import { anHour, preparation, type SmallBook, step, work } from "../../tests/small-kitchen.ts";
import { smallPlan } from "../../tests/small-plan.ts";
import { checkSchedule } from "../schedule/index.ts";
import { type Standing, type TaskPin, tryMove } from "./try-move.ts";

function standing(book: SmallBook): Standing {
  const { docs, amounts, made, plan } = smallPlan(book, { schedules: 12, remedySchedules: 0 });
  return { docs, amounts, made, plan, fill: anHour };
}

const sauce = (id: string, minutes = 30) =>
  preparation(id, [step("mix", { work: work(minutes), hold: { state: "cold", maxMin: 600 } })]);
const alone = {
  crew: [{ id: "ann", name: "Ann", skills: ["prep"], shifts: [{ from: "D 12:00", to: "D 22:00" }] }],
};
const book = { preparations: [sauce("a"), sauce("b"), sauce("c")], kitchen: alone };

describe("R11 a task put elsewhere", () => {
  const here = standing(book);
  const at = (id: string) => here.plan.tasks.find((task) => task.id === id)!;
  const clock = here.made.site.clock;
  const tried = (task: string, start: string, more: Partial<TaskPin> = {}) =>
    tryMove(here, { task, start, ...more })!;

  it("R11 into free time: nothing else moves, nothing breaks", () => {
    const result = tried("a/mix/1", "D 13:00");
    expect(result).toMatchObject({ fits: true, broken: [] });
    expect(result.moved).toHaveLength(1);
    expect(result.moved[0]).toMatchObject({ task: "a/mix/1", start: "D 13:00", before: at("a/mix/1").start });
    expect(result.moved[0]!.endMin - result.moved[0]!.startMin).toBe(30);
  });

  it("R11 onto another: it keeps its place, the other gives way, and every rule is kept", () => {
    const [first, second] = ["a/mix/1", "b/mix/1", "c/mix/1"].sort((x, y) => at(x).startMin - at(y).startMin);
    const start = clock.textOf(at(first!).startMin + 10);
    const result = tried(second!, start);
    expect(result.fits).toBe(true);
    expect(result.moved[0]).toMatchObject({ task: second, start });
    expect(result.moved.map((each) => each.task)).toContain(first);
    const moved = new Map(result.moved.map((each) => [each.task, each]));
    const placements = here.made.solved.schedule!.placements.map((p) => {
      const to = moved.get(p.task);
      return to ? { ...p, start: to.startMin, end: to.endMin } : p;
    });
    expect(checkSchedule(here.made.problem, { ...here.made.solved.schedule!, placements })).toEqual([]);
  });

  it("R11 where it cannot be: it stands there alone, and what breaks is said with its name", () => {
    const result = tried("a/mix/1", "D 19:20");
    expect(result.fits).toBe(false);
    expect(result.moved[0]).toMatchObject({ task: "a/mix/1", start: "D 19:20" });
    expect(result.broken.map((broken) => broken.what).join("\n")).toMatch(/A: Step/);
    expect(tried("a/mix/1", "D 09:00").broken.map((broken) => broken.rule)).toContain("shift");
  });

  it("R11 spare before and after; a plan that says no such task says nothing", () => {
    // Ready at the line check, 18:30, with plates from 19:29: whoever is last leaves the spare.
    const last = ["a/mix/1", "b/mix/1", "c/mix/1"].sort((x, y) => at(y).endMin - at(x).endMin)[0]!;
    const before = at("plate/main/plate").startMin - at(last).endMin;
    const result = tried(last, clock.textOf(at(last).startMin - 90));
    expect(result.spareBeforeMin).toBe(before);
    expect(result.spareMin).toBeGreaterThan(before);
    expect(tryMove(here, { task: "z/mix/1", start: "D 13:00" })).toBeUndefined();
  });

  it("R11 hands can be pinned, too", () => {
    const two = standing({ ...book, kitchen: {} });
    const task = two.plan.tasks.find((each) => each.id === "a/mix/1")!;
    const other = task.hands[0] === "ann" ? "bob" : "ann";
    const result = tryMove(two, { task: task.id, start: task.start, crew: [other] })!;
    expect(result.fits).toBe(true);
    expect(result.moved[0]).toMatchObject({ task: task.id, hands: [other], others: true });
  });

  it("R11 hands that are taken then: who gives way is said, and every rule is kept", () => {
    const two = standing({ ...book, kitchen: {} });
    const of = (id: string) => two.plan.tasks.filter(({ hands }) => hands.includes(id));
    const task = of("ann").find(({ kind }) => kind === "work")!;
    const taken = of("bob").some((each) => each.startMin < task.endMin && each.endMin > task.startMin);
    const result = tryMove(two, { task: task.id, crew: ["bob"] })!;
    expect(taken).toBe(true);
    expect(result.fits).toBe(true);
    expect(result.moved.length).toBeGreaterThan(1);
    expect(result.moved[0]!.hands).toEqual(["bob"]);
  });

  it("R11 hands without the skill and units that cannot serve: said by name, nothing moves", () => {
    const skills = [
      { id: "prep", name: "Any cook" },
      { id: "wash", name: "Washing up" },
    ];
    const shifts = [{ from: "D 08:00", to: "D 22:00" }];
    const crew = [
      { id: "ann", name: "Ann", skills: ["prep"], shifts },
      { id: "kim", name: "Kim", skills: ["wash"], shifts },
    ];
    const two = standing({ ...book, kitchen: { skills, crew } });
    const result = tryMove(two, { task: "a/mix/1", crew: ["kim"] })!;
    expect(result.fits).toBe(false);
    expect(result.broken[0]).toMatchObject({
      rule: "pin",
      what: "Kim lacks the skill for A: Step: Any cook",
    });
    expect(result.moved.slice(1)).toEqual([]);
    const oven = tryMove(two, { task: "a/mix/1", equipment: ["oven"] })!;
    expect(oven.broken[0]!.what).toBe("A: Step cannot use Oven");
  });

  it("R11 what waits in an oven tries another: the work and its waiting go there together", () => {
    const baked = (id: string, setC: number, during = "passive") =>
      preparation(id, [
        step("bake", {
          work: work(5),
          passive: { min: 50 },
          uses: [{ kind: "oven", during, space: { value: 3, unit: "shelf" }, setC }],
          hold: { state: "cold", maxMin: 600 },
        }),
      ]);
    const capacity = [{ unit: "shelf", value: 4 }];
    const equipment = ["oven-1", "oven-2"].map((id) => ({
      ...{ id, name: id.replace("oven-", "Oven "), kind: "oven", capacity, rangeC: [50, 250] },
    }));
    for (const during of ["passive", "both"]) {
      const two = standing({ preparations: [baked("pie", 200, during)], kitchen: { equipment } });
      const wait = two.plan.tasks.find(({ id }) => id === "pie/bake/1/wait")!;
      const other = wait.equipment[0]!.id === "oven-1" ? "oven-2" : "oven-1";
      const result = tryMove(two, { task: wait.id, equipment: [other] })!;
      expect(result).toMatchObject({ fits: true, broken: [] });
    }
  });
});
