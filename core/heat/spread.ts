import type { Ready } from "./prepare.ts";
import { type Note, Refused } from "./problem.ts";
import { type Fineness, noShift, type Run, runStages, type Shift } from "./run-stages.ts";
import type { Spread } from "./schema.ts";

/** Quick end, as asked for, slow end. The slow end is null where the target is never reached there. */
export type Range = { low: number; mid: number; high: number | null };
export type SpreadInput = keyof Shift;
export type Band = {
  totalMinutes: Range;
  /** Each stage: its minutes, and core and log10 at its end, at the two ends of the tolerances. */
  stages: { minutes: Range; coreC: Range; log10: Range }[];
  /** The tolerance that moves the result most, and how far each alone moves it at its slow end. */
  driver: SpreadInput | "none";
  moves: { input: SpreadInput; minutes: number | null; coreC: number | null }[];
};

/** A mesh that is quick and true enough for the ends of a band. */
export function fineness(ready: Ready): Fineness {
  return { cells: [14, 10, 7][ready.whole.halves.length - 1]!, stepToleranceK: 0.03 };
}

const inputs = [
  ["thickness", "thicknessMm"],
  ["start", "startC"],
  ["medium", "mediumC"],
  ["coefficient", "coefficient"],
] as const;

const slow: Shift = { thickness: 1, start: 1, medium: 1, coefficient: 1 };
const quick: Shift = { thickness: -1, start: -1, medium: -1, coefficient: -1 };

/**
 * The band that tolerances make: all four at their slow end together, all at their quick end, and each alone at
 * its slow end to say which matters most. Slow is thick, far from the medium at the start, a medium nearer to the
 * piece, a low coefficient.
 */
export function bandOf(ready: Ready, spread: Spread, notes: Note[]): Band {
  const at = (shift: Shift): Run | undefined => {
    try {
      return runStages(ready, fineness(ready), spread, shift);
    } catch (thrown) {
      if (thrown instanceof Refused) return undefined;
      throw thrown;
    }
  };
  const mid = at(noShift)!;
  const low = at(quick);
  const high = at(slow);
  if (!high)
    notes.push({
      code: "slow-end-unreached",
      text: "At the slow end of the tolerances what the stages wait for is never reached.",
    });
  const moves = inputs
    .filter(([, name]) => (spread[name] ?? 0) > 0)
    .map(([input]) => {
      const moved = at({ ...noShift, [input]: 1 });
      return {
        input,
        minutes: moved ? minutesOf(moved) - minutesOf(mid) : null,
        coreC: moved ? coreOf(moved) - coreOf(mid) : null,
      };
    });
  const weight = (move: (typeof moves)[number]) =>
    move.minutes === null
      ? Number.POSITIVE_INFINITY
      : Math.abs(move.minutes) / Math.max(minutesOf(mid), 1e-9) + Math.abs(move.coreC ?? 0) / 100;
  const most = [...moves].sort((a, b) => weight(b) - weight(a))[0];
  const range = (of: (run: Run) => number): Range => ({
    low: low ? of(low) : of(mid),
    mid: of(mid),
    high: high ? of(high) : null,
  });
  return {
    totalMinutes: range(minutesOf),
    stages: mid.stages.map((_, i) => ({
      minutes: range((run) => run.stages[i]!.seconds / 60),
      coreC: range((run) => run.stages[i]!.end.coreC),
      log10: range((run) => run.stages[i]!.end.worstLog10),
    })),
    driver: most?.input ?? "none",
    moves,
  };
}

function minutesOf(run: Run): number {
  return run.stages.reduce((sum, stage) => sum + stage.seconds, 0) / 60;
}

function coreOf(run: Run): number {
  return run.stages[run.stages.length - 1]!.end.coreC;
}
