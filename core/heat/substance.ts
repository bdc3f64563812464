import {
  type Fractions,
  mixtureConductivity,
  mixtureDensity,
  mixtureSpecificHeat,
  wholeFractions,
} from "./choi-okos.ts";
import { fusionAt, iceFraction, usualFreezingC, withIce } from "./freezing.ts";
import type { Material } from "./schema.ts";

/**
 * A material as the solver wants it: heat content H in J/m³ against temperature, and conductivity, both as
 * straight lines between nodes evenly spaced in H, so that the freezing plateau is as well resolved as the rest.
 * A material with constant properties has two nodes. `density` (kg/m³) is held at its value at the start: the
 * piece keeps the size it was given.
 */
export type Substance = {
  density: number;
  constant: boolean;
  /** Heat content of the first node and between nodes, J/m³. */
  firstH: number;
  stepH: number;
  celsius: Float64Array;
  conductivity: Float64Array;
  /** J/(m³ K) between node i and i + 1. */
  capacity: Float64Array;
};

/** Makes the substance of a material. `startC` sets at which temperature its density is taken. */
export function substanceOf(material: Material, startC: number): Substance {
  return "composition" in material ? composed(material, startC) : given(material);
}

/** Temperature in °C of a substance at a heat content in J/m³. */
export function temperatureAt(s: Substance, heat: number): number {
  const place = (heat - s.firstH) / s.stepH;
  const i = Math.max(0, Math.min(s.celsius.length - 2, Math.floor(place)));
  return s.celsius[i]! + (place - i) * (s.celsius[i + 1]! - s.celsius[i]!);
}

/** Heat content in J/m³ of a substance at a temperature in °C. */
export function heatAt(s: Substance, celsius: number): number {
  let low = 0;
  let high = s.celsius.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (s.celsius[middle]! <= celsius) low = middle;
    else high = middle;
  }
  const share = (celsius - s.celsius[low]!) / (s.celsius[low + 1]! - s.celsius[low]!);
  return s.firstH + (low + share) * s.stepH;
}

function given(m: Extract<Material, { conductivity: number }>): Substance {
  const capacity = m.density * m.specificHeat;
  return {
    density: m.density,
    constant: true,
    firstH: 0,
    stepH: 100 * capacity,
    celsius: Float64Array.of(0, 100),
    conductivity: Float64Array.of(m.conductivity, m.conductivity),
    capacity: Float64Array.of(capacity),
  };
}

const coldestC = -60;
const hottestC = 300;
const nodes = 1536;

type Composed = Extract<Material, { composition: object }>;
/** Table of a composed material for a mass of 1 kg/m³; the density of the piece only scales it. */
type Table = { x: Fractions; freezingC: number; perKg: Substance };
const tables = new WeakMap<Composed, Table>();

function composed(m: Composed, startC: number): Substance {
  const { x, freezingC, perKg } = tableOf(m);
  const solid = mixtureDensity(withIce(x, freezingC, startC), startC);
  const density = m.bulkDensity === undefined ? solid : Math.min(solid, m.bulkDensity);
  return {
    ...perKg,
    density,
    firstH: perKg.firstH * density,
    stepH: perKg.stepH * density,
    capacity: perKg.capacity.map((c) => c * density),
  };
}

/** Built once for a material: a spread of a thousand cases asks for the same one. */
function tableOf(m: Composed): Table {
  const known = tables.get(m);
  if (known) return known;
  const x = wholeFractions(m.composition);
  // A freezing point of exactly 0 would make the plateau flat and the temperature useless as a measure.
  const freezingC = Math.min(-0.02, m.freezingC ?? usualFreezingC);
  const solid = mixtureDensity(x, 20);
  const porosity = m.bulkDensity === undefined ? 0 : Math.max(0, 1 - m.bulkDensity / solid);
  const { celsius, enthalpy } = enthalpyCurve(x, freezingC);
  const firstH = enthalpy[0]!;
  const stepH = (enthalpy[enthalpy.length - 1]! - firstH) / (nodes - 1);
  const perKg = {
    density: 1,
    constant: false,
    firstH,
    stepH,
    celsius: new Float64Array(nodes),
    conductivity: new Float64Array(nodes),
    capacity: new Float64Array(nodes - 1),
  };
  let j = 0;
  for (let i = 0; i < nodes; i++) {
    const h = firstH + i * stepH;
    while (j < enthalpy.length - 2 && enthalpy[j + 1]! < h) j++;
    const share = (h - enthalpy[j]!) / (enthalpy[j + 1]! - enthalpy[j]!);
    const t = celsius[j]! + share * (celsius[j + 1]! - celsius[j]!);
    perKg.celsius[i] = t;
    perKg.conductivity[i] = withAir(mixtureConductivity(withIce(x, freezingC, t), t), porosity);
    if (i > 0) perKg.capacity[i - 1] = stepH / Math.max(1e-6, t - perKg.celsius[i - 1]!);
  }
  const table = { x, freezingC, perKg };
  tables.set(m, table);
  return table;
}

/** Specific enthalpy in J/kg over temperature, the heat of freezing in it; 0 at the freezing point. */
function enthalpyCurve(x: Fractions, freezingC: number): { celsius: number[]; enthalpy: number[] } {
  const celsius = [freezingC];
  const enthalpy = [0];
  for (let depth = 0.002; ; depth *= 1.04) {
    const t = Math.max(coldestC, freezingC - depth);
    const above = celsius[0]!;
    const middle = (t + above) / 2;
    const sensible = mixtureSpecificHeat(withIce(x, freezingC, middle), middle) * (above - t);
    const frozen = iceFraction(x, freezingC, t) - iceFraction(x, freezingC, above);
    celsius.unshift(t);
    enthalpy.unshift(enthalpy[0]! - sensible - frozen * fusionAt(middle));
    if (t === coldestC) break;
  }
  for (let t = freezingC; t < hottestC; ) {
    const next = Math.min(hottestC, Math.floor(t + 1));
    const last = enthalpy[enthalpy.length - 1]!;
    enthalpy.push(last + mixtureSpecificHeat(x, (t + next) / 2) * (next - t));
    celsius.push(next);
    t = next;
  }
  return { celsius, enthalpy };
}

/** Conductivity with bubbles of still air, 0.026 W/(m K): Maxwell-Eucken, the food continuous. */
function withAir(solid: number, porosity: number): number {
  const air = 0.026;
  const both = 2 * solid + air;
  return (solid * (both - 2 * porosity * (solid - air))) / (both + porosity * (solid - air));
}
