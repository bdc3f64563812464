import { findRoot } from "../numerics/root.ts";

/**
 * Pressure of saturated steam in Pa over water at a temperature in °C, 0 to 120.
 * A. L. Buck, J. Appl. Meteorol. 20 (1981) 1527, with the constants of 1996.
 */
export function saturationPa(celsius: number): number {
  return 611.21 * Math.exp((18.678 - celsius / 234.5) * (celsius / (257.14 + celsius)));
}

/** Pressure of the standard atmosphere in Pa at an altitude in m (ICAO 1993, below 11 km). */
export function pressurePa(altitudeM: number): number {
  return 101_325 * (1 - 2.25577e-5 * altitudeM) ** 5.25588;
}

/** Temperature in °C at which water boils at an altitude in m: where its steam has the pressure of the air. */
export function boilingAtAltitudeC(altitudeM: number): number {
  const pressure = pressurePa(altitudeM);
  return findRoot((t) => saturationPa(t) - pressure, 40, 120, 1e-6).x;
}

/** Heat of evaporation of water in J/kg, 0 to 120 °C: a line through steam tables, within 2.6 kJ/kg. */
export function evaporationJPerKg(celsius: number): number {
  return 1000 * (2501 - 2.42 * Math.max(0, Math.min(150, celsius)));
}
