import { refuse } from "./problem.ts";

/** Setting agents: usual shares by mass of the whole, and how they take up water. Common practice, no source. */
export const gels = {
  gelatin: { soft: 0.008, firm: 0.016, waterToSoften: 5, setsBelowC: 15, meltsAboveC: 30, needsHours: 4 },
  agar: { soft: 0.002, firm: 0.01, waterToSoften: 0, setsBelowC: 38, meltsAboveC: 85, needsHours: 0.5 },
} as const;

/** Gelatin in g for a mass of liquid in g at a share by mass of the whole. */
export function gelatinFor(liquidG: number, share: number): number {
  if (!(share > 0 && share < 0.3))
    refuse("/share", `${share} is not a share of gelatin`, "give 0.012 for 1.2 %");
  return (liquidG * share) / (1 - share);
}

/**
 * Gelatin of another bloom for the same firmness: mass × √(from / to). Stiffness goes about as bloom times the
 * square of the share (trade rule, from memory).
 */
export function gelatinOfBloom(massG: number, fromBloom: number, toBloom: number): number {
  if (!(fromBloom > 0 && toBloom > 0)) refuse("/bloom", "a bloom above 0", "give grams Bloom, such as 200");
  return massG * Math.sqrt(fromBloom / toBloom);
}

/** Cold water to soften dry gelatin, g: five times its mass unless said; it belongs to the liquid. */
export function softeningWater(gelatinG: number, ratio: number = gels.gelatin.waterToSoften): number {
  return gelatinG * ratio;
}

/** Mass of soaked or cooked grain, pulse or other dry food by its ratio of mass after to before, same unit. */
export function hydrated(dry: number, ratio: number): { wet: number; water: number } {
  if (!(ratio >= 1))
    refuse("/ratio", `${ratio} is less than the dry food itself`, "give the ratio of wet to dry mass");
  return { wet: dry * ratio, water: dry * (ratio - 1) };
}
