import { mediumNamed } from "../../../../core/heat/media.ts";
import type { Stage } from "../../../../core/heat/schema.ts";
import type { Say } from "../../../../words/catalogue.ts";
import type { Format } from "../../../../words/format.ts";
import type { HeatTold } from "../../../compute/heat-protocol.ts";

interface Speak {
  readonly say: Say;
  readonly write: Format;
}

/** Minutes with their quick and slow end: "21 min (19 to 24)". */
export function bandText(
  { say, write }: Speak,
  range: { readonly low: number; readonly mid: number; readonly high: number | null },
): string {
  const { low, mid, high } = range;
  const figure = (minutes: number) =>
    (high ?? mid) < 59.5 ? write.number(minutes, minutes < 10 ? 1 : 0) : write.span(minutes);
  if (high === null) return say("heat.out.never", { mid: write.span(mid), low: figure(low) });
  if (figure(low) === figure(high)) return write.span(mid);
  return say("heat.out.band", { mid: write.span(mid), low: figure(low), high: figure(high) });
}

/** What came of a trial, a sentence a stage, with the time since the beginning, and what follows when left alone. */
export function outcome(told: HeatTold, speak: Speak): string[] {
  const { say, write } = speak;
  const { result, input } = told;
  let before = input.startC;
  const sentences = result.stages.map((stage, i) => {
    const time = bandText(speak, timeUntil(told, i));
    const values = { time, core: write.temperature(stage.coreC) };
    const text = ofStage(input.stages[i]!, before, values, speak);
    before = stage.coreC;
    return text;
  });
  const peak = Math.max(...result.stages.map((stage) => stage.peakCoreC));
  const end = result.stages.at(-1)!.coreC;
  if (peak > end + 0.5 && peak > input.startC + 0.5)
    sentences.push(say("heat.out.peaks", { value: write.temperature(peak) }));
  const left = told.more?.leftAlone;
  if (left)
    sentences.push(
      say("heat.out.left", { value: write.temperature(left.peakC), time: write.span(left.minute) }),
    );
  return sentences;
}

/** Minutes from the beginning to the end of a stage: of the piece as written, the quick and the slow one. */
function timeUntil({ result }: HeatTold, stage: number) {
  const range = { low: 0, mid: 0, high: 0 as number | null };
  for (let i = 0; i <= stage; i++) {
    const mid = result.stages[i]!.minutes;
    const band = result.band?.stages[i]?.minutes;
    range.mid += mid;
    range.low += band?.low ?? mid;
    const high = band ? band.high : mid;
    range.high = range.high === null || high === null ? null : range.high + high;
  }
  return range;
}

function ofStage(
  stage: Stage,
  coreBefore: number,
  values: { readonly time: string; readonly core: string },
  { say, write }: Speak,
): string {
  const value = (celsius: number) => ({ ...values, value: write.temperature(celsius) });
  if (stage.untilCoreC !== undefined)
    return say(stage.untilCoreC < coreBefore ? "heat.out.falls" : "heat.out.core", value(stage.untilCoreC));
  if (stage.untilSurfaceC !== undefined) return say("heat.out.surface", value(stage.untilSurfaceC));
  if (stage.untilMeanC !== undefined) return say("heat.out.mean", value(stage.untilMeanC));
  if (stage.untilPeakCoreC !== undefined) return say("heat.out.peak", values);
  if (stage.untilDonenessC) return say("heat.out.doneness", values);
  if (stage.untilLog10)
    return say("heat.out.log10", { ...values, value: write.number(stage.untilLog10.log10) });
  if (stage.untilTable)
    return say("heat.out.log10", {
      ...values,
      value: stage.untilTable.table.match(/[\d.]+$/)?.[0] ?? "",
    });
  return say("heat.out.minutes", values);
}

/** What a stage is called: its own name, else its medium. */
export function stageName(stage: Stage, i: number, say: Say, wordOf: (id: string) => string): string {
  if (stage.name) return say("heat.stage.named", { n: i + 1, name: stage.name });
  const medium = stage.medium && mediumNamed(stage.medium);
  return medium
    ? say("heat.stage.named", { n: i + 1, name: wordOf(medium.id) })
    : say("heat.stage", { n: i + 1 });
}
