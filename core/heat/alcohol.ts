import { refuse } from "./problem.ts";

/** How alcohol was treated, by the rows of the USDA table. */
export type AlcoholMethod =
  | "no-heat-overnight"
  | "stirred-into-hot"
  | "flamed"
  | "stirred-in-and-simmered"
  | "not-stirred-baked";

const simmered = [
  [0, 0.85],
  [15, 0.4],
  [30, 0.35],
  [60, 0.25],
  [90, 0.2],
  [120, 0.1],
  [150, 0.05],
] as const;

/**
 * Share of the ethanol added that is left, USDA Table of Nutrient Retention Factors, Release 6 (2007), codes 5001
 * to 5010. Simmering is read between its printed times and not beyond 150 minutes. The table knows nothing of
 * pan, lid and fire: the study behind it (Augustin et al. 1992) found 4 to 85 %; `low` and `high` are a third of
 * the way to nothing and to everything, our own estimate. "No alcohol" for a guest is judged by ingredient, never
 * by this.
 */
export function alcoholLeft(
  method: AlcoholMethod,
  minutes = 0,
): { share: number; low: number; high: number } {
  const share = shareOf(method, minutes);
  return { share, low: (share * 2) / 3, high: share + (1 - share) / 3 };
}

function shareOf(method: AlcoholMethod, minutes: number): number {
  switch (method) {
    case "no-heat-overnight":
      return 0.7;
    case "stirred-into-hot":
      return 0.85;
    case "flamed":
      return 0.75;
    case "not-stirred-baked":
      // One printed row, 25 minutes: shorter counts as nothing lost, longer as no more lost.
      return minutes >= 25 ? 0.45 : 1;
    case "stirred-in-and-simmered": {
      if (!(minutes >= 0)) refuse("/minutes", "minutes are 0 or more", "give the minutes simmered");
      for (let i = 1; i < simmered.length; i++) {
        const [t0, s0] = simmered[i - 1]!;
        const [t1, s1] = simmered[i]!;
        if (minutes <= t1) return s0 + ((minutes - t0) / (t1 - t0)) * (s1 - s0);
      }
      return 0.05;
    }
  }
}

/** Ethanol by mass in boiling liquid and in its vapour at 1 atm (handbook table, Perry; converted from moles). */
const vapour = [
  [0, 0],
  [0.0472, 0.3437],
  [0.1657, 0.6196],
  [0.2147, 0.6654],
  [0.2654, 0.6943],
  [0.3374, 0.726],
  [0.4381, 0.7535],
  [0.4743, 0.7635],
  [0.5544, 0.7811],
  [0.6269, 0.8014],
  [0.7252, 0.8301],
  [0.8423, 0.8784],
  [0.9558, 0.9558],
] as const;

/** Mass fraction of ethanol in the vapour over boiling liquid of a mass fraction. */
export function ethanolInVapour(liquid: number): number {
  const x = Math.min(Math.max(liquid, 0), 0.9558);
  for (let i = 1; i < vapour.length; i++) {
    const [x0, y0] = vapour[i - 1]!;
    const [x1, y1] = vapour[i]!;
    if (x <= x1) return y0 + ((x - x0) / (x1 - x0)) * (y1 - y0);
  }
  return x;
}

export type Boiled = { ethanolKg: number; massKg: number; fraction: number; share: number };

/**
 * Mass balance of a wine or spirit boiled down by itself: the vapour that leaves is at equilibrium with what is
 * left (Rayleigh), d(m w) = y(w) dm. `dryKg` is what never boils off (sugar, extract). Boiled to dry nothing is
 * left. Assumes an open, stirred pan at a full boil; simmering under a lid keeps more.
 */
export function boilDown(fromKg: number, fraction: number, toKg: number, dryKg = 0): Boiled {
  if (!(toKg <= fromKg)) refuse("/toKg", "a reduction ends with less than it starts", "give a smaller mass");
  if (!(fraction >= 0 && fraction <= 1))
    refuse("/fraction", `${fraction} is no mass fraction`, "give ethanol by mass from 0 to 1");
  const start = fromKg * fraction;
  let liquid = fromKg - dryKg;
  let ethanol = Math.min(start, liquid);
  const end = Math.max(0, toKg - dryKg);
  const pieces = 4000;
  // Even steps in the logarithm of the mass: the last drops matter as much as the first litre.
  const ratio = (Math.max(end, liquid * 1e-9) / liquid) ** (1 / pieces);
  for (let i = 0; i < pieces && liquid > 0; i++) {
    const lost = liquid * (1 - ratio);
    const first = ethanolInVapour(ethanol / liquid);
    const halfway = Math.max(0, ethanol - (first * lost) / 2) / (liquid - lost / 2);
    ethanol = Math.max(0, ethanol - ethanolInVapour(halfway) * lost);
    liquid -= lost;
  }
  if (end === 0) ethanol = 0;
  const massKg = end + Math.min(dryKg, toKg);
  return {
    ethanolKg: ethanol,
    massKg,
    fraction: massKg > 0 ? ethanol / massKg : 0,
    share: start > 0 ? ethanol / start : 0,
  };
}

/** Mass fraction of ethanol from percent by volume at 20 °C: ethanol 0.789 kg/L, the drink taken as given. */
export function ethanolByMass(percentByVolume: number, drinkKgPerL = 0.99): number {
  return ((percentByVolume / 100) * 0.789) / drinkKgPerL;
}
