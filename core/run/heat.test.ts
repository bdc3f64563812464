import { describe, expect, test } from "vitest";
import { demoBook } from "../../data/demo/book.ts";
import { parseBook } from "../book/parse.ts";
import { coolingRules } from "../heat/limits-data.ts";
import { replayTrace } from "./replay.ts";
import type { HeatOutcome, Result } from "./result.ts";
import { run } from "./run.ts";

// biome-ignore lint/suspicious/noExplicitAny: a trial may write anything anywhere
type Open = any;

/** The demo with something changed in it, computed without a plan. */
function changed(change: (book: Open) => unknown, options: object = {}): Result {
  const open: Open = structuredClone(demoBook);
  change(open);
  const read = parseBook(open);
  if (!read.ok) throw new Error(JSON.stringify(read.problems[0]));
  return run(read.value, read.value.services[0]!.id, { plan: false, trace: false, ...options });
}

const result = changed(() => {});
const targets = result.heat.filter((one) => one.kind === "heating");
const chilled = result.heat.filter((one) => one.kind === "cooling" && one.curve.length > 0);
const stepOf = (book: Open, { preparation, step }: Pick<HeatOutcome, "preparation" | "step">) =>
  book.preparations.find((one: Open) => one.id === preparation).steps.find((one: Open) => one.id === step);

describe("R7 heat joins the run", () => {
  test("a target has its band in order, a curve, its limits at their worst end, and what matters most", () => {
    expect(targets.length).toBeGreaterThan(0);
    for (const { minutes, coreC, curve, limits, driver, held } of targets) {
      expect(minutes.low!).toBeLessThan(minutes.mid!);
      expect(minutes.mid!).toBeLessThan(minutes.high!);
      expect(coreC!.slow).toBeLessThanOrEqual(coreC!.mid);
      expect(coreC!.mid).toBeLessThanOrEqual(coreC!.quick);
      expect(curve.length).toBeLessThanOrEqual(60);
      // In the plan's minutes the slow piece gets there too.
      for (const limit of limits) expect(limit).toMatchObject({ at: "slow", met: true });
      expect(["thickness", "start", "medium", "coefficient"]).toContain(driver);
      expect(held!.slowMin).toBeGreaterThan(0);
    }
  });

  test("the plan takes the long end of each stage, rounded up", () => {
    const planned = run(parsed(), result.summary.service, { schedules: 4, remedies: false });
    for (const { preparation, step, minutes } of targets) {
      const wait = planned.plan.tasks.find((task) => task.id.startsWith(`${preparation}/${step}/1/wait`))!;
      const lasts = wait.endMin - wait.startMin;
      expect(lasts).toBeGreaterThanOrEqual(Math.ceil(minutes.high!));
      expect(lasts).toBeLessThanOrEqual(Math.ceil(minutes.high!) + 2);
    }
    expect(replayTrace(parsed(), planned, { schedules: 4, remedies: false }).slice(0, 5)).toEqual([]);
  });

  test("a thicker piece takes longer, and one that cannot be computed says what is missing", () => {
    const { preparation, step, minutes } = targets[0]!;
    const thicker = changed((book) => {
      book.preparations.find((one: Open) => one.id === preparation).piece.thicknessMm *= 1.5;
    }).heat.find((one) => one.preparation === preparation && one.step === step)!;
    expect(thicker.minutes.high!).toBeGreaterThan(1.5 * minutes.high!);
    const without = changed((book) => {
      delete book.preparations.find((one: Open) => one.id === preparation).piece;
    }).heat.find((one) => one.preparation === preparation && one.step === step)!;
    expect(without.curve).toEqual([]);
    expect(without.notes[0]).toMatch(/Not computed: .*shape/);
  });

  test("control points carry value and margin at their own worst end; the margin is their difference", () => {
    const point = result.control.find((one) => one.step === targets[0]!.step && one.act === "cook")!;
    expect(point.predicted).toMatchObject({ coreC: targets[0]!.coreC, driver: targets[0]!.driver });
    const core = point.parts.find((part) => part.what === "coreC")!;
    expect(core.predicted).toBe(targets[0]!.peakC!.slow);
    expect(core.margin).toBeCloseTo(core.predicted! - core.value, 12);
    const time = point.parts.find((part) => part.what === "minutes")!;
    expect(time.predicted).toBe(targets[0]!.held!.slowMin);
    expect(time.margin).toBeGreaterThan(0);
  });

  test("four to seven control points are critical, and nothing calls food safe", () => {
    const critical = result.control.filter((point) => point.level === "critical");
    expect(critical.length).toBeGreaterThanOrEqual(4);
    expect(critical.length).toBeLessThanOrEqual(7);
    expect(JSON.stringify([result.control, result.heat])).not.toMatch(/\bsafe\b/i);
    expect(result.warnings.filter((warning) => /no limit that is known/.test(warning.what))).toEqual([]);
  });
});

describe("R8 cooling is predicted", () => {
  const stages = coolingRules[0]!.stages;
  test("in two stages on the slow piece, minutes written or not", () => {
    expect(chilled.length).toBeGreaterThan(2);
    for (const { limits, curve, minutes } of chilled) {
      expect(limits.map(({ toC, limit }) => [toC, limit])).toEqual(stages.map((s) => [s.toC, s.withinMin]));
      for (const { value, margin, limit } of limits)
        if (value !== undefined) expect(margin).toBeCloseTo(limit - value, 9);
      expect(curve.at(-1)!.slowC).toBeLessThan(curve[0]!.slowC);
      if (minutes.high !== undefined) expect(minutes.high).toBeGreaterThan(minutes.low!);
    }
  });

  test("twice as deep in a chiller that takes it cools longer and may miss; its control point says so", () => {
    const { preparation, step } = chilled.find((one) =>
      result.control.some(
        (c) => c.preparation === one.preparation && c.step === one.step && c.from === "book",
      ),
    )!;
    const before = chilled.find((one) => one.preparation === preparation && one.step === step)!;
    const deep = changed((book) => {
      for (const use of stepOf(book, { preparation, step }).uses) use.depthMm *= 3;
    });
    const after = deep.heat.find((one) => one.preparation === preparation && one.step === step)!;
    expect(after.limits[0]!.value ?? Number.POSITIVE_INFINITY).toBeGreaterThan(2 * before.limits[0]!.value!);
    expect(after.limits.some((limit) => !limit.met)).toBe(true);
    const point = deep.control.find((c) => c.preparation === preparation && c.step === step)!;
    expect(point.note).toMatch(/not kept at the slow end/);
  });

  test("a target that heats and then chills is judged by both", () => {
    const { preparation, step } = targets[0]!;
    const both = changed((book) => {
      const open = stepOf(book, { preparation, step });
      open.target.stages.push({ medium: "ice-bath", untilCoreC: 5 });
      open.hold = { state: "cold", maxMin: 600 };
    });
    const found = (act: string) =>
      both.control.find((c) => c.preparation === preparation && c.step === step && c.act === act)!;
    expect(found("cook").parts[0]!.predicted).toBeGreaterThan(found("cook").parts[0]!.value);
    const [first, second] = found("cool").parts;
    expect(first!.predicted!).toBeGreaterThan(5);
    expect(second!.predicted!).toBeGreaterThan(first!.predicted!);
    expect(second!.margin).toBeCloseTo(second!.withinMin! - second!.predicted!, 12);
  });

  test("without a depth it is not predicted, and says what would let it", () => {
    const { preparation, step } = chilled[0]!;
    const flat = changed((book) => {
      for (const use of stepOf(book, { preparation, step }).uses) delete use.depthMm;
    }).heat.find((one) => one.preparation === preparation && one.step === step)!;
    expect(flat).toMatchObject({ curve: [], limits: [], minutes: {} });
    expect(flat.notes[0]).toMatch(/Not predicted: give the depth/);
  });
});

describe("R9 a unit takes food only so deep", () => {
  test("deeper than any chiller takes breaks the plan by so many mm, the same for planner and inspector", () => {
    const chill = chilled.find(({ preparation, step }) =>
      stepOf(demoBook, { preparation, step }).uses.some((use: Open) => use.kind === "chiller"),
    )!;
    const deep = changed(
      (book) => {
        for (const use of stepOf(book, chill).uses) use.depthMm = 65;
      },
      { plan: true, schedules: 2, remedies: false },
    );
    const broken = deep.plan.broken.filter(({ rule }) => rule === "depth");
    expect(broken).toMatchObject([{ by: 15, unit: "mm" }]);
    expect(deep.plan.status).toBe("broken");
  });
});

function parsed() {
  const read = parseBook(demoBook);
  if (!read.ok) throw new Error(JSON.stringify(read.problems[0]));
  return read.value;
}
