import { refuse } from "./problem.ts";
import { evaporationJPerKg } from "./water.ts";

/**
 * Boiling off water: at the boil all heat that reaches the liquid evaporates water, dm/dt = η P / L(T), so time
 * goes with mass. An open pan that is warm but not boiling loses water by its surface instead (`surfaceLoss`).
 */
export type Reduction = {
  fromKg: number;
  toKg: number;
  /** Power of the burner, and the share of it that reaches the liquid (`burnerEfficiency`). */
  powerKW: number;
  efficiency: number;
  /** Where the liquid boils and where it starts, °C; it is first brought to the boil. */
  boilingC: number;
  startC?: number;
  /** J/(kg K) of the liquid; water if not said. */
  specificHeat?: number;
};
export type Reduced = { minutes: number; heatUpMinutes: number; waterKg: number; waterKgPerMinute: number };

/**
 * Minutes to reduce a liquid from one mass to another on the fire, heating up included.
 * Refuses a reduction that would add mass and a fire that gives nothing.
 */
export function reductionTime(r: Reduction, path = ""): Reduced {
  if (r.toKg > r.fromKg)
    refuse(
      `${path}/toKg`,
      `${r.toKg} kg is more than the ${r.fromKg} kg it starts with`,
      "a reduction ends with less",
    );
  const watts = r.powerKW * 1000 * r.efficiency;
  if (!(watts > 0)) refuse(`${path}/powerKW`, "no heat reaches the liquid", "give a power and an efficiency");
  const waterKg = r.fromKg - r.toKg;
  const warm = Math.max(0, r.boilingC - (r.startC ?? r.boilingC)) * r.fromKg * (r.specificHeat ?? 4180);
  const rate = watts / evaporationJPerKg(r.boilingC);
  const heatUpMinutes = warm / watts / 60;
  return {
    heatUpMinutes,
    waterKg,
    waterKgPerMinute: rate * 60,
    minutes: heatUpMinutes + waterKg / rate / 60,
  };
}

/** Mass left in kg after so many minutes on the fire; never less than nothing. */
export function massAfter(r: Omit<Reduction, "toKg">, minutes: number): number {
  const { heatUpMinutes, waterKgPerMinute } = reductionTime({ ...r, toKg: 0 });
  return Math.max(0, r.fromKg - Math.max(0, minutes - heatUpMinutes) * waterKgPerMinute);
}

/**
 * Share of a burner's power that reaches the pan. Quoted as commonly stated by an EPRI paper (ACEEE Summer Study
 * 2014); it depends on pan and size, and measured values differ: change it where yours is known.
 */
export const burnerEfficiency = {
  gas: { usual: 0.4, range: [0.3, 0.5] },
  electric: { usual: 0.74, range: [0.65, 0.8] },
  induction: { usual: 0.85, range: [0.8, 0.9] },
} as const;

/**
 * Water lost in kg an hour from an open surface of warm liquid to still kitchen air: Chilton-Colburn with a
 * coefficient of 8 W/(m² K). An estimate, ± 50 %: a draught or a lid changes it more than that.
 */
export function surfaceLossKgPerHour(
  areaM2: number,
  surfacePa: number,
  airPa: number,
  pressurePa: number,
): number {
  const ratio = (p: number) => (0.622 * p) / (pressurePa - Math.min(p, 0.95 * pressurePa));
  return ((3600 * 8) / (1005 * 0.87 ** (2 / 3))) * areaM2 * Math.max(0, ratio(surfacePa) - ratio(airPa));
}
