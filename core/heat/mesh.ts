/**
 * The cells of one direction of a piece, from coordinate 0 to its outer end, in metres.
 * Power 0 is a plane direction, 1 the radius of a cylinder, 2 the radius of a sphere. Volumes are ∫ r^p dr and
 * resistances ∫ dr / r^p for unit conductivity, so lines through a product of directions need only their own.
 */
export type Axis = {
  n: number;
  power: 0 | 1 | 2;
  /** The end at 0 is a plane or line of symmetry; else it is a second surface. */
  symmetric: boolean;
  faces: Float64Array;
  centres: Float64Array;
  volume: Float64Array;
  /** From the centre of a cell to its inner and its outer face. */
  inner: Float64Array;
  outer: Float64Array;
  innerArea: number;
  outerArea: number;
  /** Layer of each cell: 0 is the outermost (or top), the last is the core (or bottom). */
  layer: Uint8Array;
};

/** A layer along an axis: its thickness in metres and its place in the list of substances. */
export type AxisLayer = { m: number; id: number };

/**
 * Divides a direction into about `cells` cells: a whole number for each layer, small near the surfaces, where
 * the temperature is steep. Layers run from the outer end inwards, to the centre on a symmetric axis.
 */
export function axisOf(
  layers: readonly AxisLayer[],
  power: 0 | 1 | 2,
  symmetric: boolean,
  cells: number,
): Axis {
  const length = layers.reduce((sum, layer) => sum + layer.m, 0);
  // Cells grow from the surface inwards: their size goes as (depth + length / 2), about 1 to 3 across.
  const offset = length / 2;
  const mark = symmetric
    ? (depth: number) => Math.log(1 + depth / offset)
    : (depth: number) =>
        depth < length / 2
          ? Math.log(1 + depth / offset)
          : 2 * Math.log(1 + length / 2 / offset) - Math.log(1 + (length - depth) / offset);
  const total = mark(length);
  const depths = [0];
  const layerOf: number[] = [];
  let start = 0;
  for (const [which, { m, id }] of layers.entries()) {
    const end = which === layers.length - 1 ? length : start + m;
    const least = m > length / 50 ? 3 : 1;
    const count = Math.max(least, Math.round((cells * (mark(end) - mark(start))) / total));
    for (let i = 1; i <= count; i++) {
      const wanted = mark(start) + (i / count) * (mark(end) - mark(start));
      depths.push(i === count ? end : depthAt(mark, wanted, start, end));
      layerOf.push(id);
    }
    start = end;
  }
  const n = layerOf.length;
  const faces = Float64Array.from(depths, (d) => length - d).reverse();
  faces[0] = 0;
  const axis: Axis = {
    n,
    power,
    symmetric,
    faces,
    centres: new Float64Array(n),
    volume: new Float64Array(n),
    inner: new Float64Array(n),
    outer: new Float64Array(n),
    innerArea: faces[0] ** power,
    outerArea: length ** power,
    layer: Uint8Array.from(layerOf).reverse(),
  };
  for (let i = 0; i < n; i++) {
    const a = faces[i]!;
    const b = faces[i + 1]!;
    axis.volume[i] = (b ** (power + 1) - a ** (power + 1)) / (power + 1);
    if (symmetric) {
      // A cell holds the mean of an even profile, T = t0 + t1 r²; seen so, flows are exact for that profile.
      const square = (b ** (power + 3) - a ** (power + 3)) / (power + 3) / axis.volume[i]!;
      axis.centres[i] = Math.sqrt(square);
      axis.inner[i] = a === 0 ? Number.POSITIVE_INFINITY : (square - a * a) / (2 * a ** (power + 1));
      axis.outer[i] = (b * b - square) / (2 * b ** (power + 1));
    } else {
      axis.centres[i] = (a + b) / 2;
      axis.inner[i] = (b - a) / 2;
      axis.outer[i] = (b - a) / 2;
    }
  }
  return axis;
}

function depthAt(mark: (d: number) => number, wanted: number, low: number, high: number): number {
  let a = low;
  let b = high;
  for (let i = 0; i < 60; i++) {
    const middle = (a + b) / 2;
    if (mark(middle) < wanted) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}

/**
 * Weights that give the value at the geometric centre from the cells next to it: an even parabola on a
 * symmetric axis, a parabola through the three nearest cells on a whole one. Falls back to the nearest cell
 * where those cells are not of one layer.
 */
export function centreWeights(axis: Axis): { cell: number; weight: number }[] {
  const { centres, layer, n, faces } = axis;
  if (axis.symmetric) {
    if (n < 2 || layer[0] !== layer[1]) return [{ cell: 0, weight: 1 }];
    const a = centres[0]! ** 2;
    const b = centres[1]! ** 2;
    return [
      { cell: 0, weight: b / (b - a) },
      { cell: 1, weight: -a / (b - a) },
    ];
  }
  const middle = faces[n]! / 2;
  let near = 0;
  for (let i = 1; i < n; i++)
    if (Math.abs(centres[i]! - middle) < Math.abs(centres[near]! - middle)) near = i;
  const three = [near - 1, near, near + 1];
  if (three.some((i) => i < 0 || i >= n || layer[i] !== layer[near])) return [{ cell: near, weight: 1 }];
  return three.map((i) => {
    let weight = 1;
    for (const j of three) if (j !== i) weight *= (middle - centres[j]!) / (centres[i]! - centres[j]!);
    return { cell: i, weight };
  });
}
