import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  anHour,
  preparation,
  type SmallBook,
  smallAmounts,
  smallDocuments,
  step,
  work,
} from "../../tests/small-kitchen.ts";
import { smallEngine, smallPlan } from "../../tests/small-plan.ts";
import * as formulaRules from "../formula/rules.ts";
import { given } from "../ledger/ledger.ts";
import * as ledgerRules from "../ledger/rules.ts";
import { Tracer } from "../ledger/tracer.ts";
import { checkSchedule } from "../schedule/index.ts";
import * as planRules from "./plan-rules.ts";
import { type PlanOptions, type PlanResult, planService } from "./plan-service.ts";
import { scheduledRules } from "./plan-trace.ts";
import * as rules from "./rules.ts";

const plan = (book: SmallBook, options: Partial<PlanOptions> = {}): PlanResult =>
  smallPlan(book, { schedules: 60, ...options });
const task = (result: PlanResult, id: string) => result.plan.tasks.find((t) => t.id === id)!;

const HOT = { state: "hot", maxMin: 40 };
const roast = preparation("roast", [
  step("salt", { work: work(10), passive: { min: 120 }, hold: { state: "cold", maxMin: 1440 } }),
  step("cook", {
    from: ["salt"],
    work: work(5),
    passive: { min: 50 },
    uses: [{ kind: "oven", during: "passive", space: { value: 2, unit: "shelf" }, setC: 180 }],
    pull: [{ smallware: "GN 1/1 tray", count: 2 }],
    hold: HOT,
  }),
]);

describe("P17 the plan", () => {
  const result = plan({ preparations: [roast] });

  it("P17 is feasible and says who, when, on what, what before, and how long it waits", () => {
    expect(result.plan.status).toBe("feasible");
    expect(result.plan.broken).toEqual([]);
    const cook = task(result, "roast/cook/1/wait");
    expect(cook.equipment).toEqual([{ id: "oven", space: 2, unit: "shelf", setC: 180 }]);
    expect(cook.after).toEqual(["roast/cook/1"]);
    expect(cook.endMin - cook.startMin).toBe(50);
    expect(cook.hold).toMatchObject({ state: "hot", maxMin: 40 });
    expect(cook.hold!.usedMin).toBeLessThanOrEqual(40);
    const plate = task(result, "plate/main/plate");
    expect(cook.hold!.usedMin).toBe(plate.endMin - cook.endMin);
    expect(task(result, "roast/cook/1").hands).toHaveLength(1);
    expect(task(result, "course/main").start).toBe("D 19:30");
  });

  it("P17 a task that begins at its latest pushes what comes after, and nothing breaks", () => {
    const three = plan({
      preparations: [roast, preparation("sauce", [step("mix", { work: work(25), hold: HOT })])],
      service: { slackMin: 12 },
    });
    const { problem, solved, set } = three.made;
    const first = solved.schedule!.placements;
    // Pushed by the plain rule: a task begins when all that it follows, on its hands and units too, is over.
    const pushed = (i: number, start: number) => {
      const placements = first.map((p) => ({ ...p }));
      const move = (k: number, to: number) => {
        const p = placements[k]!;
        placements[k] = { ...p, start: to, end: to + p.end - p.start };
      };
      move(i, start);
      for (let again = true; again; ) {
        again = false;
        for (const link of set.links) {
          if (link.least === undefined) continue;
          const [f, t] = [link.from.task, link.to.task].map((id) =>
            placements.findIndex((p) => p.task === id),
          );
          const late = placements[f!]![link.from.at] + link.least - placements[t!]![link.to.at];
          if (late <= 0) continue;
          move(t!, placements[t!]!.start + late);
          again = true;
        }
        placements.forEach((p, a) => {
          placements.forEach((q, b) => {
            const shared = p.persons.some((id) => q.persons.includes(id));
            if (!shared || first[a]!.end > first[b]!.start || a === b || q.start >= p.end) return;
            move(b, p.end);
            again = true;
          });
        });
      }
      return checkSchedule(problem, { ...solved.schedule!, placements });
    };
    three.plan.tasks.forEach((t, i) => {
      const latest = three.clock.minuteOf(t.latest);
      expect(t.slackMin).toBe(latest - t.startMin);
      if (t.kind === "milestone" || t.id.endsWith("/wait")) return;
      expect(pushed(i, latest), `${t.id} at ${t.latest}`).toEqual([]);
    });
    expect(
      Math.min(...three.plan.tasks.filter((t) => t.kind === "work").map((t) => t.slackMin)),
    ).toBeGreaterThanOrEqual(12);
  });

  it("P17 load counts shared time once, by day, inside open time", () => {
    const oven = result.plan.load.filter((l) => l.resource === "oven" && l.busyMin > 0);
    expect(oven).toEqual([{ resource: "oven", day: "D", busyMin: 50, openMin: 1440 }]);
    const people = result.plan.load.filter((l) => l.resource !== "oven");
    expect(people.map((l) => [l.resource, l.day, l.openMin])).toEqual([
      ["ann", "D", 840],
      ["bob", "D", 840],
    ]);
    // Salting 10, cooking 5, line check 10, plating 10 × 6 s.
    expect(people.reduce((sum, l) => sum + l.busyMin, 0)).toBe(26);
  });

  it("P17 more tasks than can be planned are refused by number, not tried for minutes", () => {
    const steps = Array.from({ length: 5001 }, (_, i) =>
      step(`s${i}`, { work: work(1), ...(i > 0 ? { from: [`s${i - 1}`] } : {}) }),
    );
    const { plan: made } = plan({ preparations: [preparation("endless", steps)] });
    expect(made).toMatchObject({ status: "none", tasks: [], remedies: [], schedules: 0 });
    expect(made.broken.map(({ what }) => what)).toContainEqual(
      expect.stringMatching(/^\/services\/.*comes to 500\d tasks; at most 5000 are planned/),
    );
  });

  it("P17 what the kitchen lacks makes the plan broken, and the rest is planned", () => {
    const kiln = plan(
      {
        preparations: [
          preparation("pot", [
            step("fire", {
              passive: { min: 30 },
              uses: [{ kind: "kiln", during: "passive", space: { value: 1, unit: "shelf" } }],
            }),
          ]),
        ],
      },
      { remedySchedules: 0 },
    );
    expect(kiln.plan.status).toBe("broken");
    expect(kiln.plan.broken).toEqual([
      {
        rule: "equipment",
        tasks: ["pot/fire/1/wait"],
        by: 1,
        unit: "piece",
        what: "The kitchen has no kiln",
      },
    ]);
    expect(task(kiln, "pot/fire/1/wait").endMin).toBeLessThanOrEqual(task(kiln, "plate/main/plate").startMin);
  });

  it("P17 the same seed and schedules give the same plan", () => {
    expect(JSON.stringify(plan({ preparations: [roast] }).plan)).toBe(JSON.stringify(result.plan));
  });

  it("P15 deliveries bound the first step that takes the ingredient", () => {
    const late = plan({ preparations: [roast] }, { earliestBy: new Map([["flour", 1900]]) });
    expect(task(late, "roast/salt/1").startMin).toBeGreaterThanOrEqual(1900);
    expect(late.plan.status).toBe("feasible");
  });
});

describe("P18 to P20 lists", () => {
  const result = plan({ preparations: [roast] });

  it("P18 tells each work with its waiting, by day and station, in the order of the plan", () => {
    const bench = result.prepLists.find((l) => l.station === "bench")!;
    expect(bench).toMatchObject({ name: "Bench", day: "D", date: "2027-01-30" });
    expect(bench.entries.map((e) => e.task)).toEqual(["roast/salt/1", "roast/cook/1"]);
    const cook = bench.entries[1]!;
    expect(cook.text).toBe("Roast: Step. Do it.");
    expect(cook.amount).toBe("1 kg");
    expect(cook.equipment).toEqual(["Oven, 180 °C"]);
    expect(cook.pull).toEqual(["2 × GN 1/1 tray"]);
    expect(cook.note).toMatch(
      /^50 min by itself until D \d\d:\d\d; keep hot until D \d\d:\d\d \(40 min at most\)\.$/,
    );
    expect(cook.hands).toEqual([expect.stringMatching(/^(Ann|Bob)$/)]);
    const pass = result.prepLists.find((l) => l.station === "pass")!;
    expect(pass.entries.map((e) => e.task)).toEqual(["line-check", "plate/main/plate"]);
    expect(pass.entries[1]!.amount).toBe("10 plates");
  });

  it("P18 names every task with hands exactly once", () => {
    const listed = result.prepLists.flatMap((l) => l.entries.map((e) => e.task));
    const handed = result.plan.tasks.filter((t) => t.hands.length > 0).map((t) => t.id);
    expect([...listed].sort()).toEqual([...handed].sort());
  });

  it("P19 counts smallwares, plates and labels by day", () => {
    expect(result.pull.map(({ item }) => [item.day, item.smallware, item.count])).toEqual([
      ["D", "GN 1/1 tray", 2],
      ["D", "label", 2],
      ["D", "round plate, 280 mm", 10],
    ]);
  });

  it("P20 an ingredient is needed when the first step it enters begins", () => {
    expect([...result.firstNeeds]).toEqual([["flour", task(result, "roast/salt/1").startMin]]);
  });
});

describe("P21 remedies", () => {
  const long = (id: string) =>
    preparation(id, [step("carve", { work: work(30, { perKgMin: 5 }), hold: { state: "hot", maxMin: 20 } })]);
  const crowd = { preparations: [long("a"), long("b"), long("c")] };
  const judgedWith: string[] = [];
  const result = plan(crowd, {
    judge: (tried, { amounts }) => {
      judgedWith.push(`${amounts.kitchen.crew.length} at ${amounts.covers}`);
      return tried.status === "feasible";
    },
  });

  it("P21 says what does not fit, and a pair of hands more that was planned and judged", () => {
    expect(result.plan.status).toBe("broken");
    const [first] = result.plan.remedies;
    expect(first).toMatchObject({
      status: "feasible",
      change: expect.stringMatching(/^one more pair of hands \(Any cook\)/),
    });
    expect(first!.result).toMatch(/^fits, \d+ min spare$/);
    expect(judgedWith).toContain("3 at 10");
    expect(new Set(first!.proof.map((p) => p.id))).toEqual(new Set(result.plan.tasks.map((t) => t.id)));
  });

  it("P21 takes no remedy the judge refuses", () => {
    const refused = plan(crowd, { judge: () => false });
    expect(refused.plan.remedies.filter((r) => r.status === "feasible")).toEqual([]);
  });

  it("P17, P21 where the sums rule a plan out says how much is missing, and that so much more fits", () => {
    const carving = {
      preparations: [
        preparation(
          "rib",
          [step("carve", { work: work(0, { perBatchMin: 900 }), hold: { state: "cold", maxMin: 9000 } })],
          { batch: { maxAmount: { value: 500, unit: "g" } } },
        ),
      ],
    };
    const many = plan({ ...carving, service: { covers: 15 } });
    // Three batches of 15 h, with line check and plate-up; two cooks of 14 h.
    expect(many.plan.broken[0]).toMatchObject({
      rule: "hands",
      tasks: [],
      unit: "min",
      by: 3 * 900 + 10 + 2 - 2 * 840,
    });
    expect(many.plan.broken[0]!.what).toBe("all the work takes 45.2 h of hands, the crew has 28 h");
    const bake = step("bake", {
      passive: { min: 900 },
      uses: [{ kind: "oven", during: "passive", space: { value: 4, unit: "shelf" } }],
      hold: { state: "cold", maxMin: 9000 },
    });
    const ovens = plan({
      preparations: [preparation("rib", [bake], { batch: { maxAmount: { value: 200, unit: "g" } } })],
      service: { covers: 10 },
    });
    // Five batches of 15 h in one oven, from D-1 06:00 to D 22:00.
    expect(ovens.plan.broken[0]).toMatchObject({
      rule: "room",
      tasks: [],
      unit: "shelf hours",
      by: 4 * 5 * 15 - 4 * 40,
    });
    expect(ovens.plan.remedies[0]).toMatchObject({ status: "feasible", change: "2 more: Oven" });
  });

  it("P21 finds fewer covers by halving, each planned", () => {
    const docs = smallDocuments({
      preparations: [
        preparation("slow", [
          step("carve", { work: work(0, { perKgMin: 30 }), hold: { state: "hot", maxMin: 60 } }),
        ]),
      ],
      service: { covers: 40 },
    });
    const result = planService(docs, smallAmounts(docs), {
      seed: 1,
      schedules: 60,
      engine: smallEngine,
      fillTarget: anHour,
      amountsFor: (covers) =>
        smallAmounts(
          smallDocuments({ preparations: [...docs.preparations.values()], service: { covers } }),
          covers,
        ),
    });
    // Half an hour a kilogram, 100 g a plate, one pair of hands in one go: any number fits, since work is not bounded.
    expect(result.plan.status).toBe("feasible");
    expect(result.plan.remedies).toEqual([]);
    const tight = smallDocuments({
      preparations: [preparation("slow", [step("carve", { work: work(0, { perKgMin: 300 }) })])],
      service: { covers: 40 },
    });
    const broken = planService(tight, smallAmounts(tight), {
      seed: 1,
      schedules: 60,
      engine: smallEngine,
      fillTarget: anHour,
      amountsFor: (covers) => smallAmounts(tight, covers),
    });
    // 40 plates are 4 kg and 20 h of work; the kitchen has 11 h 20 min to 11 h 30 min before the plates: 22 or 23 covers.
    expect(broken.plan.status).toBe("broken");
    const fewer = broken.plan.remedies.find((r) => r.covers !== undefined)!;
    expect(fewer).toMatchObject({ status: "feasible", change: expect.stringContaining("instead of 40") });
    expect([22, 23]).toContain(fewer.covers);
  });
});

describe("P22 the trace", () => {
  it("P22 every number of a plan is given again by its rule", () => {
    const book: SmallBook = {
      preparations: [
        preparation(
          "roast",
          [
            step("salt", {
              work: work(10, { perKgMin: 3 }),
              passive: { fixedMin: 10, perKgMin: 7 },
              hold: { state: "cold", maxMin: 1440.5 },
            }),
            step("cook", {
              from: ["salt"],
              work: work(5, { perPieceMin: 1.5, hands: { least: 1, most: 2, split: "divides" } }),
              target: { startC: 4, stages: [{ medium: "air", mediumC: 180, minutes: 60 }] },
              attended: { min: 2, every: 25 },
              uses: [
                {
                  kind: "oven",
                  during: "passive",
                  space: { value: 0.75, unit: "shelf" },
                  per: "piece",
                  setC: 180,
                },
              ],
              hold: HOT,
            }),
          ],
          { yield: { amount: { value: 1, unit: "kg" }, pieces: 10 } },
        ),
      ],
      kitchen: { around: 0.22 },
    };
    const docs = smallDocuments(book);
    const amounts = smallAmounts(docs);
    const make = () =>
      planService(docs, amounts, { seed: 3, schedules: 30, engine: smallEngine, fillTarget: anHour });
    const result = make();
    const tracer = new Tracer(amounts.ledger);
    result.trace(tracer);
    const nodes = tracer.nodes();
    const known: Record<string, (...n: number[]) => number> = {
      given,
      ...ledgerRules,
      ...formulaRules,
      ...rules,
      ...(planRules as unknown as Record<string, (...n: number[]) => number>),
      ...scheduledRules(() => {
        const again = make();
        return { made: again.made, plan: again.plan };
      }),
    };
    for (const [path, node] of Object.entries(nodes)) {
      if (node.rule === "given") continue;
      const inputs = node.inputs.map((input) => {
        expect(nodes[input], `${path} cites ${input}, which has no node`).toBeDefined();
        return nodes[input]!.value;
      });
      const rule = known[node.rule];
      expect(rule, `no rule ${node.rule}`).toBeDefined();
      expect(rule!(...inputs), path).toBeCloseTo(node.value, 9);
    }
    const numbers: string[] = [];
    const walk = (value: unknown, at: string) => {
      if (typeof value === "number") numbers.push(at);
      else if (Array.isArray(value)) for (const [i, v] of value.entries()) walk(v, `${at}/${i}`);
      else if (value && typeof value === "object")
        for (const [k, v] of Object.entries(value)) walk(v, `${at}/${k}`);
    };
    walk(result.plan, "/plan");
    expect(numbers.length).toBeGreaterThan(40);
    expect(numbers.filter((at) => nodes[at] === undefined)).toEqual([]);
  });

  it("P22 refuses to replay another plan", () => {
    const one = plan({ preparations: [roast] });
    const two = plan({ preparations: [preparation("other", [step("cut", { work: work(7) })])] });
    const replay = scheduledRules(() => ({ made: two.made, plan: two.plan }));
    const tracer = new Tracer(one.made.site.amounts.ledger);
    one.trace(tracer);
    const print = tracer.nodes()["calc:/plan/problem"]!.value;
    expect(() => replay.scheduledStart(print, 1, 60, 0)).toThrow(/another plan/);
  });
});

describe("random small books", () => {
  const arbitraryBook = fc
    .record({
      parts: fc.array(
        fc.record({
          minutes: fc.integer({ min: 1, max: 40 }),
          waits: fc.option(fc.integer({ min: 1, max: 90 }), { nil: undefined }),
          hold: fc.option(fc.constantFrom("hot", "cold", "ambient"), { nil: undefined }),
          shelves: fc.option(fc.integer({ min: 1, max: 9 }), { nil: undefined }),
          setC: fc.constantFrom(120, 160, 200),
          batch: fc.option(fc.integer({ min: 200, max: 900 }), { nil: undefined }),
          most: fc.integer({ min: 1, max: 3 }),
        }),
        { minLength: 1, maxLength: 5 },
      ),
      covers: fc.integer({ min: 4, max: 25 }),
    })
    .map(
      ({ parts, covers }): SmallBook => ({
        preparations: parts.map((p, i) =>
          preparation(
            `p${i}`,
            [
              step("cut", {
                work: work(2, { perKgMin: p.minutes, hands: { least: 1, most: p.most, split: "divides" } }),
              }),
              step("cook", {
                from: ["cut"],
                work: work(3),
                ...(p.waits === undefined ? {} : { passive: { min: p.waits } }),
                ...(p.shelves === undefined
                  ? {}
                  : {
                      uses: [
                        {
                          kind: "oven",
                          during: "both",
                          space: { value: p.shelves, unit: "shelf" },
                          setC: p.setC,
                        },
                      ],
                    }),
                ...(p.hold === undefined
                  ? {}
                  : { hold: { state: p.hold, maxMin: p.hold === "hot" ? 60 : 600 } }),
              }),
            ],
            p.batch === undefined ? {} : { batch: { maxAmount: { value: p.batch, unit: "g" } } },
          ),
        ),
        service: { covers, slackMin: 10 },
      }),
    );

  it("P17 a feasible plan keeps every rule of the problem; a broken one says each breach in words", () => {
    fc.assert(
      fc.property(arbitraryBook, fc.integer({ min: 1, max: 1000 }), (book, seed) => {
        const {
          plan: made,
          made: whole,
          prepLists,
        } = plan(book, { seed, schedules: 40, remedySchedules: 0 });
        const violations = checkSchedule(whole.problem, whole.solved.schedule!);
        expect(made.status).toBe(violations.length === 0 ? "feasible" : "broken");
        expect(made.broken.reduce((sum, b) => sum + (b.times ?? 1), 0)).toBe(violations.length);
        for (const b of made.broken) {
          expect(b.by).toBeGreaterThan(0);
          expect(b.what).not.toMatch(/undefined|NaN/);
        }
        const tasks = new Map(made.tasks.map((t) => [t.id, t]));
        for (const t of made.tasks) {
          for (const before of t.after) expect(tasks.has(before)).toBe(true);
          expect(whole.site.clock.minuteOf(t.start)).toBe(t.startMin);
          if (made.status !== "feasible") continue;
          for (const before of t.after) {
            if (t.id === before.replace(/$/, "/wait")) expect(t.startMin).toBe(tasks.get(before)!.endMin);
            else if (!t.id.includes("/look-"))
              expect(t.startMin).toBeGreaterThanOrEqual(tasks.get(before)!.endMin);
          }
          if (t.hold) expect(t.hold.usedMin).toBeLessThanOrEqual(t.hold.maxMin);
        }
        const listed = prepLists.flatMap((l) => l.entries.map((e) => e.task));
        expect(new Set(listed).size).toBe(listed.length);
      }),
      { seed: 5, numRuns: 40 },
    );
  });
});
