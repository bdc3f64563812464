import { profileOf } from "./body.ts";
import { prepare, type Question, type Ready } from "./prepare.ts";
import { type Note, type Problem, plain, Refused, refuse } from "./problem.ts";
import { type Run, runStages } from "./run-stages.ts";
import type { HeatInput, Spread } from "./schema.ts";
import { type Band, bandOf } from "./spread.ts";
import { standingNotes } from "./standing-notes.ts";

export type StageResult = {
  minutes: number;
  /** At the end of the stage: geometric centre, middle of the side, mean over the volume, °C. */
  coreC: number;
  surfaceC: number;
  meanC: number;
  /** log10 reductions since the first stage began, at the centre and at the point that has had least. */
  log10: number;
  worstLog10: number;
  /** Highest core during the stage; coldest and hottest point at its end. */
  peakCoreC: number;
  coldestC: number;
  hottestC: number;
};
export type CurvePoint = {
  minute: number;
  coreC: number;
  surfaceC: number;
  meanC: number;
  log10: number;
  worstLog10: number;
};
/** Temperatures from the centre to the surface at a moment, for a cross-section. */
export type Profile = { minute: number; mm: readonly number[]; celsius: readonly number[] };

export type HeatResult = {
  stages: StageResult[];
  totalMinutes: number;
  curve: CurvePoint[];
  profiles: Profile[];
  /** By what lethality was counted. */
  judgedBy: string;
  boilingC: number;
  notes: Note[];
  /** Present when the input has a spread. */
  band?: Band;
  /** How far the figures may be from those of an infinitely fine mesh: half-mesh comparison. */
  error: { celsius: number; ofMinutes: number };
  cost: { cells: number; steps: number };
};
export type Refusal = { problems: readonly Problem[] };

/** Errors asked of the mesh: degrees at the end of any stage (one axis, several), and a share of any duration. */
const wantedC = 0.02;
const wantedOfSeveralC = 0.05;
const wantedOfMinutes = 0.002;

/**
 * What happens inside a piece of food through stages of heating and cooling: times, temperatures at centre,
 * surface and on the mean, log10 reductions, and what should be known about them.
 * @param input as the schema says: mm, °C, minutes, W/(m² K)
 * @returns the result, or the problems that keep it from being computed; never throws for what a person wrote
 */
export function heat(input: HeatInput): HeatResult | Refusal {
  return answer(() =>
    trial(
      {
        piece: input.shape,
        material: input.material,
        layers: input.layers,
        startC: input.startC,
        stages: input.stages,
        place: { altitudeM: input.altitudeM },
        organism: input.organism,
      },
      input.spread,
    ),
  );
}

/** Runs a computation of this room; what it refuses comes back as problems. */
export function answer<T>(compute: () => T): T | Refusal {
  try {
    return compute();
  } catch (thrown) {
    if (thrown instanceof Refused) return { problems: thrown.problems };
    throw thrown;
  }
}

/** The same as `heat` for other rooms' questions. Throws Refused. */
export function trial(question: Question, spread?: Spread): HeatResult {
  const ready = prepare(question);
  const halfMm = 1000 * ready.whole.halves[0]!;
  if ((spread?.thicknessMm ?? 0) >= halfMm)
    refuse(
      `${question.paths?.spread ?? "/spread"}/thicknessMm`,
      `a tolerance of ${spread?.thicknessMm} mm is half the piece or more`,
      `give less than half of ${plain(2 * halfMm, 2)} mm`,
    );
  const { run, error } = fineEnough(ready);
  const notes = [...ready.notes, ...standingNotes(ready, run)];
  if (error.celsius > 2 * wantedOfSeveralC)
    notes.push({
      code: "coarse",
      text: `Mesh and steps leave an error of about ${plain(error.celsius, 2)} °C.`,
    });
  const result: HeatResult = {
    stages: run.stages.map((stage) => ({
      minutes: stage.seconds / 60,
      coreC: stage.end.coreC,
      surfaceC: stage.end.surfaceC,
      meanC: stage.end.meanC,
      log10: stage.end.log10,
      worstLog10: stage.end.worstLog10,
      peakCoreC: stage.peakCoreC,
      coldestC: stage.end.coldestC,
      hottestC: stage.end.hottestC,
    })),
    totalMinutes: run.stages.reduce((sum, stage) => sum + stage.seconds, 0) / 60,
    curve: curveOf(run),
    profiles: profilesOf(run),
    judgedBy: ready.judge.what,
    boilingC: ready.air.boilingC,
    notes,
    error,
    cost: { cells: run.body.cells, steps: run.steps },
  };
  if (spread) result.band = bandOf(ready, spread, notes);
  return result;
}

/**
 * Refines the mesh until halving it changes nothing that matters. The change between one mesh and the next,
 * divided by 3 for a scheme of second order, is the error of the finer (Richardson).
 */
export function fineEnough(ready: Ready): { run: Run; error: HeatResult["error"] } {
  const axes = ready.whole.halves.length;
  const levels = [
    [12, 24, 48, 96],
    [8, 16, 32],
    [6, 12, 18],
  ][axes - 1]!;
  const enoughC = axes === 1 ? wantedC : wantedOfSeveralC;
  let coarse = runStages(ready, { cells: levels[0]!, stepToleranceK: 0.04 });
  let error = { celsius: Number.POSITIVE_INFINITY, ofMinutes: Number.POSITIVE_INFINITY };
  for (let i = 1; i < levels.length; i++) {
    const fine = runStages(ready, { cells: levels[i]!, stepToleranceK: 0.04 / 2 ** i });
    const ratio = (levels[i]! / levels[i - 1]!) ** 2 - 1;
    error = { celsius: 0, ofMinutes: 0 };
    for (const [s, stage] of fine.stages.entries()) {
      const before = coarse.stages[s]!;
      for (const key of ["coreC", "surfaceC", "meanC"] as const)
        error.celsius = Math.max(error.celsius, Math.abs(stage.end[key] - before.end[key]) / ratio);
      if (stage.seconds > 0)
        error.ofMinutes = Math.max(
          error.ofMinutes,
          Math.abs(stage.seconds - before.seconds) / stage.seconds / ratio,
        );
    }
    error.celsius = Math.max(error.celsius, fine.loosenedK);
    coarse = fine;
    // What had to be hurried along on this mesh would be more so on a finer one.
    if (fine.loosenedK > 0) break;
    if (error.celsius <= enoughC && error.ofMinutes <= wantedOfMinutes) break;
  }
  return { run: coarse, error };
}

/** The curve without the crowd of tiny first steps: ends of stages, and points that are some way from the last. */
function curveOf(run: Run): CurvePoint[] {
  const out: CurvePoint[] = [];
  let before = 0;
  for (const stage of run.stages) {
    let kept: CurvePoint | undefined;
    for (const [i, s] of stage.samples.entries()) {
      const { coreC, surfaceC, meanC, log10, worstLog10 } = s;
      const point = { minute: before + s.seconds / 60, coreC, surfaceC, meanC, log10, worstLog10 };
      const isEnd = i === 0 || i === stage.samples.length - 1;
      const later = kept && point.minute - kept.minute > stage.seconds / 60 / 150;
      const warmer = kept && Math.abs(surfaceC - kept.surfaceC) + Math.abs(coreC - kept.coreC) > 3;
      if (!isEnd && !later && !warmer) continue;
      out.push(point);
      kept = point;
    }
    before += stage.seconds / 60;
  }
  return out;
}

/** About 40 cross-sections over the whole time. */
function profilesOf(run: Run): Profile[] {
  const total = run.stages.reduce((sum, stage) => sum + stage.samples.length, 0);
  const keep = Math.max(1, Math.ceil(total / 40));
  const out: Profile[] = [];
  let before = 0;
  let count = 0;
  for (const stage of run.stages) {
    for (const [i, s] of stage.samples.entries()) {
      const isEnd = i === stage.samples.length - 1;
      if (count++ % keep !== 0 && !isEnd) continue;
      out.push({ minute: before + s.seconds / 60, ...profileOf(run.body, s.celsius) });
    }
    before += stage.seconds / 60;
  }
  return out;
}
