import { choiOkosRangeC } from "./choi-okos.ts";
import type { Ready } from "./prepare.ts";
import { type Note, plain } from "./problem.ts";
import type { Run } from "./run-stages.ts";
import { lowestCookingC } from "./stage-end.ts";

/** Time FSIS advises at most between 10 and 54.4 °C on the way up, minutes (FSIS-GD-2021-14). */
const comeUpMinutes = 360;

/** What should be known about a computed trial, whatever it is for. */
export function standingNotes(ready: Ready, run: Run): Note[] {
  const notes: Note[] = [];
  const say = (code: string, text: string) => notes.push({ code, text });
  const last = run.stages[run.stages.length - 1]!;
  const peakC = Math.max(...run.stages.map((s) => s.peakCoreC));
  const composed = ready.whole.layers.some((layer) => "composition" in layer.material);

  for (const [i, stage] of run.stages.entries()) {
    if (stage.alreadyThere)
      say("already-there", `Stage ${i + 1} ends at once: what it waits for is so at its beginning.`);
    const end = ready.stages[i]!.end;
    if (end.by === "doneness" && peakC > end.highC)
      say(
        "past-doneness",
        `The core peaks at ${plain(peakC)} °C, above the ${plain(end.highC)} °C asked for as the upper end.`,
      );
    if (stage.recovery)
      say(
        "oven-load",
        stage.recovery.backMinutes === undefined
          ? `The loaded oven falls to ${plain(stage.recovery.lowestC, 0)} °C and is not back in 12 hours: too much load for its power.`
          : `The loaded oven falls to ${plain(stage.recovery.lowestC, 0)} °C and is back after ${plain(stage.recovery.backMinutes, 0)} minutes.`,
      );
    if (stage.driedKgPerM2 > 0.01 && i === run.stages.length - 1)
      say(
        "water-lost",
        `About ${plain(stage.driedKgPerM2, 2)} kg of water leave each square metre of surface.`,
      );
    if (ready.stages[i]!.around.coefficient > 1e5)
      say("coefficient-beyond", "A coefficient above 100000 W/(m² K) is beyond any published medium.");
    if (ready.stages[i]!.around.coefficient < 2)
      say("coefficient-below", "A coefficient below 2 W/(m² K) is below still air: an insulated piece.");
  }
  if (ready.stages.some((stage) => stage.end.by === "log10") && peakC < lowestCookingC)
    say(
      "low-temperature",
      `The core stays below ${lowestCookingC} °C: no FSIS table counts a hold there, and spores may grow meanwhile.`,
    );
  if (last.end.meanC > last.end.coreC + 0.5 && last.end.coreC > 20)
    say(
      "carry-over",
      `The core is still rising: left alone it comes to ${plain(last.end.meanC)} °C at the very most.`,
    );
  if (composed && peakC > ready.air.boilingC + 0.1)
    say(
      "above-boiling",
      `Water boils at ${plain(ready.air.boilingC)} °C here: no wet core passes that, the figures above it are for a dry one.`,
    );
  const hottest = Math.max(...ready.stages.map((s) => s.around.mediumC), ready.startC);
  const coldest = Math.min(...ready.stages.map((s) => s.around.mediumC), ready.startC);
  if (composed && (coldest < choiOkosRangeC[0] || hottest > choiOkosRangeC[1]))
    say(
      "beyond-properties",
      "The properties are known from -40 to 150 °C; beyond, those of the nearer end are taken.",
    );
  const slow = minutesBetween(run, 10, 54.4);
  if (slow > comeUpMinutes && peakC > 54.4)
    say(
      "slow-come-up",
      `The core is ${plain(slow / 60)} hours between 10 and 54.4 °C on the way up; FSIS-GD-2021-14 advises 6 at most.`,
    );
  // Beyond 12 log10 nobody counts.
  if (last.end.worstLog10 < 12 && last.end.log10 - last.end.worstLog10 > 0.05)
    say(
      "worst-elsewhere",
      `The point that has had least is not the centre: ${plain(last.end.worstLog10, 2)} log10 there, ${plain(last.end.log10, 2)} at the centre.`,
    );
  say("counted-by", `Lethality is counted by ${ready.judge.what}. A calibrated thermometer decides.`);
  return notes;
}

/** Minutes the core spends between two temperatures before its highest point. */
function minutesBetween(run: Run, lowC: number, highC: number): number {
  let minutes = 0;
  const peak = Math.max(...run.stages.map((s) => s.peakCoreC));
  for (const stage of run.stages)
    for (let i = 1; i < stage.samples.length; i++) {
      const a = stage.samples[i - 1]!;
      const b = stage.samples[i]!;
      const middle = (a.coreC + b.coreC) / 2;
      if (middle >= lowC && middle < highC) minutes += (b.seconds - a.seconds) / 60;
      if (b.coreC >= peak) return minutes;
    }
  return minutes;
}
