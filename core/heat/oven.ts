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
 * C dT/dt = P - N U A (T - T_load). Stepped forward by Heun's method, 5 s at a time.
 */
export function recovery(setC: number, oven: z.infer<typeof OvenSchema>, load: Load): Recovery {
  const capacity = oven.heatCapacityKJPerK * 1000;
  const power = oven.powerKW * 1000;
  const mass = load.massKg * oven.pieces * load.specificHeat;
  const area = load.areaM2 * oven.pieces;
  const drawn = (airC: number, loadC: number) => {
    const into = load.overall * area * (airC - loadC);
    return load.wet
      ? Math.max(into, load.coefficient * area * (airC - Math.max(loadC, wettestSurfaceC)))
      : into;
  };
  const slope = (airC: number, loadC: number) => {
    const draw = drawn(airC, loadC);
    const given = airC < setC ? power : Math.min(power, draw);
    return { air: (given - draw) / capacity, load: (load.overall * area * (airC - loadC)) / mass };
  };
  const airs = [setC - (oven.dropC ?? 0)];
  let airC = airs[0]!;
  let loadC = load.startC;
  let lowestC = airC;
  let backMinutes: number | undefined;
  for (let i = 0; i < (12 * 3600) / stepS; i++) {
    const a = slope(airC, loadC);
    const b = slope(airC + a.air * stepS, loadC + a.load * stepS);
    airC = Math.min(setC, airC + ((a.air + b.air) / 2) * stepS);
    loadC = Math.min(setC, loadC + ((a.load + b.load) / 2) * stepS);
    airs.push(airC);
    lowestC = Math.min(lowestC, airC);
    if (airC >= setC - 1 && backMinutes === undefined) backMinutes = ((i + 1) * stepS) / 60;
    if (airC < setC - 1) backMinutes = undefined;
    if (airC >= setC && drawn(setC, loadC) <= power) break;
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
