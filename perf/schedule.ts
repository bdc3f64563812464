import { readFileSync } from "node:fs";
import { checkSchedule, objectiveOf, solve, totalOf } from "../core/schedule/index.ts";
import { plantService } from "../core/schedule/planted.ts";
import type { Valued } from "../core/schedule/problem.ts";
import { readProject } from "../core/schedule/rcpsp/read.ts";
import { solveProject } from "../core/schedule/rcpsp/solve.ts";

/** One measured figure; `limit` is what it is asked to stay under. */
export interface ScheduleRow {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly limit?: number;
}

/**
 * The plan's figures on services with a planted plan: processor time to the first plan (feasible or best attempt),
 * share of seeds without a feasible plan, the gap to the planted value after `seconds` where the planted plan is
 * optimal, and each term of the last plan above its bound. `seeds` services of each size, fewer of the largest.
 */
export function scheduleRows(seeds = 20, seconds = 2): ScheduleRow[] {
  const rows: ScheduleRow[] = [];
  for (const [tasks, count, limit] of [
    [60, seeds, 100],
    [600, seeds, 100],
    [2000, Math.max(1, Math.floor(seeds / 10)), 1000],
  ] as const) {
    const first: number[] = [];
    const gaps: number[] = [];
    const rates: number[] = [];
    let feasible = 0;
    let terms: readonly Valued[] = [];
    for (let seed = 1; seed <= count; seed++) {
      const optimal = seed % 2 === 0;
      const { problem, plan } = plantService({ tasks, seed, optimal });
      const begun = performance.now();
      const busy = process.cpuUsage();
      let told = 0;
      const result = solve(problem, {
        schedules: 1_000_000,
        stop: () => performance.now() - begun > 1000 * seconds,
        onProgress: () => {
          const { user, system } = process.cpuUsage(busy);
          told ||= (user + system) / 1000;
        },
      });
      first.push(told);
      rates.push(result.schedules / seconds);
      if (checkSchedule(problem, result.schedule!).length > 0) continue;
      feasible++;
      terms = result.objective;
      if (optimal) gaps.push(100 * (result.value / totalOf(objectiveOf(problem, plan)) - 1));
    }
    rows.push(
      { name: `first plan, ${tasks} tasks, median`, value: median(first), unit: "ms", limit },
      { name: `first plan, ${tasks} tasks, worst`, value: Math.max(...first), unit: "ms" },
      {
        name: `no feasible plan in ${seconds} s, ${tasks} tasks`,
        value: 100 - (100 * feasible) / count,
        unit: "% of seeds",
        limit: 5,
      },
      {
        name: `above planted optimum, ${tasks} tasks, worst`,
        value: gaps.length > 0 ? Math.max(...gaps) : Number.NaN,
        unit: "%",
        limit: 5,
      },
      { name: `partial plans a second, ${tasks} tasks`, value: median(rates), unit: "1/s" },
      ...terms.map((t) => ({
        name: `${tasks} tasks, last seed, "${t.term}" above its bound of ${t.bound?.toFixed(1) ?? "none"}`,
        value: t.value - (t.bound ?? 0),
        unit: "of value",
      })),
    );
  }
  return rows;
}

/** Per cent above best known that the published sets are asked to stay within, by schedules. */
const ASKED: readonly [set: string, schedules: number, limit: number][] = [
  ["j30", 1000, 0.25],
  ["j30", 5000, 0.08],
  ["j30", 50_000, 0.03],
  ["j60", 1000, 1],
  ["j60", 5000, 0.6],
  ["j60", 50_000, 0.4],
  ["j120", 1000, 2.8],
  ["j120", 5000, 2],
  ["j120", 50_000, 1.3],
];

/**
 * Mean distance from the best known makespans of the published project instances in `folder` (see
 * evidence/psplib.test.ts), up to `most` schedules each, and the schedules made in a second.
 */
export function projectRows(folder: string, most = 50_000): ScheduleRow[] {
  return ASKED.filter(([, schedules]) => schedules <= most).flatMap(([set, schedules, limit]) => {
    const rows = readFileSync(`${folder}/${set}/best-known.csv`, "utf8").trim().split("\n").slice(1);
    const begun = performance.now();
    let above = 0;
    let made = 0;
    for (const row of rows) {
      const [file, , , best] = row.split(",");
      const project = readProject(readFileSync(`${folder}/${set}/${file}`, "utf8"));
      if (!project || "path" in project) throw new Error(`${file} can't be read`);
      const result = solveProject(project, { schedules });
      above += 100 * (result.makespan! / Number(best) - 1);
      made += result.schedules;
    }
    const seconds = (performance.now() - begun) / 1000;
    return [
      {
        name: `${set}, ${schedules} schedules: above best known, mean`,
        value: above / rows.length,
        unit: "%",
        limit,
      },
      { name: `${set}, ${schedules} schedules: made in a second`, value: made / seconds, unit: "1/s" },
    ];
  });
}

/**
 * The published instances with lags both ways in `folder`, `seconds` of processor time each: those called infeasible
 * that are not, feasible ones without a plan, the mean distance from the best known, and what was not refuted in the sets of
 * up to 30 activities (larger ones may stay unknown).
 */
export function laggedRows(folder: string, seconds = 10): ScheduleRow[] {
  const rows = readFileSync(`${folder}/rcpsp-max/best-known.csv`, "utf8").trim().split("\n").slice(1);
  const count = { wrong: 0, planless: 0, unproved: 0 };
  const gaps: number[] = [];
  let slowest = 0;
  for (const row of rows) {
    const [file = "", feasible, , , best] = row.split(",");
    const project = readProject(readFileSync(`${folder}/rcpsp-max/${file}`, "utf8"));
    if (!project || "path" in project) throw new Error(`${file} can't be read`);
    const begun = process.cpuUsage();
    const spent = () => {
      const { user, system } = process.cpuUsage(begun);
      return (user + system) / 1e6;
    };
    const { status, makespan } = solveProject(project, { schedules: 1e9, stop: () => spent() > seconds });
    slowest = Math.max(slowest, spent());
    if (feasible === "yes") {
      if (status === "infeasible") count.wrong++;
      if (makespan === null) count.planless++;
      else gaps.push(100 * (makespan / Number(best) - 1));
    } else if (file.startsWith("sm-") && status !== "infeasible") count.unproved++;
  }
  const name = (what: string) => `lags both ways, ${rows.length} instances, ${seconds} s each: ${what}`;
  return [
    { name: name("called infeasible wrongly"), value: count.wrong, unit: "instances", limit: 0 },
    { name: name("feasible but no plan found"), value: count.planless, unit: "instances", limit: 0 },
    { name: name("infeasible SM not proved"), value: count.unproved, unit: "instances", limit: 0 },
    {
      name: name("above best known, mean"),
      value: gaps.reduce((a, b) => a + b, 0) / gaps.length,
      unit: "%",
      limit: 1.5,
    },
    { name: name("slowest"), value: slowest, unit: "s" },
  ];
}

function median(list: readonly number[]): number {
  const sorted = [...list].sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? Number.NaN;
}
