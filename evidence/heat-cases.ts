import { type HeatResult, heat } from "../core/heat/heat.ts";
import type { HeatInput, Piece, Stage } from "../core/heat/schema.ts";

/** Short ways to put a textbook problem to the engine: sizes in metres, properties as books give them. */

/** A material of a conductivity and a diffusivity; density 1000, so that specific heat follows. */
export function material(k: number, alpha: number) {
  return { conductivity: k, density: 1000, specificHeat: k / (alpha * 1000) };
}

export function piece(solid: "slab" | "cylinder" | "sphere", halfM: number): Piece {
  const mm = 2000 * halfM;
  return solid === "slab" ? { kind: "slab", thicknessMm: mm } : { kind: solid, diameterMm: mm };
}

/** Runs the engine and returns its result; a refusal fails the test with what it says. */
export function run(
  shape: Piece,
  of: NonNullable<HeatInput["material"]>,
  startC: number,
  ...stages: Stage[]
): HeatResult {
  const result = heat({ shape, material: of, startC, stages });
  if ("problems" in result)
    throw new Error(result.problems.map((p) => `${p.path}: ${p.what}; ${p.mend}`).join("\n"));
  return result;
}

/** Seconds a single stage takes. */
export function secondsOf(result: HeatResult): number {
  return result.totalMinutes * 60;
}
