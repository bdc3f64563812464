import { describe, expect, it } from "vitest";
import { preparation, type SmallBook, step, work } from "../../tests/small-kitchen.ts";
import { smallPlan } from "../../tests/small-plan.ts";
import { checkSchedule } from "../schedule/index.ts";
import { blocksOf } from "./blocks.ts";
import { type Bound, explainTask } from "./explain.ts";
import type { PlanResult } from "./plan-service.ts";

const plan = (book: SmallBook): PlanResult => smallPlan(book, { schedules: 12 });

const OVEN = { kind: "oven", during: "passive", setC: 200 };
const roast = (id: string, setC: number, shelves: number, hold: object = { state: "hot", maxMin: 40 }) =>
  preparation(id, [
    step("salt", { work: work(10, { interruptible: true }), hold: { state: "cold", maxMin: 600 } }),
    step("cook", {
      from: ["salt"],
      work: work(5),
      passive: { min: 50 },
      attended: { min: 2, every: 20 },
      uses: [{ ...OVEN, space: { value: shelves, unit: "shelf" }, setC }],
      hold,
    }),
  ]);
const evening = {
  preparations: [
    ...[roast("salsify", 200, 1), roast("rib", 170, 2), roast("kale", 200, 1)],
    roast("tart", 140, 2, { state: "cold", maxMin: 300 }),
  ],
};
const cooks = {
  crew: [
    {
      ...{ id: "ann", name: "Ann", skills: ["prep"] },
      shifts: [{ from: "D 12:00", to: "D 20:00", breaks: [{ from: "D 16:00", to: "D 16:30" }] }],
    },
    { id: "bob", name: "Bob", skills: ["prep"], shifts: [{ from: "D 12:00", to: "D 20:00" }] },
  ],
  equipment: [
    {
      ...{ id: "deck", name: "Deck oven", kind: "oven", count: 2, rangeC: [50, 250] },
      capacity: [{ unit: "shelf", value: 2 }],
    },
  ],
};
const asked = (result: PlanResult) => ({ ...result.made, schedule: result.made.solved.schedule! });
const said = (bound: Bound) => [...bound.because, ...bound.chain].map((reason) => reason.what);

describe("P23 why a task stands where it stands", () => {
  const result = plan({ ...evening, kitchen: cooks });
  const made = asked(result);
  const blocks = blocksOf(made.set);
  const kind = new Map(made.set.tasks.map((task) => [task.id, task.kind]));
  const spans = new Map((made.problem.spans ?? []).map((span) => [span.id, [span.from.task, span.to.task]]));
  // A look-in is asked about alone.
  const blockOf = (id: string) => new Set(kind.get(id) === "look" ? [id] : blocks.get(id));
  // Moved by the plainest rule: everything of the block by the same minutes; interrupted work is left out.
  const movedBy = (block: ReadonlySet<string>, by: number) => {
    const placements = made.schedule.placements.map((p) =>
      block.has(p.task) ? { ...p, start: p.start + by, end: p.end + by } : p,
    );
    return checkSchedule(made.problem, { ...made.schedule, placements });
  };

  it("P23 a task can move its play with the waiting that belongs to it, and breaks a rule one minute further", () => {
    expect(result.plan.status).toBe("feasible");
    let judged = 0;
    for (const task of made.set.tasks) {
      if (task.interruptible) continue;
      const { later, earlier } = explainTask(made, task.id)!;
      for (const [bound, way] of [
        [later, 1],
        [earlier, -1],
      ] as const) {
        expect(movedBy(blockOf(task.id), way * bound.playMin), task.id).toEqual([]);
        expect(movedBy(blockOf(task.id), way * (bound.playMin + 1)), task.id).not.toEqual([]);
        expect(bound.because.length, task.id).toBeGreaterThan(0);
        judged++;
      }
    }
    expect(judged).toBeGreaterThan(20);
  });

  it("P23 what is named binds: a minute further breaks a rule with it, and so on down the chain to what does not move or could", () => {
    const seen = { named: 0, chained: 0, movable: 0 };
    const touched = (block: ReadonlySet<string>, by: number) =>
      movedBy(block, by).map(({ tasks }) => tasks.flatMap((id) => spans.get(id) ?? [id]));
    const interrupted = new Set(made.set.tasks.filter((t) => t.interruptible).map((t) => t.id));
    for (const { id } of made.set.tasks) {
      const { later, earlier } = explainTask(made, id)!;
      for (const [bound, way] of [
        [later, 1],
        [earlier, -1],
      ] as const) {
        let [block, by, named] = [blockOf(id), way * (bound.playMin + 1), bound.because[0]!.task];
        for (const step of [undefined, ...bound.chain]) {
          if (step) {
            block = new Set(blocks.get(step.task!));
            by = way;
          }
          if ([...block].some((one) => interrupted.has(one))) break;
          const broken = touched(block, by);
          if (step && / itself could move /.test(step.what)) {
            expect(broken, `${id}: ${step.what}`).toEqual([]);
            seen.movable++;
            break;
          }
          expect(broken, `${id}: ${step?.what}`).not.toEqual([]);
          if (step) {
            seen.chained++;
            named = bound.chain[bound.chain.indexOf(step) + 1]?.task;
          }
          if (named === undefined) continue;
          const [other] = [new Set(blocks.get(named))];
          const binds = broken.some(
            (tasks) => tasks.some((t) => block.has(t)) && tasks.some((t) => other.has(t)),
          );
          expect(binds, `${id}: ${step?.what ?? bound.because[0]!.what}`).toBe(true);
          seen.named++;
        }
      }
    }
    expect(seen.named).toBeGreaterThan(20);
    expect(seen.chained).toBeGreaterThan(8);
    expect(seen.movable).toBeGreaterThan(0);
  });

  it("P23 a look-in moves alone, and of a block it is said which part is meant", () => {
    const look = made.set.tasks.find((task) => task.kind === "look")!;
    const { earlier, later } = explainTask(made, look.id)!;
    expect([...said(earlier), ...said(later)].join()).toMatch(/it comes .+ after .+ begins, at D |is at /);
    const parts = made.set.tasks
      .filter((task) => task.kind === "wait")
      .flatMap(({ id }) => [
        ...explainTask(made, id)!.earlier.because,
        ...explainTask(made, id)!.later.because,
      ])
      .map(({ what }) => what);
    expect(parts.join("\n")).toMatch(/\(its work of \d+ min comes first\)$/m);
  });

  it("P23 says it in words of the kitchen, with names and never ids, to something that does not move or could", () => {
    const words = made.set.tasks.flatMap((task) => {
      const { later, earlier } = explainTask(made, task.id)!;
      for (const bound of [later, earlier]) {
        if (bound.end === "movable") expect(said(bound).at(-1)).toMatch(/itself could move|cannot move/);
        expect(bound.says).toMatch(/^(cannot start|can start .* not more)/);
      }
      return [...said(later), ...said(earlier)];
    });
    for (const each of words) expect(each).not.toMatch(/\w\/\w|\bundefined\b|NaN|deck#|\bann\b|\bbob\b/);
    const all = words.join("\n");
    expect(all).toContain("Main goes out at D 19:30");
    expect(all).toMatch(/it has to be out at D 19:\d\d, when plating plate begins/);
    expect(all).toMatch(/(Ann|Bob) is at /);
  });

  it("P23 an oven at another temperature, its change between, and an oven that is full", () => {
    const bake = (id: string, setC: number) =>
      preparation(id, [
        step("bake", {
          passive: { min: 60 },
          uses: [{ ...OVEN, space: { value: 3, unit: "shelf" }, setC }],
          hold: { state: "cold", maxMin: 120 },
        }),
      ]);
    const oven = (changeover?: object) => ({
      ...{ id: "deck", name: "Deck oven", kind: "oven", rangeC: [50, 250], changeover },
      capacity: [{ unit: "shelf", value: 4 }],
    });
    const why = (cake: number, custard: number, changeover?: object) => {
      const result = plan({
        preparations: [bake("cake", cake), bake("custard", custard)],
        kitchen: { equipment: [oven(changeover)] },
      });
      const [first, second] = [...result.plan.tasks]
        .filter((task) => task.step === "bake")
        .sort((a, b) => a.startMin - b.startMin);
      return [first!, second!].map((task) => explainTask(asked(result), task.id)!);
    };
    const [apart, after] = why(220, 150);
    expect(said(apart!.later)[0]).toMatch(
      /^Deck oven is at (150|220) °C from D 17:30 for (Cake|Custard): Step$/,
    );
    expect(said(after!.earlier)[0]).toMatch(/^Deck oven is at (150|220) °C until D 17:30 for /);
    expect(said(apart!.earlier)[0]).toBe("it keeps cold 2 h at most, and plating plate ends at D 19:30");
    const [changing] = why(220, 150, { perKMin: 0, leastMin: 20 });
    expect(said(changing!.later)[0]).toMatch(
      /^Deck oven has to change to (150|220) °C for .*, from D 17:30$/,
    );
    const [full] = why(200, 200);
    expect(said(full!.later)[0]).toMatch(/^Deck oven is full from D 17:30: (Cake|Custard): Step is in it$/);
  });

  it("P23 a fixed moment, a pin and a task that is not there", () => {
    const check = explainTask(made, "line-check")!;
    expect(check.later.because).toEqual([{ what: "it is a fixed moment" }]);
    const start = result.plan.tasks.find((t) => t.id === "rib/salt/1")!.start;
    const pinned = plan({
      ...evening,
      kitchen: cooks,
      service: { pins: [{ task: "rib/salt/1", start }] },
    });
    const why = explainTask(asked(pinned), "rib/salt/1")!;
    expect(why.later).toMatchObject({ playMin: 0, until: start, end: "fixed" });
    expect(said(why.later)[0]).toBe("its start is pinned");
    expect(explainTask(made, "rib/burn/1")).toBeUndefined();
  });
});

describe("P24 what cannot all be kept", () => {
  const carved = (id: string, maxMin = 20) =>
    preparation(id, [step("carve", { work: work(35), hold: { state: "hot", maxMin } })]);
  const crowd = (long?: string) => ["a", "b", "c"].map((id) => carved(id, id === long ? 120 : 20));

  it("P24 hands: each rule told is needed, since without it the service fits", () => {
    const { plan: broken } = plan({ preparations: crowd() });
    const rules = broken.conflict!;
    expect(rules.map((rule) => rule.what)).toEqual(
      expect.arrayContaining([
        "A: Step keeps hot 20 min at most until Plate plate",
        "B: Step keeps hot 20 min at most until Plate plate",
        "C: Step keeps hot 20 min at most until Plate plate",
        'the skill "Any cook": Ann; Bob',
      ]),
    );
    for (const long of ["a", "b", "c"])
      expect(plan({ preparations: crowd(long) }).plan.status, long).toBe("feasible");
    const three = ["ann", "bob", "cid"].map((id) => ({
      ...{ id, name: id, skills: ["prep"], shifts: [{ from: "D 08:00", to: "D 22:00" }] },
    }));
    expect(plan({ preparations: crowd(), kitchen: { crew: three } }).plan.status).toBe("feasible");
  });

  it("P24 room and temperature: what one oven cannot do, and that two can", () => {
    const hot = (id: string, setC: number) =>
      preparation(id, [
        step("bake", {
          passive: { min: 60 },
          uses: [{ ...OVEN, space: { value: 1, unit: "shelf" }, setC }],
          hold: { state: "hot", maxMin: 15 },
        }),
      ]);
    const book = (count: number, warm = 150) => ({
      preparations: [hot("cake", 220), hot("custard", warm)],
      kitchen: {
        equipment: [
          {
            ...{ id: "oven", name: "Deck", kind: "oven", count, rangeC: [50, 250] },
            capacity: [{ unit: "shelf", value: 4 }],
          },
        ],
      },
    });
    const { plan: broken } = plan(book(1));
    expect(broken.status).toBe("broken");
    const told = broken.conflict!.map((rule) => rule.what);
    expect(told).toContain("Cake: Step keeps hot 15 min at most until Plate plate");
    expect(told.find((what) => what.startsWith("Deck has room for 4 shelves: "))).toMatch(
      /Cake: Step takes 1 shelf at 220 °C for 1 h; Custard: Step takes 1 shelf at 150 °C for 1 h/,
    );
    expect(plan(book(2)).plan.status).toBe("feasible");
    expect(plan(book(1, 220)).plan.status).toBe("feasible");
    for (const rule of broken.conflict!) expect(rule.tasks.length).toBeGreaterThan(0);
  });

  it("P24 nothing where it fits, or where something is lacking outright", () => {
    expect(plan({ preparations: [carved("a")] }).plan.conflict).toBeUndefined();
    const kiln = step("fire", {
      passive: { min: 30 },
      uses: [{ ...OVEN, kind: "kiln", space: { value: 1, unit: "shelf" } }],
    });
    expect(plan({ preparations: [preparation("pot", [kiln])] }).plan.conflict).toBeUndefined();
  });
});
