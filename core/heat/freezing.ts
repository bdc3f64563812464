import { type Fractions, partSpecificHeat } from "./choi-okos.ts";

/** Heat of fusion of ice at 0 °C, J/kg (ASHRAE Handbook Refrigeration 2006, ch. 9, equation 2: 333.6 kJ/kg). */
export const fusionJPerKg = 333_600;

/** Initial freezing point taken where none is given, °C: meat, fish and most produce lie from -0.6 to -2.2
 * (ASHRAE Handbook Refrigeration 2006, ch. 9, table 3). */
export const usualFreezingC = -1;

/**
 * Share of the whole mass that is ice at a temperature: (water - bound) (1 - freezing / T) below the initial
 * freezing point, where bound water is 0.4 kg a kg of protein.
 * ASHRAE Handbook Refrigeration 2006, ch. 9, equations 3 and 5 (after Schwartzberg 1976 and Miles 1974).
 */
export function iceFraction(x: Fractions, freezingC: number, celsius: number): number {
  if (celsius >= freezingC) return 0;
  const free = Math.max(0, x.water - 0.4 * x.protein);
  return free * (1 - freezingC / celsius);
}

/** The fractions with their ice at a temperature, the water reduced by as much. */
export function withIce(x: Fractions, freezingC: number, celsius: number): Fractions {
  const ice = iceFraction(x, freezingC, celsius);
  return { ...x, water: x.water - ice, ice };
}

/** Heat of fusion at a temperature below 0 °C, J/kg: it falls by the difference of the specific heats. */
export function fusionAt(celsius: number): number {
  const t = Math.min(0, Math.max(-40, celsius));
  const middle = t / 2;
  return fusionJPerKg + t * (partSpecificHeat("water", middle) - partSpecificHeat("ice", middle));
}
