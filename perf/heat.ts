import { heat } from "../core/heat/heat.ts";
import { prepare } from "../core/heat/prepare.ts";
import { runStages } from "../core/heat/run-stages.ts";
import type { HeatInput, Material, Piece } from "../core/heat/schema.ts";
import { sampleSpread } from "../core/heat/spread-sample.ts";
import { Random } from "../core/numerics/random.ts";
import { type Solid, unaccomplished } from "../evidence/conduction-series.ts";

export type HeatRow = { name: string; value: number; unit: string; goal: number | undefined; ok: boolean };

const alpha = 1.4e-7;
const given: Material = { conductivity: 0.5, density: 1000, specificHeat: 0.5 / (alpha * 1000) };
const lean: Material = { composition: { water: 0.75, protein: 0.22, fat: 0.02, ash: 0.01 } };
const spread = { thicknessMm: 2, startC: 2, mediumC: 1, coefficient: 0.2 };

/** The engine's speed and error against its goals, on one core. Times are the best of several runs, warm:
 * what else the machine does only ever adds. */
export async function heatBench(): Promise<HeatRow[]> {
  return [...oneDimension(), ...errorAgainstCost(), ...severalDimensions(), ...spreads()];
}

function row(name: string, value: number, unit: string, goal?: number): HeatRow {
  return { name, value, unit, goal, ok: goal === undefined || value <= goal };
}

function oneDimension(): HeatRow[] {
  let worst = 0;
  const times: number[] = [];
  for (const kind of ["slab", "cylinder", "sphere"] as const)
    for (const biot of [0.1, 1, 10, 100])
      for (const fourier of [0.1, 0.3, 1]) {
        const input = trialOf(kind, biot, fourier);
        const { ms, result } = timed(() => heat(input), 9);
        if ("problems" in result) throw new Error("heat bench: refused");
        times.push(ms);
        worst = Math.max(worst, Math.abs(result.stages[0]!.coreC - exactC(kind, biot, fourier)));
      }
  return [
    row("1-D, 36 cases: worst error against the series", worst, "°C", 0.05),
    row("1-D, 36 cases: slowest", Math.max(...times), "ms", 5),
    row("1-D, 36 cases: median", median(times), "ms"),
  ];
}

/** Error of one mesh against its cost, worst of the three solids at Biot 10. */
function errorAgainstCost(): HeatRow[] {
  return [6, 12, 24, 48, 96].flatMap((cells) => {
    let worst = 0;
    let slowest = 0;
    for (const kind of ["slab", "cylinder", "sphere"] as const)
      for (const fourier of [0.1, 0.5]) {
        const { shape, material, startC, stages } = trialOf(kind, 10, fourier);
        const ready = prepare({ piece: shape, material, startC, stages, place: {} });
        const fineness = { cells, stepToleranceK: 0.5 / cells };
        const { ms, result } = timed(() => runStages(ready, fineness), 9);
        slowest = Math.max(slowest, ms);
        worst = Math.max(worst, Math.abs(result.stages[0]!.end.coreC - exactC(kind, 10, fourier)));
      }
    return [
      row(`error against cost, ${cells} cells: error`, worst, "°C"),
      row(`error against cost, ${cells} cells: time`, slowest, "ms"),
    ];
  });
}

function severalDimensions(): HeatRow[] {
  const cylinder: Piece = { kind: "finite-cylinder", diameterMm: 60, lengthMm: 100 };
  const brick: Piece = { kind: "brick", sidesMm: [60, 80, 120] };
  const bath = { mediumC: 80, coefficient: 100, untilCoreC: 60 };
  const roast: HeatInput["stages"] = [
    { medium: "fan-oven", mediumC: 160, untilCoreC: 58 },
    { medium: "still-air", minutes: 15 },
  ];
  const ms = (shape: Piece, material: Material, startC: number, stages: HeatInput["stages"]) =>
    timed(() => heat({ shape, material, startC, stages }), 5).ms;
  return [
    row("finite cylinder, given properties", ms(cylinder, given, 5, [bath]), "ms", 50),
    row("finite cylinder, composed", ms(cylinder, lean, 5, [bath]), "ms", 50),
    row("3-D brick, given properties", ms(brick, given, 5, [bath]), "ms", 500),
    row("3-D brick, composed", ms(brick, lean, 5, [bath]), "ms", 500),
    row("3-D brick, composed, roasted with drying and rested", ms(brick, lean, 5, roast), "ms", 500),
    row(
      "3-D brick, composed, thawed",
      ms(brick, lean, -18, [{ medium: "walk-in", untilCoreC: 1 }]),
      "ms",
      500,
    ),
  ];
}

function spreads(): HeatRow[] {
  const stages: HeatInput["stages"] = [{ medium: "water-bath", mediumC: 60, untilCoreC: 55 }];
  const seconds = (piece: Piece, material: Material, cases: number) => {
    const ready = prepare({ piece, material, startC: 5, stages, place: {} });
    const random = Random.of(1);
    sampleSpread(ready, spread, 20, () => random.next());
    return timed(() => sampleSpread(ready, spread, cases, () => random.next()), 3).ms / 1000;
  };
  const slab: Piece = { kind: "slab", thicknessMm: 25 };
  const cylinder: Piece = { kind: "finite-cylinder", diameterMm: 50, lengthMm: 120 };
  return [
    row("1000 cases, slab, given properties, one core", seconds(slab, given, 1000), "s", 2),
    row("1000 cases, slab, composed, one core", seconds(slab, lean, 1000), "s", 2),
    row("200 cases, finite cylinder, given properties, one core", seconds(cylinder, given, 200), "s", 5),
    row("200 cases, finite cylinder, composed, one core", seconds(cylinder, lean, 200), "s", 5),
  ];
}

const halfM = 0.02;

function trialOf(kind: Solid, biot: number, fourier: number): HeatInput {
  const shape: Piece =
    kind === "slab" ? { kind, thicknessMm: 2000 * halfM } : { kind, diameterMm: 2000 * halfM };
  const minutes = (fourier * halfM * halfM) / alpha / 60;
  return {
    shape,
    material: given,
    startC: 5,
    stages: [{ mediumC: 100, coefficient: (biot * 0.5) / halfM, minutes }],
  };
}

function exactC(kind: Solid, biot: number, fourier: number): number {
  return 100 - 95 * unaccomplished(kind, biot, fourier, 0);
}

function timed<T>(work: () => T, times: number): { ms: number; result: T } {
  const all: number[] = [];
  let result = work();
  for (let i = 0; i < times; i++) {
    const began = performance.now();
    result = work();
    all.push(performance.now() - began);
  }
  return { ms: Math.min(...all), result };
}

function median(list: readonly number[]): number {
  const sorted = [...list].sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? Number.NaN;
}
