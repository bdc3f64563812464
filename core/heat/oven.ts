import type { z } from "zod";
import type { OvenSchema } from "./schema.ts";

export type Load = {
  /** kg and m² of one piece, J/(kg K), W/(m² K) from its mean to the air, °C at the start. */
  massKg: number;
  areaM2: number;
  specificHeat: number;
  overall: number;
  coefficient: number;
  startC: number;
  /** A wet surface stays cool and goes on drawing heat. */
  wet: boolean;
};

export type Recovery = {
  /** Air temperature in °C, seconds after loading. */
  ambientC: (seconds: number) => number;
  lowestC: number;
  /** From this second on the air keeps its temperature. */
  constantFromS: number;
  /** Minutes until the oven is back within 1 K of its setting; undefined when 12 hours do not suffice. */
  backMinutes: number | undefined;
};

const stepS = 5;
const wettestSurfaceC = 75;

/**
 * A loaded oven as two lumps: air and walls of one heat capacity, and the load. The burner gives its full power
 * below the setting and what the load draws at it; `powerKW` is what is left after the oven's own losses.
 * C dT/dt = P - N U A (T - T_load), stepped forward by implicit Euler, 5 s at a time: a light load follows the
 * air at once, and nothing overshoots.
 */
export function recovery(setC: number, oven: z.infer<typeof OvenSchema>, load: Load): Recovery {
  const capacity = oven.heatCapacityKJPerK * 1000;
  const power = oven.powerKW * 1000;
  const mass = load.massKg * oven.pieces * load.specificHeat;
  const area = load.areaM2 * oven.pieces;
  const into = load.overall * area;
  const follow = (stepS * into) / mass;
  /** Conductance and temperature of what the air gives its heat to; a wet surface may take more than the inside. */
  const sink = (airC: number, loadC: number) => {
    const surfaceC = Math.max(loadC, wettestSurfaceC);
    const wet = load.coefficient * area;
    return load.wet && wet * (airC - surfaceC) > into * (airC - loadC)
      ? { conductance: wet, celsius: surfaceC, load: false }
      : { conductance: into, celsius: loadC, load: true };
  };
  const airs = [setC - (oven.dropC ?? 0)];
  let airC = airs[0]!;
  let loadC = load.startC;
  let lowestC = airC;
  let backMinutes: number | undefined;
  for (let i = 0; i < (12 * 3600) / stepS; i++) {
    const to = sink(airC, loadC);
    // A load that warms within the step gives its resistance in series with its own heat capacity.
    const g = (stepS * to.conductance) / (to.load ? 1 + follow : 1);
    airC = Math.min(setC, (capacity * airC + stepS * power + g * to.celsius) / (capacity + g));
    loadC = Math.min(setC, (loadC + follow * airC) / (1 + follow));
    airs.push(airC);
    lowestC = Math.min(lowestC, airC);
    if (airC >= setC - 1 && backMinutes === undefined) backMinutes = ((i + 1) * stepS) / 60;
    if (airC < setC - 1) backMinutes = undefined;
    const next = sink(setC, loadC);
    if (airC >= setC && next.conductance * (setC - next.celsius) <= power) break;
  }
  return {
    lowestC,
    backMinutes,
    constantFromS: airs.length * stepS,
    ambientC: (seconds) => {
      const place = Math.max(0, seconds / stepS);
      const i = Math.floor(place);
      if (i >= airs.length - 1) return airs[airs.length - 1]!;
      return airs[i]! + (place - i) * (airs[i + 1]! - airs[i]!);
    },
  };
}
