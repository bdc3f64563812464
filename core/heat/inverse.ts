import { findRoot } from "../numerics/root.ts";
import { answer, type Refusal } from "./heat.ts";
import { resized } from "./piece.ts";
import { prepare, type Question, type Ready } from "./prepare.ts";
import { plain, Refused, refuse } from "./problem.ts";
import { runStages } from "./run-stages.ts";
import { fineness } from "./spread.ts";

/** An inverse answer, and the minutes it gives when put back. */
export type Found = { value: number; minutes: number };

/**
 * How thick a piece may be (thickness of a slab, diameter of a round, shortest side of a brick, mm) for its
 * stages to take just so many minutes in all. Layers keep their proportions. Between 0.5 and 500 mm.
 */
export function thicknessFor(question: Question, minutes: number): Found | Refusal {
  return answer(() => {
    const ready = prepare(question);
    const now = 2000 * ready.whole.halves[0]!;
    const at = (mm: number) => minutesOf({ ...ready, whole: resized(ready.whole, (mm - now) / 1000) });
    return between(at, 0.5, 500, minutes, "thickness", "mm");
  });
}

/**
 * How hot the medium of one stage must be, °C, for all stages to take just so many minutes (`stage` counts from
 * 0). A medium that heats is sought from its target up, one that cools from its target down.
 */
export function mediumFor(question: Question, stage: number, minutes: number): Found | Refusal {
  return answer(() => {
    const ready = prepare(question);
    const asked = ready.stages[stage];
    if (!asked) refuse("/stages", `there is no stage ${stage}`, `give 0 to ${ready.stages.length - 1}`);
    const { end, around } = asked;
    if (end.by === "minutes")
      refuse(
        asked.path,
        "a stage of fixed minutes takes them in any medium",
        "ask for a stage with a target",
      );
    const at = (mediumC: number) =>
      minutesOf({
        ...ready,
        stages: ready.stages.map((s, i) => (i === stage ? { ...s, around: { ...around, mediumC } } : s)),
      });
    const target =
      end.by === "log10" ? undefined : end.by === "doneness" ? (end.lowC + end.highC) / 2 : end.celsius;
    const heats = target === undefined || around.mediumC > target;
    const top = around.medium?.watery ? ready.air.boilingC : 400;
    if (heats) return between(at, (target ?? 45) + 0.05, top, minutes, "medium", "°C");
    return between(at, -60, target - 0.05, minutes, "medium", "°C");
  });
}

/** Latest minute to begin for a piece to be ready at a minute, when its long end is waited for. */
export function latestStart(readyAtMinute: number, minutes: { high: number }): number {
  return readyAtMinute - Math.ceil(minutes.high);
}

function minutesOf(ready: Ready): number {
  try {
    return runStages(ready, fineness(ready)).stages.reduce((sum, s) => sum + s.seconds, 0) / 60;
  } catch (thrown) {
    // What is never reached takes for ever.
    if (thrown instanceof Refused) return 1e9;
    throw thrown;
  }
}

function between(
  at: (x: number) => number,
  low: number,
  high: number,
  minutes: number,
  what: string,
  unit: string,
): Found {
  const short = (x: number) => Math.log(Math.max(at(x), 1e-9)) - Math.log(minutes);
  const a = short(low);
  const b = short(high);
  if (!(minutes > 0)) refuse("/minutes", "minutes above 0", "give the minutes there are");
  if (a > 0 === b > 0)
    refuse(
      "/minutes",
      `no ${what} from ${plain(low)} to ${plain(high)} ${unit} takes ${plain(minutes)} minutes: they take ${inWords(at(low))} to ${inWords(at(high))}`,
      "give other minutes, another coefficient or another piece",
    );
  const value = findRoot(short, low, high, 1e-3, { atLow: a, atHigh: b }).x;
  return { value, minutes: at(value) };
}

function inWords(minutes: number): string {
  return minutes >= 1e9 ? "for ever" : `${plain(minutes)} minutes`;
}
