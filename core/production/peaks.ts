import { stretchesOf } from "../schedule/peaks.ts";
import type { Problem, Schedule } from "../schedule/problem.ts";
import { beyondShare } from "./plan-rules.ts";
import type { Peak } from "./plan-types.ts";
import type { Site } from "./site.ts";
import { PEAK_MIN, PEAK_SHARE } from "./weights.ts";

/** Peaks are counted by hours of the clock, whatever minute the run begins at. */
export function peakOf(site: Site): {
  readonly share: number;
  readonly every: number;
  readonly from: number;
} {
  const past = Number(site.clock.textOf(0).slice(-2));
  return { share: PEAK_SHARE, every: PEAK_MIN, from: (PEAK_MIN - past) % PEAK_MIN };
}

/** The hours in which hands work more than the share of them that leaves something spare (README, P26). */
export function peaksOf(site: Site, problem: Problem, schedule: Schedule): Peak[] {
  return stretchesOf(problem, schedule.placements, peakOf(site))
    .filter(({ worked, there }) => beyondShare(worked, there, PEAK_SHARE) > 0)
    .map(({ from, to, worked, there }) => ({
      ...{ from: site.clock.textOf(from), to: site.clock.textOf(to) },
      ...{ workedMin: worked, thereMin: there, overMin: beyondShare(worked, there, PEAK_SHARE) },
    }));
}
