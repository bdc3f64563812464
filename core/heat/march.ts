import { findRoot } from "../numerics/root.ts";
import {
  type Body,
  centreProbe,
  type Faces,
  meanOf,
  read,
  type State,
  surfaceOf,
  surfaceProbe,
  temperatures,
} from "./body.ts";
import { type Conductor, conductor } from "./conduct.ts";
import { refuse } from "./problem.ts";

/** One moment of a piece: seconds since the stage began, temperatures in °C, log10 reduction since the start. */
export type Sample = {
  seconds: number;
  coreC: number;
  surfaceC: number;
  meanC: number;
  coldestC: number;
  hottestC: number;
  /** At the geometric centre, and at the point that has had least. */
  log10: number;
  worstLog10: number;
  /** Temperature of every cell. */
  celsius: Float64Array;
};

/** log10 reductions a second at a temperature in °C. */
export type KillRate = (celsius: number) => number;

/** A piece on its way: where its heat and its lethality stand. Later stages go on from it. */
export type Progress = { state: State; killed: Float64Array; killedAtCore: number };

export type March = {
  /** Ends the stage where this rises through 0; absent, only `limitS` ends it. */
  until?: (sample: Sample) => number;
  limitS: number;
  killRate: KillRate;
  /** Largest error one step may make, K: at the centre, and as root mean square over the volume. */
  stepToleranceK: number;
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
  const stepper = stepperFor(body, faces, how);
  let now = stepper.begin(start);
  const samples = [now.sample];
  const kept: Marched["kept"] = how.keep ? [{ seconds: 0, progress: start }] : [];
  let steps = 0;
  let loosenedK = 0;
  const first = firstStep(body);
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
      if (seconds < 1e-9 * first || steps > mostSteps)
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
  }
  return done(until === undefined);
}

/**
 * Cells times steps that a stage is given at its tolerance. After that the tolerance doubles with each half of
 * it: the stage comes to an end, and says that it was loosened.
 */
const patience = 120_000;
const mostSteps = 50_000;
/** The centre moves about this much from sample to sample at most, K. */
const mostRiseK = 4;

type Moment = { sample: Sample; progress: Progress; celsius: Float64Array; rates: Float64Array };
type Stepper = {
  begin: (progress: Progress) => Moment;
  step: (from: Moment, seconds: number) => { end: Moment; middle: Sample; errorK: number } | undefined;
};

function stepperFor(body: Body, faces: readonly Faces[], how: March): Stepper {
  const inside: Conductor = conductor(body);
  const core = centreProbe(body);
  const surface = surfaceProbe(body);
  const n = body.cells;
  const volume = body.volume.reduce((a, b) => a + b, 0);
  const middleC = new Float64Array(n);
  const wholeC = new Float64Array(n);
  const copy = (s: State): State => ({ heat: s.heat.slice(), dried: s.dried.slice(), heatIn: s.heatIn });

  function sampleOf(
    celsius: Float64Array,
    dried: number,
    seconds: number,
  ): Omit<Sample, "log10" | "worstLog10"> {
    let coldestC = Number.POSITIVE_INFINITY;
    let hottestC = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < n; i++) {
      coldestC = Math.min(coldestC, celsius[i]!);
      hottestC = Math.max(hottestC, celsius[i]!);
    }
    const surfaceC = surfaceOf(body, surface, celsius, faces, seconds, dried);
    return {
      seconds,
      coreC: read(core, celsius),
      surfaceC,
      meanC: meanOf(body, celsius),
      coldestC: Math.min(coldestC, surfaceC),
      hottestC: Math.max(hottestC, surfaceC),
      celsius,
    };
  }
  function momentOf(celsius: Float64Array, progress: Progress, seconds: number, rates: Float64Array): Moment {
    const worstLog10 = progress.killed.reduce((a, b) => Math.min(a, b), progress.killedAtCore);
    const at = sampleOf(celsius, progress.state.dried[0]!, seconds);
    return { sample: { ...at, log10: progress.killedAtCore, worstLog10 }, progress, celsius, rates };
  }
  const ratesOf = (celsius: Float64Array) => celsius.map((t) => how.killRate(t));

  return {
    begin(progress) {
      const celsius = temperatures(body, progress.state, new Float64Array(n));
      const begun = momentOf(celsius, progress, 0, ratesOf(celsius));
      // The medium has only just come: the surface still has the temperature of the cell beneath it.
      begun.sample.surfaceC = read(surface, celsius);
      return begun;
    },
    step(from, seconds) {
      const at = from.sample.seconds;
      const whole = copy(from.progress.state);
      const halves = copy(from.progress.state);
      if (!inside.advance(whole, faces, at, seconds)) return undefined;
      if (!inside.advance(halves, faces, at, seconds / 2)) return undefined;
      temperatures(body, halves, middleC);
      const middleCoreC = read(core, middleC);
      const middleRates = ratesOf(middleC);
      const middleDried = halves.dried[0]!;
      if (!inside.advance(halves, faces, at + seconds / 2, seconds / 2)) return undefined;
      const celsius = temperatures(body, halves, new Float64Array(n));
      temperatures(body, whole, wholeC);
      // Root mean square over the volume, and the centre for itself: a front of thawing that passes a cell is a
      // kink in time there and would rule the step for ever if the worst cell did.
      let squares = 0;
      for (let i = 0; i < n; i++) {
        squares += (celsius[i]! - wholeC[i]!) ** 2 * body.volume[i]!;
        halves.heat[i] = halves.heat[i]! + (halves.heat[i]! - whole.heat[i]!) / 3;
      }
      const atCoreK = Math.abs(read(core, celsius) - read(core, wholeC));
      const errorK = Math.max(Math.sqrt(squares / volume), atCoreK) / 3;
      halves.heatIn += (halves.heatIn - whole.heatIn) / 3;
      temperatures(body, halves, celsius);
      const rates = ratesOf(celsius);
      const killed = from.progress.killed.slice();
      for (let i = 0; i < n; i++) {
        const most = Math.max(from.rates[i]!, middleRates[i]!, rates[i]!);
        if (most * seconds < 1e-9) continue;
        const a = from.celsius[i]!;
        const b = celsius[i]!;
        killed[i]! +=
          Math.abs(b - a) < 0.3
            ? (seconds / 6) * (from.rates[i]! + 4 * middleRates[i]! + rates[i]!)
            : killedOver(how.killRate, a, middleC[i]!, b, seconds);
      }
      const coreC = read(core, celsius);
      const atCore =
        from.progress.killedAtCore + killedOver(how.killRate, from.sample.coreC, middleCoreC, coreC, seconds);
      const progress = { state: halves, killed, killedAtCore: atCore };
      const end = momentOf(celsius, progress, at + seconds, rates);
      const sample = end.sample;
      return { end, middle: middleOf(), errorK };

      /** Half-way, for curves: the worst point's lethality goes there in proportion to the centre's. */
      function middleOf(): Sample {
        const before = from.sample;
        const quarterC = (3 * before.coreC + 6 * middleCoreC - coreC) / 8;
        const half = killedOver(how.killRate, before.coreC, quarterC, middleCoreC, seconds / 2);
        const whole = sample.log10 - before.log10;
        const share = whole > 0 ? Math.min(1, half / whole) : 0.5;
        return {
          ...sampleOf(middleC.slice(), middleDried, at + seconds / 2),
          log10: before.log10 + share * whole,
          worstLog10: before.worstLog10 + share * (sample.worstLog10 - before.worstLog10),
        };
      }
    },
  };
}

/** log10 reductions over a step whose temperature runs through three values, by Simpson on a parabola. */
function killedOver(rate: KillRate, a: number, m: number, b: number, seconds: number): number {
  const pieces = Math.min(32, 2 * Math.ceil(1 + Math.abs(b - a)));
  let sum = 0;
  for (let i = 0; i <= pieces; i++) {
    const x = i / pieces;
    const celsius = a + x * (4 * m - 3 * a - b) + x * x * (2 * a + 2 * b - 4 * m);
    sum += rate(celsius) * (i === 0 || i === pieces ? 1 : i % 2 === 1 ? 4 : 2);
  }
  return (sum * seconds) / (3 * pieces);
}

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
