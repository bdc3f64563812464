import { refuse } from "./problem.ts";

/** Salt for a dry cure at equilibrium: all of it goes in, so it is weighed as a share of the piece. kg. */
export function saltForEquilibrium(pieceKg: number, share: number): number {
  shareOf(share);
  return pieceKg * share;
}

/**
 * Salt to dissolve in a brine so that brine and piece come to one salt share of their water-phase at the end:
 * share × (piece + water) / (1 - share), the piece taken as salt-free and as wet as the brine. kg.
 */
export function saltForBrine(pieceKg: number, waterKg: number, share: number): number {
  shareOf(share);
  return (share * (pieceKg + waterKg)) / (1 - share);
}

/** Share of salt everywhere once so much salt has spread through piece and water. */
export function equilibriumShare(saltKg: number, pieceKg: number, waterKg = 0): number {
  return saltKg / (saltKg + pieceKg + waterKg);
}

/**
 * Diffusivity of salt in muscle at refrigerator temperature, m²/s: low, usual, high. From memory of published
 * values for pork, beef and fish at 2 to 10 °C, 1e-10 to 5e-10.
 */
export const saltDiffusivity = { low: 1e-10, usual: 2.5e-10, high: 5e-10 } as const;

export type Salting = { low: number; mid: number; high: number };

/**
 * Hours until the centre of a piece has a share of the salt of its surface: diffusion with the surface held,
 * by the one-term solutions for slab, cylinder and sphere (Fo above 0.2; below, the share is not reached). An
 * estimate with a wide spread, low to high: skin, fat and grain matter more than anything computed here.
 */
export function saltingHours(
  kind: "slab" | "cylinder" | "sphere",
  thicknessMm: number,
  share = 0.9,
): Salting {
  if (!(share > 0.2 && share < 1)) refuse("/share", "a share between 0.2 and 1", "give 0.9 for nine tenths");
  if (!(thicknessMm > 0)) refuse("/thicknessMm", "a thickness above 0 mm", "give the thickness in mm");
  const { lambda, a } = oneTerm[kind];
  const fourier = Math.log(a / (1 - share)) / lambda ** 2;
  const radius = thicknessMm / 2000;
  const hours = (d: number) => (fourier * radius * radius) / d / 3600;
  return {
    low: hours(saltDiffusivity.high),
    mid: hours(saltDiffusivity.usual),
    high: hours(saltDiffusivity.low),
  };
}

/** First eigenvalue and coefficient at infinite Biot number. */
const oneTerm = {
  slab: { lambda: Math.PI / 2, a: 4 / Math.PI },
  cylinder: { lambda: 2.404825557695773, a: 1.6019746969 },
  sphere: { lambda: Math.PI, a: 2 },
} as const;

function shareOf(share: number): void {
  if (!(share > 0 && share < 0.36))
    refuse("/share", `${share} is not a share of salt`, "give 0.02 for 2 %; brine holds 0.26 at most");
}
