import { findRoot } from "../numerics/root.ts";
import type { End, Judge, ReadyStage } from "./prepare.ts";
import { plain, refuse } from "./problem.ts";
import type { KillRate, Sample } from "./stepper.ts";

/** A function of a sample that rises through 0 where the stage ends. Refuses what the medium cannot give. */
export function untilOf(
  end: Exclude<End, { by: "minutes" | "peak" }>,
  stage: ReadyStage,
  first: Sample,
  ambientC: number,
): (s: Sample) => number {
  if (end.by === "log10") return (s) => s.worstLog10 - end.log10;
  const of = (s: Sample) => (end.by === "surface" ? s.surfaceC : end.by === "mean" ? s.meanC : s.coreC);
  const now = of(first);
  if (end.by === "doneness") {
    if (ambientC > end.lowC || now < end.lowC) return (s) => of(s) - end.lowC;
    return (s) => end.highC - of(s);
  }
  const target = end.celsius;
  if (ambientC > target && (now < target || ambientC > now)) return (s) => of(s) - target;
  // A medium below the target: the piece falls to it, or, still colder inside, rises to it by carry-over.
  if (now < target) return (s) => of(s) - target;
  if (ambientC >= target && now > target)
    refuse(
      `${stage.path}/${untilName(end)}`,
      `the piece cools from ${plain(now)} °C towards the ${plain(ambientC)} °C of the medium and never to ${plain(target)} °C`,
      `give a target above ${plain(ambientC)} °C, or a medium below ${plain(target)} °C`,
    );
  return (s) => target - of(s);
}

function untilName(end: End): string {
  return {
    minutes: "minutes",
    core: "untilCoreC",
    surface: "untilSurfaceC",
    mean: "untilMeanC",
    peak: "untilPeakCoreC",
    doneness: "untilDonenessC",
    log10: "untilLog10",
  }[end.by];
}

/** Refuses a target that was not reached, saying how far it came and what would do. */
export function unreached(
  end: End,
  stage: ReadyStage,
  samples: readonly Sample[],
  ambientC: number,
  judge: Judge,
): never {
  const path = `${stage.path}/${end.by === "log10" && judge.table ? "untilTable" : untilName(end)}`;
  const last = samples[samples.length - 1]!;
  const peak = Math.max(...samples.map((s) => s.coreC));
  if (end.by === "log10") {
    const needed = hotEnough(judge.rate, end.log10);
    refuse(
      path,
      `in ${plain(ambientC)} °C only ${plain(last.worstLog10, 2)} of ${plain(end.log10, 2)} log10 come together in 30 days`,
      `give a medium of ${plain(needed)} °C or more: there it takes a day at most once the piece is hot`,
    );
  }
  const asked = end.by === "doneness" ? end.lowC : end.by === "minutes" ? 0 : end.celsius;
  if (asked >= ambientC && asked > last.coreC)
    refuse(
      path,
      `${plain(asked)} °C is out of reach in a medium of ${plain(ambientC)} °C; the core comes to ${plain(peak)} °C at most`,
      `give a medium above ${plain(asked)} °C, or a lower target`,
    );
  refuse(
    path,
    `${plain(asked)} °C is not reached in 30 days; the core comes to ${plain(last.coreC)} °C`,
    "check the thickness and the coefficient, or give a target further from the temperature of the medium",
  );
}

/** Below this no table counts a hold and spores may grow, °C (FSIS-GD-2021-14, first row 130 °F). */
export const lowestCookingC = 54.4;

/** Lowest temperature, none below that, at which a day's hold gives so many log10. */
function hotEnough(rate: KillRate, log10: number): number {
  const short = (t: number) => Math.log(Math.max(1e-300, rate(t) * 86400)) - Math.log(log10);
  if (short(150) < 0) return 150;
  if (short(lowestCookingC) > 0) return lowestCookingC;
  return Math.ceil(findRoot(short, lowestCookingC, 150, 0.01).x * 10) / 10;
}
