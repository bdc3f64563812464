import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { checkSchedule } from "../core/schedule/index.ts";
import { type Project, problemOf } from "../core/schedule/rcpsp/project.ts";
import { readProject } from "../core/schedule/rcpsp/read.ts";
import { solveProject } from "../core/schedule/rcpsp/solve.ts";
import { checkData } from "./check-data.ts";

/*
 * Published scheduling instances and their best known makespans.
 * .sm: R. Kolisch, A. Sprecher, PSPLIB - a project scheduling problem library, EJOR 96 (1996) 205-216 (published).
 * .sch: C. Schwindt, generator ProGen/max, sets SM and UBO (published). Best known values and proofs: the lists
 * named in the data folder's README (proved optimal or infeasible by several solvers, published).
 * The instances are research data for tests: they are read from CHECK_DATA and are not part of this repository.
 */

/** File, best known makespan (null: proved infeasible), schedules allowed. */
const optimal: readonly [string, number | null, number][] = [
  ["j30/j301_3.sm", 47, 2000],
  ["j30/j305_6.sm", 64, 2000],
  ["j30/j3013_10.sm", 64, 20_000],
  ["j30/j3014_9.sm", 46, 5000],
  ["j30/j3021_10.sm", 69, 5000],
  ["j30/j3030_5.sm", 54, 2000],
  ["j30/j3037_1.sm", 79, 2000],
  ["j60/j602_5.sm", 54, 2000],
  ["j60/j605_9.sm", 83, 5000],
  ["j60/j606_9.sm", 64, 2000],
  ["j120/j1203_8.sm", 77, 3000],
  ["j120/j1205_9.sm", 106, 3000],
  ["rcpsp-max/sm-j10/PSP26.SCH", null, 2000],
  ["rcpsp-max/sm-j10/PSP218.SCH", null, 2000],
  ["rcpsp-max/sm-j10/PSP63.SCH", 67, 2000],
  ["rcpsp-max/sm-j20/PSP63.SCH", null, 2000],
  ["rcpsp-max/sm-j20/PSP97.SCH", 60, 2000],
  ["rcpsp-max/sm-j20/PSP201.SCH", 84, 2000],
  ["rcpsp-max/sm-j30/PSP148.SCH", null, 2000],
  ["rcpsp-max/sm-j30/PSP36.SCH", null, 5000],
  ["rcpsp-max/sm-j30/PSP43.SCH", 66, 2000],
  ["rcpsp-max/sm-j30/PSP17.SCH", 57, 2000],
  ["rcpsp-max/ubo20/psp36.sch", 101, 2000],
  ["rcpsp-max/ubo20/psp78.sch", 116, 2000],
  ["rcpsp-max/ubo50/psp37.sch", 229, 5000],
  ["rcpsp-max/ubo50/psp74.sch", null, 5000],
  ["rcpsp-max/ubo100/psp18.sch", 306, 5000],
];

const project = (path: string): Project => {
  const read = readProject(readFileSync(path, "utf8"));
  if (!read || "path" in read) throw new Error(`${path}: ${JSON.stringify(read)}`);
  return read;
};

const data = checkData("published schedules", "benchmarks");

describe.skipIf(!data)("S17: published instances", () => {
  for (const [file, best, schedules] of optimal)
    test(`${file}: ${best === null ? "proved infeasible" : `optimum ${best} found and proved`}`, () => {
      const p = project(`${data![0]}/${file}`);
      const result = solveProject(p, { schedules });
      expect([result.status, result.makespan]).toEqual(
        best === null ? ["infeasible", null] : ["optimal", best],
      );
      if (result.starts) expect(judged(p, result.starts)).toEqual([]);
    });

  /** Mean per cent above best known, on every instance of the set; the limits are what the engine is asked to keep. */
  const sets: readonly [string, number, number][] = [
    ["j30", 1000, 0.25],
    ["j60", 1000, 1],
    ["j120", 1000, 2.8],
  ];
  for (const [set, schedules, limit] of sets)
    test(`${set}: at most ${limit} % above best known at ${schedules} schedules`, () => {
      const rows = readFileSync(`${data![0]}/${set}/best-known.csv`, "utf8").trim().split("\n").slice(1);
      let above = 0;
      for (const row of rows) {
        const [file, , lower, best] = row.split(",");
        const result = solveProject(project(`${data![0]}/${set}/${file}`), { schedules });
        expect(result.schedules).toBeLessThanOrEqual(schedules);
        expect(result.makespan!).toBeGreaterThanOrEqual(Number(lower));
        expect(result.lowerBound).toBeLessThanOrEqual(Number(best));
        above += 100 * (result.makespan! / Number(best) - 1);
      }
      expect(above / rows.length).toBeLessThanOrEqual(limit);
    });
});

/** By the room's own checker, which knows nothing of the solver. */
function judged(p: Project, starts: readonly number[]) {
  const problem = problemOf(p);
  const placements = problem.tasks.map((task, i) => ({
    task: task.id,
    start: starts[i]!,
    end: starts[i]! + task.modes[0]!.duration,
    mode: 0,
    persons: [],
    resources: (task.modes[0]!.resources ?? []).map((need) => need.of[0]!),
  }));
  return checkSchedule(problem, { placements, spans: [] });
}
