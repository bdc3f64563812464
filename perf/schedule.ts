import { checkSchedule, objectiveOf, solve, totalOf } from "../core/schedule/index.ts";
import { plantService } from "../core/schedule/planted.ts";

/** One measured figure; `limit` is what it is asked to stay under. */
export interface ScheduleRow {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly limit?: number;
}

/**
 * The plan's figures on services with a planted plan: time to the first plan (feasible or best attempt), share
 * of seeds with a feasible plan, and the gap to the planted value after `seconds` where the planted plan is
 * optimal. `seeds` services of each size.
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
    for (let seed = 1; seed <= count; seed++) {
      const optimal = seed % 2 === 0;
      const { problem, plan } = plantService({ tasks, seed, optimal });
      const begun = performance.now();
      let told = 0;
      const result = solve(problem, {
        schedules: 1_000_000,
        stop: () => performance.now() - begun > 1000 * seconds,
        onProgress: () => {
          told ||= performance.now() - begun;
        },
      });
      first.push(told);
      rates.push(result.schedules / seconds);
      if (checkSchedule(problem, result.schedule!).length > 0) continue;
      feasible++;
      if (optimal) gaps.push(100 * (result.value / totalOf(objectiveOf(problem, plan)) - 1));
    }
    rows.push(
      { name: `first plan, ${tasks} tasks, median`, value: median(first), unit: "ms", limit },
      {
        name: `feasible in ${seconds} s, ${tasks} tasks`,
        value: (100 * feasible) / count,
        unit: "% of seeds",
      },
      { name: `above planted optimum, ${tasks} tasks, worst`, value: Math.max(...gaps), unit: "%", limit: 5 },
      { name: `partial plans a second, ${tasks} tasks`, value: median(rates), unit: "1/s" },
    );
  }
  return rows;
}

function median(list: readonly number[]): number {
  const sorted = [...list].sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? Number.NaN;
}
