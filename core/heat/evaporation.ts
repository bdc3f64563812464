import type { Evaporation } from "./surroundings.ts";
import { evaporationJPerKg, saturationPa } from "./water.ts";

/** A wet surface in air or fat, as a medium describes it. */
export type Drying = {
  /** "air": vapour is carried off by the air. "boil": water boils off at the boiling point, as in hot fat. */
  kind: "air" | "boil";
  /** Share of the coefficient that is convection and carries vapour; the rest is radiation. */
  convectiveShare: number;
  /** Share of the pressure around that is water vapour (0.01 a dry oven, 0.5 a humid one). */
  vapourShare: number;
  /** Water lost from a square metre at which the crust halves the evaporation, kg/m². */
  halvedAtKgPerM2: number;
};

/**
 * Evaporation from a wet surface. In air the flow of vapour goes with the convective coefficient after
 * Chilton and Colburn (Ind. Eng. Chem. 26, 1934): m = h / (c Le^(2/3)) × (w_surface - w_air), with w the humidity
 * ratio, c 1005 J/(kg K) and Le 0.87. It holds the surface near the wet-bulb temperature until a crust has dried,
 * and below boiling always; where the air is wetter than the surface, steam condenses and heats.
 * How the crust throttles it, 1 / (1 + lost / halvedAt), is our own estimate, no source.
 */
export function evaporation(
  drying: Drying,
  coefficient: number,
  pressurePa: number,
  boilingC: number,
): Evaporation {
  const wet = (dried: number) => 1 / (1 + dried / drying.halvedAtKgPerM2);
  const kgPerJ = 1 / evaporationJPerKg(Math.min(boilingC, 70));
  if (drying.kind === "boil") {
    const strength = 20 * coefficient;
    return {
      kgPerJ,
      flux: (t, dried) => strength * Math.max(0, t - boilingC) * wet(dried),
      slope: (t, dried) => (t > boilingC ? strength * wet(dried) : 0),
    };
  }
  const carry = (drying.convectiveShare * coefficient) / (1005 * 0.87 ** (2 / 3));
  const inAir = humidityRatio(drying.vapourShare * pressurePa, pressurePa);
  // Tabled at quarter degrees: the surface is asked for at every round of every line.
  const table = Float64Array.from({ length: 4 * hottestC + 1 }, (_, i) => {
    const t = i / 4;
    return carry * evaporationJPerKg(t) * (humidityRatio(saturationPa(t), pressurePa) - inAir);
  });
  const place = (t: number) => Math.max(0, Math.min(table.length - 1.001, 4 * t));
  // Beyond the table's ends the last piece goes on as a straight line upwards, and nothing changes below freezing.
  const plainFlux = (t: number) => {
    const i = Math.floor(place(t));
    const beyond = t < 0 ? 0 : 4 * t - i;
    return table[i]! + beyond * (table[i + 1]! - table[i]!);
  };
  return {
    kgPerJ,
    flux: (t, dried) => {
      const flux = plainFlux(t);
      return flux > 0 ? flux * wet(dried) : flux;
    },
    slope: (t, dried) => {
      if (t < 0) return 0;
      const i = Math.floor(place(t));
      const slope = Math.max(0, 4 * (table[i + 1]! - table[i]!));
      return table[i]! > 0 ? slope * wet(dried) : slope;
    },
  };
}

const hottestC = 130;

/** kg of vapour a kg of dry air; near and above boiling it goes on as a steep straight line. */
function humidityRatio(vapourPa: number, pressurePa: number): number {
  const share = vapourPa / pressurePa;
  const steepFrom = 0.95;
  if (share < steepFrom) return (0.622 * share) / (1 - share);
  const slope = 0.622 / (1 - steepFrom) ** 2;
  return (0.622 * steepFrom) / (1 - steepFrom) + slope * (share - steepFrom);
}
