import { type Axis, centreWeights } from "./mesh.ts";
import type { Substance } from "./substance.ts";
import { heatAt, temperatureAt } from "./substance.ts";
import { linearFace, type Surroundings, surfaceTemperature } from "./surroundings.ts";

/** The two ends of an axis during a stage; `inner` is only there where the axis has a second surface. */
export type Faces = { outer: Surroundings; inner?: Surroundings };

/** What changes with time: heat content of each cell (J/m³), water lost from each kind of face (kg/m²), heat in. */
export type State = { heat: Float64Array; dried: Float64Array; heatIn: number };

/**
 * A piece cut into cells: a product of one, two or three axes, each cell of one substance.
 * Cell (i, j, k) stands at i + nx (j + ny k). A symmetric axis holds half the piece, so heat and volume are of
 * that half, quarter or eighth, and per radian of a cylinder and steradian of a sphere.
 */
export type Body = {
  axes: readonly Axis[];
  substances: readonly Substance[];
  /** Index of the substance of each cell. */
  substance: Uint8Array;
  cells: number;
  linear: boolean;
  volume: Float64Array;
};

/** Puts axes and layers together; a cell belongs to the outermost layer it lies in along any axis. */
export function bodyOf(axes: readonly Axis[], layers: readonly Substance[]): Body {
  const cells = axes.reduce((product, axis) => product * axis.n, 1);
  const body = {
    axes,
    substances: layers,
    substance: new Uint8Array(cells),
    cells,
    linear: layers.every((s) => s.constant),
    volume: new Float64Array(cells),
  };
  for (let cell = 0; cell < cells; cell++) {
    let rest = cell;
    let layer = layers.length - 1;
    let volume = 1;
    for (const axis of axes) {
      const i = rest % axis.n;
      rest = (rest - i) / axis.n;
      layer = Math.min(layer, axis.layer[i]!);
      volume *= axis.volume[i]!;
    }
    body.substance[cell] = layer;
    body.volume[cell] = volume;
  }
  return body;
}

/** A state with the whole piece at one temperature in °C. */
export function uniform(body: Body, celsius: number): State {
  const each = body.substances.map((s) => heatAt(s, celsius));
  return {
    heat: Float64Array.from(body.substance, (which) => each[which]!),
    dried: new Float64Array(2 * body.axes.length),
    heatIn: 0,
  };
}

/** Temperatures of all cells in °C. */
export function temperatures(body: Body, state: State, into: Float64Array): Float64Array {
  for (let cell = 0; cell < body.cells; cell++) {
    const s = body.substances[body.substance[cell]!]!;
    into[cell] = s.constant ? state.heat[cell]! / s.capacity[0]! : temperatureAt(s, state.heat[cell]!);
  }
  return into;
}

/** Mean over the volume in °C. */
export function meanOf(body: Body, celsius: Float64Array): number {
  let sum = 0;
  let volume = 0;
  for (let cell = 0; cell < body.cells; cell++) {
    sum += celsius[cell]! * body.volume[cell]!;
    volume += body.volume[cell]!;
  }
  return sum / volume;
}

export type Probe = { cell: number; weight: number }[];

/** Weights that read the geometric centre from the cells around it. */
export function centreProbe(body: Body): Probe {
  return probe(body, body.axes.map(centreWeights));
}

/**
 * Weights that read the outer cell in the middle of the face across the first axis: the side of a cylinder at
 * half height, the middle of the broadest face of a brick, the top of a slab.
 */
export function surfaceProbe(body: Body): Probe {
  return probe(
    body,
    body.axes.map((axis, which) => (which === 0 ? [{ cell: axis.n - 1, weight: 1 }] : centreWeights(axis))),
  );
}

function probe(body: Body, perAxis: Probe[]): Probe {
  let all: Probe = [{ cell: 0, weight: 1 }];
  let stride = 1;
  for (const [which, ends] of perAxis.entries()) {
    all = all.flatMap((a) =>
      ends.map((e) => ({ cell: a.cell + e.cell * stride, weight: a.weight * e.weight })),
    );
    stride *= body.axes[which]!.n;
  }
  return all;
}

export function read(probe: Probe, celsius: Float64Array): number {
  let sum = 0;
  for (const { cell, weight } of probe) sum += weight * celsius[cell]!;
  return sum;
}

/** Temperature in °C of the surface itself where `surfaceProbe` looks. */
export function surfaceOf(
  body: Body,
  where: Probe,
  celsius: Float64Array,
  faces: readonly Faces[],
  seconds: number,
  dried: number,
): number {
  const axis = body.axes[0]!;
  const last = axis.n - 1;
  const inside = read(where, celsius);
  const s = body.substances[body.substance[where[0]!.cell]!]!;
  const conductivity = conductivityAt(s, inside);
  const resistance = (axis.outer[last]! * axis.outerArea) / conductivity;
  return surfaceTemperature(
    linearFace(faces[0]!.outer, seconds, inside, resistance, dried),
    inside,
    resistance,
  );
}

/** Conductivity of a substance in W/(m K) at a temperature in °C. */
export function conductivityAt(s: Substance, celsius: number): number {
  if (s.constant) return s.conductivity[0]!;
  const place = Math.max(0, Math.min(s.celsius.length - 1, (heatAt(s, celsius) - s.firstH) / s.stepH));
  const i = Math.min(s.celsius.length - 2, Math.floor(place));
  return s.conductivity[i]! + (place - i) * (s.conductivity[i + 1]! - s.conductivity[i]!);
}

/** Temperatures along the first axis through the centre of the others: distance from the centre in mm, and °C. */
export function profileOf(body: Body, celsius: Float64Array): { mm: number[]; celsius: number[] } {
  const axis = body.axes[0]!;
  const lines = Array.from({ length: axis.n }, (_, cell) =>
    probe(
      body,
      body.axes.map((other, which) => (which === 0 ? [{ cell, weight: 1 }] : centreWeights(other))),
    ),
  );
  return { mm: Array.from(axis.centres, (r) => r * 1000), celsius: lines.map((line) => read(line, celsius)) };
}
