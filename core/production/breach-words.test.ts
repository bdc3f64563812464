import { describe, expect, it } from "vitest";
import { preparation, step, work } from "../../tests/small-kitchen.ts";
import { smallPlan } from "../../tests/small-plan.ts";
import { checkSchedule } from "../schedule/check.ts";
import { brokenOf } from "./broken.ts";

const OVEN = { kind: "oven", during: "passive", space: { value: 1, unit: "shelf" } };
const bake = (id: string, setC: number) =>
  preparation(
    id,
    [
      step("shape", { work: work(10), hold: { state: "cold", maxMin: 240 } }),
      step("bake", {
        from: ["shape"],
        work: work(4),
        passive: { min: 40 },
        attended: { min: 2, every: 15 },
        uses: [{ ...OVEN, setC }],
        hold: { state: "cold", maxMin: 900 },
      }),
    ],
    { batch: { maxAmount: { value: 600, unit: "g" }, policy: "even" } },
  );

describe("P17 a breach says which task it means", () => {
  const result = smallPlan({ preparations: [bake("tart", 180), bake("loaf", 220)] }, { schedules: 12 });
  const { site, set, problem, solved } = result.made;
  const clock = (minute: number) => site.clock.textOf(minute);
  const batches = Math.max(...set.tasks.map((task) => task.batch));

  /** What is said when tasks stand elsewhere, by how many minutes. */
  const said = (moved: Readonly<Record<string, number>>) => {
    const placements = solved.schedule!.placements.map((p) => {
      const by = moved[p.task] ?? 0;
      return { ...p, start: p.start + by, end: p.end + by };
    });
    const schedule = { ...solved.schedule!, placements };
    const violations = checkSchedule(problem, schedule);
    const starts = new Map(placements.map((p) => [p.task, clock(p.start)]));
    return { told: brokenOf(site, set, problem, { ...solved, schedule, violations }), starts };
  };
  const of = ({ told }: ReturnType<typeof said>, rule: string) =>
    told.filter((broken) => broken.rule === rule).map(({ what }) => what);

  it("P17 its batch of how many, the waiting of it, and the clock", () => {
    expect(batches).toBeGreaterThan(1);
    const later = said({ "tart/bake/2/wait": 95 });
    expect(of(later, "follows")).toEqual([
      expect.stringContaining(
        `(batch 2 of ${batches}, the waiting, ${later.starts.get("tart/bake/2/wait")})`,
      ),
    ]);
    expect(of(later, "follows")[0]).toMatch(/begins 1 h 35 min after its work ends, not at once$/);
  });

  it("P17 a look-in by its number", () => {
    const late = said({ "loaf/bake/1/look-2": 9 });
    const what = of(late, "look-in").join();
    expect(what).toContain(`look-in 2, ${late.starts.get("loaf/bake/1/look-2")})`);
    expect(what).toMatch(/too late$/);
  });

  it("P17 what takes of something before it is done names both and their moments", () => {
    const early = said({ "tart/shape/1": 600 });
    const told = of(early, "ready").join();
    expect(told).toContain(`(batch 1 of ${batches}, ${early.starts.get("tart/bake/1")}) begins`);
    expect(told).toContain(`(batch 1 of ${batches}, ${early.starts.get("tart/shape/1")}) is done`);
  });

  it("P17 before the plan begins and after the last hour are two things, and no rule is told by its bare name", () => {
    const first = said({ "tart/shape/1": -10_000 });
    expect(of(first, "horizon").join()).toMatch(/before the first moment of the plan$/);
    const last = said({ "tart/shape/1": 10_000 });
    expect(of(last, "horizon").join()).toMatch(/after the last hour of work, D /);
    for (const { told } of [first, last])
      for (const { what } of told)
        expect(what).not.toMatch(/-lag|resource-|person-|: duration|undefined|NaN/);
  });

  it("P17 hands in two places and two temperatures at once name what is there", () => {
    const start = (id: string) => solved.schedule!.placements.find((p) => p.task === id)!.start;
    const all = ["tart/bake/2", "tart/bake/2/wait", "loaf/bake/1", "loaf/bake/1/wait"];
    const by = Object.fromEntries(
      all.map((id) => [id, start("tart/bake/1") - start(id.replace("/wait", ""))]),
    );
    const together = said(by);
    const told = together.told.map(({ what }) => what).join("\n");
    expect(told).toMatch(
      /is asked for in two places for \d+ min at D \d\d:\d\d: .+ \(batch 1 of 2, .+ and .+/,
    );
    expect(told).toMatch(/asked for 180 °C for Tart: .+ and 220 °C for Loaf: .+ at D \d\d:\d\d$/m);
  });
});
