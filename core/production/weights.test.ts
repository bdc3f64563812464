import { describe, expect, it } from "vitest";
import { preparation, type SmallBook, step, work } from "../../tests/small-kitchen.ts";
import { smallPlan } from "../../tests/small-plan.ts";
import { objectiveOf, solve } from "../schedule/index.ts";
import type { Term as SolvedTerm } from "../schedule/problem.ts";
import { bestWait } from "./terms.ts";
import type { WeightName } from "./weights.ts";

type Planned = ReturnType<typeof smallPlan>;

const COLD = { hold: { state: "cold", maxMin: 900 } };

/** The same book planned with a weight of nought and with a large one; both plans fit. */
function both(book: SmallBook, key: WeightName, large: number): readonly [without: Planned, with_: Planned] {
  const plans = [0, large].map((weight) => {
    const service = book.service as { readonly weights?: object } | undefined;
    const weights = { ...service?.weights, [key]: weight };
    return smallPlan({ ...book, service: { ...service, weights } }, { schedules: 60, remedySchedules: 0 });
  });
  for (const { plan } of plans) expect(plan.status).toBe("feasible");
  return [plans[0]!, plans[1]!];
}

/** What a plan comes to in a term of the engine, whatever its own weight on it. */
function inTerm({ made }: Planned, term: SolvedTerm & ("changes" | "modes" | "late")): number {
  const problem = { ...made.problem, objective: { ...made.problem.objective, [term]: 1 } };
  return objectiveOf(problem, made.solved.schedule!).find((each) => each.term === term)!.value;
}

/** Minutes of waits beyond their best, of one kind. */
function waited({ made, plan }: Planned, key: "stale" | "waiting"): number {
  const at = new Map(plan.tasks.map((task) => [task.id, { start: task.startMin, end: task.endMin }]));
  return made.set.links.reduce((sum, link) => {
    const soft = bestWait(link);
    if (soft?.key !== key) return sum;
    const minutes = at.get(link.to.task)![link.to.at] - at.get(link.from.task)![link.from.at];
    return sum + Math.max(0, minutes - soft.best);
  }, 0);
}

const told = ({ plan }: Pick<Planned, "plan">, key: WeightName) =>
  plan.objective.find((each) => each.key === key);

describe("P16 each weight moves the plan, and the plan is better in what it weighs", () => {
  it("P16 stale: what is best fresh is not made early for the sake of slack", () => {
    const bread = preparation("bread", [step("bake", { work: work(20), ...COLD })], {
      bestWithinMinutes: 30,
    });
    const book = { preparations: [bread], service: { slackMin: 90, weights: { slack: 1, waiting: 0 } } };
    const [without, with_] = both(book, "stale", 50);
    expect(waited(with_, "stale")).toBeLessThan(waited(without, "stale"));
    expect(told(with_, "stale")!.value).toBe(waited(with_, "stale"));
    expect(told(without, "stale")).toBeUndefined();
  });

  it("P16 waiting: work is not spread out over the day for the sake of calm hours", () => {
    const preparations = ["soup", "salad", "sauce", "cream", "jus", "oil", "dressing", "puree"].map((id) =>
      preparation(id, [step("make", { work: work(25), ...COLD })]),
    );
    const [without, with_] = both({ preparations, service: { weights: { peaks: 5 } } }, "waiting", 20);
    expect(waited(with_, "waiting")).toBeLessThan(waited(without, "waiting"));
    expect(told(with_, "peaks")!.value).toBeGreaterThan(told(without, "peaks")!.value);
    expect(told(with_, "waiting")!.value).toBe(waited(with_, "waiting"));
    expect(told(without, "waiting")).toBeUndefined();
  });

  it("P16 heat-ups: what bakes at one temperature bakes together, though some of it then stands longer", () => {
    const bake = (id: string, setC: number, best: number) =>
      preparation(
        id,
        [
          step("bake", {
            passive: { min: 40 },
            uses: [
              { kind: "oven", during: "passive", space: { value: 4, unit: "shelf" }, setC, toleranceC: 0 },
            ],
            ...COLD,
          }),
        ],
        { bestWithinMinutes: best },
      );
    // One after another in the one oven; by the time each keeps best, hot and cool by turns.
    const preparations = [bake("a", 200, 60), bake("b", 150, 100), bake("c", 200, 140), bake("d", 150, 180)];
    const [without, with_] = both({ preparations, service: { weights: { stale: 1 } } }, "heatUps", 500);
    expect(inTerm(without, "changes")).toBe(4);
    expect(inTerm(with_, "changes")).toBe(2);
    expect(told(with_, "heatUps")!.value).toBe(2);
    expect(told(without, "heatUps")).toBeUndefined();
    expect(waited(with_, "stale")).toBeGreaterThan(waited(without, "stale"));
  });

  it("P16 heat-ups: an oven kept from the work through its waiting is heated too, in the search as in the sum", () => {
    const kept = (id: string, setC: number) =>
      preparation(id, [
        step("bake", {
          work: work(5),
          passive: { min: 40 },
          uses: [{ kind: "oven", during: "both", space: { value: 4, unit: "shelf" }, setC }],
          ...COLD,
        }),
      ]);
    const preparations = [kept("a", 200), kept("b", 150), kept("c", 200)];
    const { made, plan } = smallPlan({ preparations }, { schedules: 60, remedySchedules: 0 });
    expect(plan.status).toBe("feasible");
    expect(told({ plan }, "heatUps")!.value).toBe(2);
    let best = Number.NaN;
    const onProgress = ({ value }: { readonly value: number }) => {
      best = value;
    };
    expect(solve(made.problem, { schedules: 60, onProgress }).value).toBeCloseTo(best, 6);
  });

  it("P16 hands: a second pair is not called for the sake of a little slack", () => {
    const carve = (id: string) =>
      preparation(id, [
        step("carve", {
          work: work(10, { perBatchMin: 30, hands: { least: 1, most: 2, split: "divides" } }),
          ...COLD,
        }),
      ]);
    const shifts = [{ from: "D 16:20", to: "D 22:00" }];
    const crew = ["ann", "bob"].map((id) => ({ id, name: id, skills: ["prep"], shifts }));
    const book = {
      preparations: [carve("a"), carve("b"), carve("c")],
      kitchen: { crew },
      // The shift leaves 70 minutes until all should be ready: three of 40 one by one take 80, two together 65.
      service: { slackMin: 60, weights: { slack: 1, peaks: 0 } },
    };
    const [without, with_] = both(book, "hands", 100);
    expect(inTerm(with_, "modes")).toBe(0);
    expect(inTerm(without, "modes")).toBeGreaterThan(0);
    expect(inTerm(without, "late")).toBeLessThan(inTerm(with_, "late"));
    expect(told(with_, "hands")!.value).toBe(0);
    expect(told(without, "hands")).toBeUndefined();
  });
});
