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

/** A sample with all that the next step needs. */
export type Moment = { sample: Sample; progress: Progress; celsius: Float64Array; rates: Float64Array };
export type Stepper = {
  begin: (progress: Progress) => Moment;
  step: (from: Moment, seconds: number) => { end: Moment; middle: Sample; errorK: number } | undefined;
  /** A piece at rest, so many seconds later: only its lethality has grown. */
  hold: (from: Moment, seconds: number) => Moment;
};

/** Steps a body through one stage, counting lethality by `killRate` at every cell and at the centre. */
export function stepperFor(body: Body, faces: readonly Faces[], killRate: KillRate): Stepper {
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
  const ratesOf = (celsius: Float64Array) => celsius.map((t) => killRate(t));

  return {
    begin(progress) {
      const celsius = temperatures(body, progress.state, new Float64Array(n));
      const begun = momentOf(celsius, progress, 0, ratesOf(celsius));
      // The medium has only just come: the surface still has the temperature of the cell beneath it.
      begun.sample.surfaceC = read(surface, celsius);
      return begun;
    },
    hold(from, seconds) {
      const killed = from.progress.killed.map((k, i) => k + seconds * from.rates[i]!);
      const killedAtCore = from.progress.killedAtCore + seconds * killRate(from.sample.coreC);
      const progress = { ...from.progress, killed, killedAtCore };
      return momentOf(from.celsius, progress, from.sample.seconds + seconds, from.rates);
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
            : killedOver(killRate, a, middleC[i]!, b, seconds);
      }
      const coreC = read(core, celsius);
      const atCore =
        from.progress.killedAtCore + killedOver(killRate, from.sample.coreC, middleCoreC, coreC, seconds);
      const progress = { state: halves, killed, killedAtCore: atCore };
      const end = momentOf(celsius, progress, at + seconds, rates);
      const sample = end.sample;
      return { end, middle: middleOf(), errorK };

      /** Half-way, for curves: the worst point's lethality goes there in proportion to the centre's. */
      function middleOf(): Sample {
        const before = from.sample;
        const quarterC = (3 * before.coreC + 6 * middleCoreC - coreC) / 8;
        const half = killedOver(killRate, before.coreC, quarterC, middleCoreC, seconds / 2);
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
