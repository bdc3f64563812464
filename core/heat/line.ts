import { solveTridiagonal } from "../numerics/tridiagonal.ts";
import type { Faces } from "./body.ts";
import type { Axis } from "./mesh.ts";
import { heatAt, type Substance, temperatureAt } from "./substance.ts";
import { type LinearFace, linearFace, type Surroundings, surfaceTemperature } from "./surroundings.ts";

/** Arrays for one line of cells, reused from line to line. */
export type Bench = {
  heat: Float64Array;
  start: Float64Array;
  base: Float64Array;
  celsius: Float64Array;
  capacity: Float64Array;
  conductivity: Float64Array;
  conductance: Float64Array;
  lower: Float64Array;
  diagonal: Float64Array;
  upper: Float64Array;
  right: Float64Array;
  substance: Uint8Array;
  /** Heat in and water lost at the two ends over the last step, per unit of cross-section: J and J evaporated. */
  heatIn: number;
  evaporatedOuterJ: number;
  evaporatedInnerJ: number;
  /** Surface temperatures last found at the two ends; the next line's are near them. */
  outerSurfaceC: number;
  innerSurfaceC: number;
};

export function benchFor(n: number): Bench {
  const array = () => new Float64Array(n + 1);
  return {
    heat: array(),
    start: array(),
    base: array(),
    celsius: array(),
    capacity: array(),
    conductivity: array(),
    conductance: array(),
    lower: array(),
    diagonal: array(),
    upper: array(),
    right: array(),
    substance: new Uint8Array(n + 1),
    heatIn: 0,
    evaporatedOuterJ: 0,
    evaporatedInnerJ: 0,
    outerSurfaceC: 20,
    innerSurfaceC: 20,
  };
}

/** Alexander's two-stage SDIRK of order 2, L-stable and stiffly accurate (SIAM J. Numer. Anal. 14, 1977). */
const gamma = 1 - Math.SQRT1_2;

/**
 * Carries one line of cells (`bench.heat`, J/m³) through `seconds` of conduction along its axis between its two
 * faces. Finite volumes: what leaves one cell enters the next, exactly. Returns false when the equations of a
 * curved material did not settle; the caller then takes a shorter step.
 */
export function conductLine(
  b: Bench,
  axis: Axis,
  substances: readonly Substance[],
  linear: boolean,
  faces: Faces,
  from: number,
  seconds: number,
  dried: readonly [number, number],
): boolean {
  const n = axis.n;
  const step = gamma * seconds;
  b.heatIn = 0;
  b.evaporatedOuterJ = 0;
  b.evaporatedInnerJ = 0;
  for (let i = 0; i < n; i++) {
    b.start[i] = b.heat[i]!;
    b.base[i] = b.heat[i]!;
  }
  if (!implicit(b, axis, substances, linear, faces, from + step, step, dried, (1 - gamma) * seconds))
    return false;
  const back = (1 - gamma) / gamma;
  for (let i = 0; i < n; i++) b.base[i] = b.start[i]! + back * (b.heat[i]! - b.start[i]!);
  return implicit(b, axis, substances, linear, faces, from + seconds, step, dried, step);
}

/** Solves V (H - base) = step × inflow(T(H)) for H, starting from the H in the bench. */
function implicit(
  b: Bench,
  axis: Axis,
  substances: readonly Substance[],
  linear: boolean,
  faces: Faces,
  at: number,
  step: number,
  dried: readonly [number, number],
  weight: number,
): boolean {
  const { n, volume, inner, outer, outerArea, innerArea } = axis;
  const { heat, base, celsius, capacity, conductance, lower, diagonal, upper, right, conductivity } = b;
  const last = n - 1;
  // Constant properties and plain faces make the equations linear: one round solves them.
  const direct = linear && !faces.outer.evaporation && !faces.inner?.evaporation;
  let before = 0;
  for (let round = 0; round < 20; round++) {
    readCells(b, n, substances);
    for (let i = 0; i < last; i++)
      conductance[i] = step / (outer[i]! / conductivity[i]! + inner[i + 1]! / conductivity[i + 1]!);
    for (let i = 0; i < n; i++) {
      lower[i] = i > 0 ? -conductance[i - 1]! : 0;
      upper[i] = i < last ? -conductance[i]! : 0;
      diagonal[i] = volume[i]! * capacity[i]! - lower[i]! - upper[i]!;
      let inflow = volume[i]! * (base[i]! - heat[i]!);
      if (i > 0) inflow += conductance[i - 1]! * (celsius[i - 1]! - celsius[i]!);
      if (i < last) inflow += conductance[i]! * (celsius[i + 1]! - celsius[i]!);
      right[i] = inflow;
    }
    const outerR = (outer[last]! * outerArea) / conductivity[last]!;
    const out = linearFace(faces.outer, at, celsius[last]!, outerR, dried[0], b.outerSurfaceC);
    b.outerSurfaceC = out.surfaceC;
    const outG = out.coefficient > 0 ? (step * outerArea) / (outerR + 1 / out.coefficient) : 0;
    diagonal[last] = diagonal[last]! + outG;
    right[last] = right[last]! + outG * (out.ambientC - celsius[last]!);
    let innG = 0;
    let innC = 0;
    let innR = 0;
    let inn: LinearFace | undefined;
    if (faces.inner && !axis.symmetric) {
      innR = (inner[0]! * innerArea) / conductivity[0]!;
      inn = linearFace(faces.inner, at, celsius[0]!, innR, dried[1], b.innerSurfaceC);
      b.innerSurfaceC = inn.surfaceC;
      innG = inn.coefficient > 0 ? (step * innerArea) / (innR + 1 / inn.coefficient) : 0;
      innC = inn.ambientC;
      diagonal[0] = diagonal[0]! + innG;
      right[0] = right[0]! + innG * (innC - celsius[0]!);
    }
    solveTridiagonal(lower, diagonal, upper, right, n);
    let moved = 0;
    for (let i = 0; i < n; i++) {
      const rise = right[i]!;
      heat[i] =
        heat[i]! + (linear ? capacity[i]! * rise : heatRise(substances[b.substance[i]!]!, b, i, rise));
      if (rise > moved) moved = rise;
      else if (-rise > moved) moved = -rise;
    }
    if (!Number.isFinite(moved)) return false;
    // What the next round would move, if the rounds go on shrinking as they do.
    const toCome = round > 0 && moved < before ? (moved * moved) / before : moved;
    before = moved;
    if (!direct && moved > settledK && toCome > settledK) continue;
    // The linear flows of the last round are the ones the cells received, to the last digit.
    const outerC = celsius[last]! + right[last]!;
    const innerC = celsius[0]! + right[0]!;
    b.heatIn += (weight / step) * (outG * (out.ambientC - outerC) + innG * (innC - innerC));
    b.evaporatedOuterJ += weight * evaporated(faces.outer, out, outerC, outerR, dried[0]);
    if (inn && faces.inner)
      b.evaporatedInnerJ += weight * evaporated(faces.inner, inn, innerC, innR, dried[1]);
    return true;
  }
  return false;
}

/** The search ends when a round moves no cell by more than this, or the next one would not, K. */
const settledK = 2e-4;

/** W/m² that evaporation takes from a face, `linear` being what stands for it in this round. */
function evaporated(
  s: Surroundings,
  linear: LinearFace,
  insideC: number,
  resistance: number,
  dried: number,
): number {
  if (!s.evaporation) return 0;
  return Math.max(0, s.evaporation.flux(surfaceTemperature(linear, insideC, resistance), dried));
}

/**
 * Heat a cell takes up for a rise of temperature. Along its present slope, as Newton has it; but where that slope
 * leads far from the rise that was meant, into or out of a freezing plateau, the smaller of that step and the one
 * along the true curve: either alone can go to and fro across the knee for ever.
 */
function heatRise(s: Substance, b: Bench, i: number, rise: number): number {
  const along = b.capacity[i]! * rise;
  if (s.constant || (rise < 0.05 && rise > -0.05)) return along;
  const meant = b.celsius[i]! + rise;
  const comes = temperatureAt(s, b.heat[i]! + along);
  if (Math.abs(comes - meant) < 0.1 * Math.abs(rise)) return along;
  const curve = heatAt(s, meant) - b.heat[i]!;
  return Math.abs(curve) < Math.abs(along) ? curve : along;
}

/** Temperature, capacity and conductivity of each cell of the line from its heat content. */
function readCells(b: Bench, n: number, substances: readonly Substance[]): void {
  for (let i = 0; i < n; i++) {
    const s = substances[b.substance[i]!]!;
    const h = b.heat[i]!;
    if (s.constant) {
      const c = s.capacity[0]!;
      b.capacity[i] = c;
      b.celsius[i] = h / c;
      b.conductivity[i] = s.conductivity[0]!;
      continue;
    }
    const place = (h - s.firstH) / s.stepH;
    const end = s.capacity.length - 1;
    const j = place < 0 ? 0 : place > end ? end : Math.floor(place);
    const share = place - j;
    const low = s.celsius[j]!;
    b.celsius[i] = low + share * (s.celsius[j + 1]! - low);
    b.capacity[i] = s.capacity[j]!;
    const k = s.conductivity[j]!;
    const clamped = Math.max(0, Math.min(1, share));
    b.conductivity[i] = k + clamped * (s.conductivity[j + 1]! - k);
  }
}
