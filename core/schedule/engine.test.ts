import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { problems } from "../../tests/schedule/random-problems.ts";
import { checkSchedule } from "./check.ts";
import { clustersOf } from "./clusters.ts";
import { withEnds } from "./facts.ts";
import { Generator } from "./generate.ts";
import { Improver } from "./improve.ts";
import { buildModel } from "./model.ts";
import { objectiveOf, totalOf } from "./objective.ts";
import { scheduleOf } from "./plan.ts";
import type { Problem } from "./problem.ts";
import { Random } from "./random.ts";
import { breakage } from "./relax.ts";
import { Score } from "./score.ts";
import { type Progress, solve } from "./solve.ts";

describe("S10: what the engine places keeps every rule, judged by the checker", () => {
  for (const mirrored of [false, true])
    it(`serial generation ${mirrored ? "backward" : "forward"}`, () => {
      let complete = 0;
      fc.assert(
        fc.property(problems, fc.integer({ min: 1, max: 1000 }), (problem, seed) => {
          const model = buildModel(problem, { mirrored });
          const clusters = clustersOf(model);
          const g = new Generator(model, clusters, [{ anytime: false, thrift: 1, random: new Random(seed) }]);
          if (!g.board.sound) return;
          if (g.run(Float64Array.from(clusters.earliest)).length > 0) return;
          complete++;
          expect(checkSchedule(problem, scheduleOf(g.board))).toEqual([]);
        }),
        { seed: 11, numRuns: 1500 },
      );
      expect(complete).toBeGreaterThan(400);
    });

  it("search keeps it so, and its fast score is the objective", () => {
    fc.assert(
      fc.property(problems, fc.integer({ min: 1, max: 1000 }), (problem, seed) => {
        const rich: Problem = {
          ...problem,
          tasks: problem.tasks.map((t, i) => ({ ...t, place: `place${i % 3}` })),
          walks: [
            { from: "place0", to: "place1", minutes: 2 },
            { from: "place1", to: "place0", minutes: 3 },
          ],
          objective: {
            changes: 30,
            walk: 2,
            peak: { weight: 0.5, share: 0.5, every: 60, from: 20 },
            pauses: 3,
            makespan: 0.1,
            late: 10,
            early: 1,
            hold: 2,
          },
        };
        const model = buildModel(rich, { mirrored: true });
        const clusters = clustersOf(model);
        const random = new Random(seed);
        const g = new Generator(model, clusters, [{ anytime: false, thrift: 1, random }]);
        if (!g.board.sound) return;
        const failed = g.run(Float64Array.from(clusters.earliest));
        const score = new Score(model);
        if (failed.length > 0) return;
        const search = new Improver(g, score, random);
        for (let k = 0; k < 20; k++) search.step(5);
        search.restore();
        const schedule = scheduleOf(g.board);
        expect(checkSchedule(rich, schedule)).toEqual([]);
        expect(score.of(g.board)).toBeCloseTo(totalOf(objectiveOf(rich, schedule)), 6);
        expect(search.bestValue).toBeCloseTo(score.of(g.board), 6);
      }),
      { seed: 12, numRuns: 400 },
    );
  });

  it("solve() answers every sound problem, and says what it breaks", () => {
    fc.assert(
      fc.property(problems, (problem) => {
        const result = solve(problem, { schedules: 30 });
        expect(result.schedule).not.toBeNull();
        expect(result.violations).toEqual(checkSchedule(withEnds(problem), result.schedule!));
        expect(["broken", "infeasible"].includes(result.status)).toBe(result.violations.length > 0);
        if (result.violations.length === 0) expect(result.bound).toBeLessThanOrEqual(result.value + 1e-9);
      }),
      { seed: 13, numRuns: 300 },
    );
  });

  it("S11: the same seed and count give the same answer", () => {
    fc.assert(
      fc.property(problems, fc.integer({ min: 1, max: 99 }), (problem, seed) => {
        const a = solve(problem, { schedules: 20, seed });
        const b = solve(structuredClone(problem), { schedules: 20, seed });
        expect(b).toEqual(a);
      }),
      { seed: 14, numRuns: 60 },
    );
  });

  it("S11: more schedules never give a worse plan", () => {
    let better = 0;
    fc.assert(
      fc.property(problems, fc.integer({ min: 1, max: 99 }), (problem, seed) => {
        const [few, ...more] = [5, 12, 40, 90].map((schedules) => {
          const { violations, value } = solve(problem, { schedules, seed });
          return { breaks: breakage(violations, ["overtime", "late", "wait", "capacity"]), value };
        });
        let last = few!;
        for (const next of more) {
          expect(next.breaks).toBeLessThanOrEqual(last.breaks);
          if (last.breaks === 0) expect(next.value).toBeLessThanOrEqual(last.value + 1e-9);
          if (next.breaks < last.breaks || next.value < last.value) better++;
          last = next;
        }
      }),
      { seed: 16, numRuns: 160 },
    );
    expect(better).toBeGreaterThan(10);
  });

  it("S11: any plan that will do is the first found, and it fits where the longer search's fits", () => {
    let earlier = 0;
    fc.assert(
      fc.property(problems, (problem) => {
        const told: number[] = [];
        const onProgress = ({ value, missing }: Progress) => missing === 0 && told.push(value);
        const long = solve(problem, { schedules: 30, onProgress });
        const any = solve(problem, { schedules: 30, any: true });
        expect(any.status === "broken").toBe(long.status === "broken");
        if (told.length > 0) expect(any.value).toBeCloseTo(told[0]!, 6);
        if (any.schedules < long.schedules) earlier++;
      }),
      { seed: 16, numRuns: 60 },
    );
    expect(earlier).toBeGreaterThan(20);
  });

  it("S12: earliest and latest are where the checker begins to object", () => {
    let moved = 0;
    fc.assert(
      fc.property(problems, (problem) => {
        const { schedule, violations, earliest, latest } = solve(problem, { schedules: 10 });
        if (violations.length > 0 || !schedule) return;
        problem.tasks.forEach((task, i) => {
          const p = schedule.placements[i]!;
          if ((task.modes[p.mode]!.interrupt ?? "no") !== "no") return;
          const length = p.end - p.start;
          const sound = (start: number) => {
            const placements = [...schedule.placements];
            placements[i] = { ...p, start, end: start + length };
            return checkSchedule(problem, { ...schedule, placements }).length === 0;
          };
          const starts = Array.from({ length: problem.horizon + 1 }, (_, t) => t).filter(sound);
          expect([earliest[i], latest[i]]).toEqual([starts[0], starts.at(-1)]);
          if (earliest[i] !== latest[i]) moved++;
        });
      }),
      { seed: 15, numRuns: 60 },
    );
    expect(moved).toBeGreaterThan(20);
  });
});
