import type { Ready } from "./prepare.ts";
import { Refused } from "./problem.ts";
import { runStages, type Shift } from "./run-stages.ts";
import type { Spread } from "./schema.ts";
import { fineness } from "./spread.ts";

export type Sampled = {
  /** Cases that end, and those that never reach their targets. */
  reached: number;
  never: number;
  /** Sorted total minutes and core at the end, °C, of the cases that end. */
  minutes: number[];
  coreC: number[];
};

/**
 * Many cases with each tolerance drawn evenly between its ends. `random` gives numbers from 0 to 1: seed it and
 * the answer is the same. The band of `bandOf` holds all of them; this says how they lie within it.
 */
export function sampleSpread(ready: Ready, spread: Spread, cases: number, random: () => number): Sampled {
  const minutes: number[] = [];
  const coreC: number[] = [];
  const how = fineness(ready);
  let never = 0;
  const draw = () => 2 * random() - 1;
  for (let i = 0; i < cases; i++) {
    const shift: Shift = { thickness: draw(), start: draw(), medium: draw(), coefficient: draw() };
    try {
      const run = runStages(ready, how, spread, shift);
      minutes.push(run.stages.reduce((sum, stage) => sum + stage.seconds, 0) / 60);
      coreC.push(run.stages[run.stages.length - 1]!.end.coreC);
    } catch (thrown) {
      if (!(thrown instanceof Refused)) throw thrown;
      never++;
    }
  }
  const up = (a: number, b: number) => a - b;
  return { reached: minutes.length, never, minutes: minutes.sort(up), coreC: coreC.sort(up) };
}

/** The value below which a share of a sorted list lies; straight lines between neighbours. */
export function quantile(sorted: readonly number[], share: number): number {
  if (sorted.length === 0) return Number.NaN;
  const place = share * (sorted.length - 1);
  const i = Math.min(sorted.length - 2, Math.floor(place));
  if (i < 0) return sorted[0]!;
  return sorted[i]! + (place - i) * (sorted[i + 1]! - sorted[i]!);
}
