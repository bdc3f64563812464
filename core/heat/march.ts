import { findRoot } from "../numerics/root.ts";
import type { Body, Faces } from "./body.ts";
import { refuse } from "./problem.ts";
import {
  type KillRate,
  type Moment,
  type Progress,
  type Sample,
  type Stepper,
  stepperFor,
} from "./stepper.ts";

export type March = {
  /** Ends the stage where this rises through 0; absent, only `limitS` ends it. */
  until?: (sample: Sample) => number;
  limitS: number;
  killRate: KillRate;
  /** Largest error one step may make, K: at the centre, and as root mean square over the volume. */
  stepToleranceK: number;
  /** The medium keeps its temperature from this second on; then a piece at rest is simply held. */
  constantFromS?: number;
  /** Ends with the step in which `until` passes 0, without seeking the moment. */
  loose?: boolean;
  /** Also returns where the piece stood after each step. */
  keep?: boolean;
};

export type Marched = {
  samples: Sample[];
  reached: boolean;
  progress: Progress;
  steps: number;
  /** The tolerance was loosened to come to an end: the largest error a step made, K; else 0. */
  loosenedK: number;
  kept: { seconds: number; progress: Progress }[];
};

/**
 * Carries a piece through one stage with steps chosen by error: each step is done whole and in two halves, the
 * difference tells the error, and the two are combined to third order (Richardson). Returns samples at each
 * step, the end included, and the progress at the end. `reached` is false when `limitS` came first.
 */
export function march(body: Body, start: Progress, faces: readonly Faces[], how: March): Marched {
  const stepper = stepperFor(body, faces, how.killRate);
  let now: Moment = stepper.begin(start);
  const samples = [now.sample];
  const kept: Marched["kept"] = how.keep ? [{ seconds: 0, progress: start }] : [];
  let steps = 0;
  let loosenedK = 0;
  const first = firstStep(body);
  const ownS = ownTime(body, faces);
  const leastCapacity = Math.min(...body.substances.map((s) => Math.min(...s.capacity)));
  let next = first;
  const until = how.until;
  const done = (reached: boolean): Marched => ({
    samples,
    reached,
    progress: now.progress,
    steps,
    loosenedK,
    kept,
  });
  if (until && until(now.sample) >= 0) return done(true);
  while (now.sample.seconds < how.limitS) {
    const over = Math.max(0, (steps * body.cells - patience) / patience);
    const toleranceK = how.stepToleranceK * 2 ** (2 * over);
    const left = how.limitS - now.sample.seconds;
    // A last crumb of a step would only cost time.
    let seconds = next >= left * 0.999 ? left : Math.min(next, left / 2);
    let tried = stepper.step(now, seconds);
    // Not `>`: an error that is no number must be refused too.
    while (!tried || !(tried.errorK <= toleranceK)) {
      seconds *= tried ? Math.max(0.2, 0.9 * (toleranceK / tried.errorK) ** (1 / 3)) : 0.25;
      if (seconds < 1e-9 * first || steps * body.cells > mostWork)
        refuse(
          "/stages",
          "the computation does not settle: its steps become too many and too short",
          "look for extreme sizes, properties or coefficients, or a target too near the medium",
        );
      tried = stepper.step(now, seconds);
      steps++;
    }
    steps++;
    if (over > 0) loosenedK = Math.max(loosenedK, tried.errorK);
    const passed = until && until(tried.end.sample) >= 0;
    const before = now;
    now = passed && !how.loose ? endOf(stepper, before, seconds, tried.end, until) : tried.end;
    if (now === tried.end) samples.push(tried.middle);
    samples.push(now.sample);
    if (how.keep) kept.push({ seconds: now.sample.seconds, progress: now.progress });
    if (passed) return done(true);
    const growth = 0.9 * (toleranceK / Math.max(tried.errorK, 1e-9)) ** (1 / 3);
    next = seconds * Math.min(4, Math.max(0.3, growth));
    // Curves are read by straight lines between samples: keep them near enough for that.
    const rise = Math.abs(now.sample.coreC - before.sample.coreC);
    if (rise > 0) next = Math.min(next, (seconds * mostRiseK) / rise);
    if (now.sample.seconds >= (how.constantFromS ?? 0) && atRest(before, now, seconds)) {
      const hold = (s: number) => stepper.hold(now, s);
      const left = how.limitS - now.sample.seconds;
      if (until && until(hold(left).sample) < 0) return done(false);
      const value = (s: number) => until!(hold(s).sample);
      now = hold(until ? findRoot(value, 0, left, 0.01).x : left);
      samples.push(now.sample);
      return done(true);
    }
  }
  return done(until === undefined);

  /** What still moves would move by less than a hundredth of a degree, if it went on for the piece's own time. */
  function atRest(a: Moment, b: Moment, seconds: number): boolean {
    if (ownS === undefined) return false;
    let drift = 0;
    for (let i = 0; i < body.cells; i++)
      drift = Math.max(drift, Math.abs(b.progress.state.heat[i]! - a.progress.state.heat[i]!));
    return ((drift / leastCapacity) * 2 * ownS) / seconds < 0.01;
  }
}

/** Longest time in which a piece comes to rest in its surroundings, s; undefined where a drying face never lets it. */
function ownTime(body: Body, faces: readonly Faces[]): number | undefined {
  if (faces.some((f) => f.outer.evaporation || f.inner?.evaporation)) return undefined;
  const most = (of: (s: Body["substances"][number]) => number) => Math.max(...body.substances.map(of));
  const capacity = most((s) => s.capacity[s.capacity.length - 1]!);
  const resistance = most((s) => 1 / Math.min(...s.conductivity));
  const times = body.axes.map((axis, which) => {
    const half = axis.faces[axis.n]!;
    const h = Math.max(faces[which]!.outer.coefficient, faces[which]!.inner?.coefficient ?? 0);
    return capacity * half * (half * resistance + 1 / Math.max(h, 1e-6));
  });
  return Math.min(...times);
}

/**
 * Cells times steps that a stage is given at its tolerance. After that the tolerance doubles with each half of
 * it: the stage comes to an end, and says that it was loosened.
 */
const patience = 120_000;
const mostWork = 12 * patience;
/** The centre moves about this much from sample to sample at most, K. */
const mostRiseK = 4;

/** The moment within a step at which `until` passes 0, by doing shorter steps from its beginning. */
function endOf(
  stepper: Stepper,
  from: Moment,
  seconds: number,
  end: Moment,
  until: (s: Sample) => number,
): Moment {
  const before = until(from.sample);
  if (before >= 0) return from;
  let best = end;
  const at = findRoot(
    (s) => {
      if (s <= 0) return before;
      const there = stepper.step(from, s);
      if (!there) return until(end.sample);
      const value = until(there.end.sample);
      if (value >= 0 && there.end.sample.seconds < best.sample.seconds) best = there.end;
      return value;
    },
    0,
    seconds,
    Math.max(1e-9, 1e-6 * seconds),
    { atLow: before, atHigh: until(end.sample) },
  );
  const there = stepper.step(from, Math.max(at.x, 1e-9 * seconds));
  return there && until(there.end.sample) >= 0 ? there.end : best;
}

function firstStep(body: Body): number {
  let least = Number.POSITIVE_INFINITY;
  for (const axis of body.axes) {
    const width = axis.faces[axis.n]! - axis.faces[axis.n - 1]!;
    const s = body.substances[0]!;
    least = Math.min(least, (width * width * s.capacity[0]!) / s.conductivity[0]!);
  }
  return 0.2 * least;
}
