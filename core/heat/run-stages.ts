import { findRoot } from "../numerics/root.ts";
import { type Body, type Faces, uniform } from "./body.ts";
import { type Marched, march } from "./march.ts";
import { type Around, surroundingsOf } from "./media.ts";
import { type Recovery, recovery } from "./oven.ts";
import { cut, resized, sizeOf, substancesOf } from "./piece.ts";
import type { End, Ready, ReadyStage } from "./prepare.ts";
import { plain, refuse } from "./problem.ts";
import type { Spread } from "./schema.ts";
import { unreached, untilOf } from "./stage-end.ts";
import type { KillRate, Progress, Sample } from "./stepper.ts";
import type { Substance } from "./substance.ts";
import type { Surroundings } from "./surroundings.ts";

/** How far each toleranced input is moved, in its own tolerances: +1 is its slow end, -1 its quick end. */
export type Shift = { thickness: number; start: number; medium: number; coefficient: number };
export const noShift: Shift = { thickness: 0, start: 0, medium: 0, coefficient: 0 };

export type RunStage = {
  seconds: number;
  samples: Sample[];
  end: Sample;
  peakCoreC: number;
  /** Water lost from the outer face, kg/m². */
  driedKgPerM2: number;
  recovery?: Recovery;
  alreadyThere: boolean;
};
export type Run = {
  stages: RunStage[];
  body: Body;
  steps: number;
  /** Largest error of a step taken with a loosened tolerance, K; 0 when none was. */
  loosenedK: number;
};

export type Fineness = { cells: number; stepToleranceK: number };

const longestS = 30 * 24 * 3600;

/**
 * Takes a piece through its stages at one fineness, each stage from where the last one left it.
 * `fixedS` holds stages at given seconds instead of their own ends (undefined entries keep their end).
 * Throws Refused when a target is out of reach.
 */
export function runStages(
  ready: Ready,
  fineness: Fineness,
  spread: Spread = {},
  shift: Shift = noShift,
  fixedS: readonly (number | undefined)[] = [],
): Run {
  const whole = resized(ready.whole, (shift.thickness * (spread.thicknessMm ?? 0)) / 1000);
  const firstHeats = ready.stages[0]!.around.mediumC > ready.startC;
  const startC = ready.startC + shift.start * (spread.startC ?? 0) * (firstHeats ? -1 : 1);
  const substances = substancesOf(whole, startC);
  const body = cut(whole, substances, fineness.cells, ready.twoFaced);
  let progress: Progress = {
    state: uniform(body, startC),
    killed: new Float64Array(body.cells),
    killedAtCore: 0,
  };
  const stages: RunStage[] = [];
  let steps = 0;
  let loosenedK = 0;
  const bodyNow: Now = { ready, body, spread, shift, substances, rate: ready.judge.rate, fineness };
  for (let i = 0; i < ready.stages.length; i++) {
    const stage = ready.stages[i]!;
    const fixed = fixedS[i];
    const end: End = fixed === undefined ? stage.end : { by: "minutes", seconds: fixed };
    const done = oneStage(bodyNow, i, end, progress);
    progress = done.marched.progress;
    steps += done.marched.steps;
    loosenedK = Math.max(loosenedK, done.marched.loosenedK);
    const samples = done.marched.samples;
    const last = samples[samples.length - 1]!;
    stages.push({
      seconds: last.seconds,
      samples,
      end: last,
      peakCoreC: Math.max(...samples.map((s) => s.coreC)),
      driedKgPerM2: progress.state.dried[0]!,
      alreadyThere: last.seconds === 0,
      ...(done.recovery ? { recovery: done.recovery } : {}),
    });
  }
  return { stages, body, steps, loosenedK };
}

type Now = {
  ready: Ready;
  body: Body;
  spread: Spread;
  shift: Shift;
  substances: readonly Substance[];
  rate: KillRate;
  fineness: Fineness;
};
type Go = (
  limitS: number,
  until?: (s: Sample) => number,
  more?: { loose?: boolean; keep?: boolean },
) => Marched;
type Done = { marched: Marched; recovery?: Recovery };

function oneStage(now: Now, index: number, end: End, from: Progress): Done {
  const stage = now.ready.stages[index]!;
  const { faces, ambientC, recovered } = facesOf(now, stage, from);
  const go: Go = (limitS, until, more) =>
    march(now.body, from, faces, {
      limitS,
      killRate: now.rate,
      stepToleranceK: now.fineness.stepToleranceK,
      constantFromS: recovered?.constantFromS ?? 0,
      ...(until ? { until } : {}),
      ...more,
    });
  const withRecovery = (marched: Marched): Done =>
    recovered ? { marched, recovery: recovered } : { marched };
  if (end.by === "minutes") return withRecovery(go(end.seconds));
  if (end.by === "peak") return withRecovery(go(peakSeconds(now, index, end.celsius, go, ambientC)));
  const first = go(0).samples[0]!;
  const until = untilOf(end, stage, first, ambientC);
  const marched = go(longestS, until);
  if (!marched.reached) unreached(end, stage, marched.samples, ambientC, now.ready.judge);
  return withRecovery(marched);
}

/** Surroundings of each axis in a stage, shifted as asked, and the temperature the medium settles at. */
function facesOf(now: Now, stage: ReadyStage, from: Progress) {
  const { ready, body, shift, spread } = now;
  const meanHeat = from.state.heat.reduce((sum, h, i) => sum + h * body.volume[i]!, 0);
  const volume = body.volume.reduce((a, b) => a + b, 0);
  const roughC = meanTemperature(body, meanHeat / volume);
  const moved = (a: Around): Around => {
    const slower = a.mediumC > roughC ? -1 : 1;
    let mediumC = a.mediumC + shift.medium * (spread.mediumC ?? 0) * slower;
    if (a.medium?.watery) mediumC = Math.min(mediumC, Math.max(a.mediumC, ready.air.boilingC));
    const factor = 1 - shift.coefficient * (spread.coefficient ?? 0);
    return { ...a, mediumC, coefficient: a.coefficient * factor };
  };
  const main = moved(stage.around);
  const recovered = stage.oven ? recoveryOf(now, stage, main, roughC) : undefined;
  const outer = surroundingsOf(main, ready.air, recovered?.ambientC);
  const under: Surroundings | undefined =
    stage.underside === undefined
      ? undefined
      : stage.underside === "insulated"
        ? { coefficient: 0, ambientC: () => 0 }
        : surroundingsOf(moved(stage.underside), ready.air);
  const faces: Faces[] = body.axes.map((axis, which) =>
    axis.symmetric ? { outer } : { outer, inner: which === ready.whole.upright && under ? under : outer },
  );
  return { faces, ambientC: main.mediumC, recovered };
}

/** A temperature near the mean one, read off the substance of the core; only its side of the medium matters. */
function meanTemperature(body: Body, heat: number): number {
  const s = body.substances[body.substances.length - 1]!;
  if (s.constant) return heat / s.capacity[0]!;
  const place = Math.max(0, Math.min(s.celsius.length - 1, Math.round((heat - s.firstH) / s.stepH)));
  return s.celsius[place]!;
}

function recoveryOf(now: Now, stage: ReadyStage, main: Around, startC: number): Recovery {
  const size = sizeOf(now.ready.whole)!;
  const s = now.substances[now.substances.length - 1]!;
  const capacity = s.constant ? s.capacity[0]! : s.capacity[s.capacity.length >> 1]!;
  const half = now.ready.whole.halves[0]!;
  const inner = half / ((now.ready.whole.powers[0]! + 3) * s.conductivity[s.conductivity.length >> 1]!);
  return recovery(main.mediumC, stage.oven!, {
    massKg: size.volume * s.density,
    areaM2: size.area,
    specificHeat: capacity / s.density,
    overall: 1 / (1 / main.coefficient + inner),
    coefficient: main.coefficient,
    startC,
    wet: main.dries,
  });
}

/** Seconds of a stage after which the core, in the stages that follow, peaks at a temperature. */
function peakSeconds(now: Now, index: number, target: number, go: Go, ambientC: number): number {
  const stage = now.ready.stages[index]!;
  if (ambientC <= target)
    refuse(
      `${stage.path}/untilPeakCoreC`,
      `a peak of ${plain(target)} °C is out of reach in a medium of ${plain(ambientC)} °C`,
      `give a medium above ${plain(target)} °C, or a lower peak`,
    );
  const whole = go(longestS, (s) => s.coreC - target, { loose: true, keep: true });
  if (!whole.reached)
    unreached({ by: "peak", celsius: target }, stage, whole.samples, ambientC, now.ready.judge);
  const over = (progress: Progress) => peakAfter(now, index + 1, progress) - target;
  const { kept } = whole;
  const atOnce = over(kept[0]!.progress);
  if (atOnce >= 0) return 0;
  // First among the steps already made, by halving; then within the step, by doing it anew.
  let low = { i: 0, value: atOnce };
  let high = { i: kept.length - 1, value: over(kept[kept.length - 1]!.progress) };
  while (high.i - low.i > 1) {
    const i = (low.i + high.i) >> 1;
    const value = over(kept[i]!.progress);
    if (value >= 0) high = { i, value };
    else low = { i, value };
  }
  const from = kept[low.i]!.seconds;
  const to = kept[high.i]!.seconds;
  const tolerance = Math.max(0.01 * (to - from), 1e-4 * to);
  const known = { atLow: low.value, atHigh: high.value };
  return findRoot((seconds) => over(go(seconds).progress), from, to, tolerance, known).x;
}

/** Highest core in the stages from `index` on, followed until it falls. */
function peakAfter(now: Now, index: number, from: Progress): number {
  let peak = Number.NEGATIVE_INFINITY;
  let progress = from;
  for (let i = index; i < now.ready.stages.length; i++) {
    const stage = now.ready.stages[i]!;
    const { faces } = facesOf(now, stage, progress);
    const marched = march(now.body, progress, faces, {
      limitS: stage.end.by === "minutes" ? stage.end.seconds : 24 * 3600,
      killRate: () => 0,
      stepToleranceK: now.fineness.stepToleranceK,
      loose: true,
      until: (s) => {
        peak = Math.max(peak, s.coreC);
        return peak - 0.01 - s.coreC;
      },
    });
    if (marched.reached || stage.end.by !== "minutes") return peak;
    progress = marched.progress;
  }
  return peak;
}
