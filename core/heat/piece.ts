import { type Body, bodyOf } from "./body.ts";
import { type Axis, type AxisLayer, axisOf } from "./mesh.ts";
import { plain, refuse } from "./problem.ts";
import type { Layer, Material, Piece } from "./schema.ts";
import { type Substance, substanceOf } from "./substance.ts";

/** A piece read and found whole: sizes in metres, its layers from the outside in, the core last. */
export type Whole = {
  kind: Piece["kind"];
  /** Half thickness or radius of each direction; the first decides what `surfaceC` means. */
  halves: readonly number[];
  powers: readonly (0 | 1 | 2)[];
  /** Which direction is upright, for what lies underneath; undefined for a long cylinder and a sphere. */
  upright?: number;
  stacked: boolean;
  layers: readonly { m: number; material: Material }[];
};

/** The material of a layer, however it is written. */
export function materialOf(layer: Layer): Material {
  if ("material" in layer) return layer.material;
  if ("composition" in layer) {
    const { composition, freezingC, bulkDensity } = layer;
    return {
      composition,
      ...(freezingC === undefined ? {} : { freezingC }),
      ...(bulkDensity === undefined ? {} : { bulkDensity }),
    };
  }
  return { conductivity: layer.conductivity, density: layer.density, specificHeat: layer.specificHeat };
}

/**
 * Reads a piece. Refuses layers thicker than the piece and a core without a material; `layersPath` and
 * `materialPath` say where those stand in the caller's document.
 */
export function wholeOf(
  piece: Piece,
  material: Material | undefined,
  layers: readonly Layer[],
  layersPath: string,
  materialPath: string,
): Whole {
  const shape = shapeOf(piece);
  const room = shape.stacked ? 2 * shape.halves[0]! : Math.min(...shape.halves);
  const taken = layers.reduce((sum, layer) => sum + layer.thicknessMm, 0) / 1000;
  if (taken > room * (1 + 1e-9))
    refuse(
      layersPath,
      `the layers add to ${plain(taken * 1000, 2)} mm, more than the ${plain(room * 1000, 2)} mm ${shape.stacked ? "of the slab" : "from the surface to the centre"}`,
      "make the layers thinner or the piece bigger",
    );
  const left = room - taken;
  const list = layers.map((layer) => ({ m: layer.thicknessMm / 1000, material: materialOf(layer) }));
  if (left > room * 1e-6) {
    if (!material)
      refuse(
        materialPath,
        `nothing says what the inner ${plain(left * 1000, 2)} mm is made of`,
        "give material for the core, or layers that reach the centre",
      );
    list.push({ m: left, material });
  }
  return { ...shape, layers: list };
}

function shapeOf(piece: Piece): Omit<Whole, "layers"> {
  const half = (mm: number) => mm / 2000;
  const base = { kind: piece.kind, stacked: false };
  switch (piece.kind) {
    case "slab":
      return {
        ...base,
        halves: [half(piece.thicknessMm)],
        powers: [0],
        upright: 0,
        stacked: piece.stacked ?? false,
      };
    case "cylinder":
      return { ...base, halves: [half(piece.diameterMm)], powers: [1] };
    case "sphere":
      return { ...base, halves: [half(piece.diameterMm)], powers: [2] };
    case "finite-cylinder":
      return { ...base, halves: [half(piece.diameterMm), half(piece.lengthMm)], powers: [1, 0], upright: 1 };
    case "brick": {
      // The shortest side first, so that the surface read is the middle of the broadest face.
      const order = [0, 1, 2].sort((a, b) => piece.sidesMm[a]! - piece.sidesMm[b]!);
      const halves = order.map((i) => half(piece.sidesMm[i]!));
      return { ...base, halves, powers: [0, 0, 0], upright: order.indexOf(2) };
    }
  }
}

/** The substances of a piece's layers, densities taken at the temperature it starts at. */
export function substancesOf(whole: Whole, startC: number): Substance[] {
  return whole.layers.map((layer) => substanceOf(layer.material, startC));
}

/** Cuts a piece into cells, about `cells` from surface to centre; `twoFaced` when its underside differs. */
export function cut(whole: Whole, substances: readonly Substance[], cells: number, twoFaced: boolean): Body {
  const axes: Axis[] = whole.halves.map((half, which) => {
    const full = whole.stacked || (twoFaced && which === whole.upright);
    if (whole.stacked)
      return axisOf(
        whole.layers.map(({ m }, id) => ({ m, id })),
        0,
        false,
        2 * cells,
      );
    const inward: AxisLayer[] = whole.layers.map(({ m }, id) => ({ m, id }));
    const outer = inward.slice(0, -1).reduce((sum, layer) => sum + layer.m, 0);
    inward[inward.length - 1]!.m = half - outer;
    if (!full) return axisOf(inward, whole.powers[which]!, true, cells);
    const core = inward[inward.length - 1]!;
    const around = inward.slice(0, -1);
    return axisOf([...around, { ...core, m: 2 * core.m }, ...[...around].reverse()], 0, false, 2 * cells);
  });
  return bodyOf(axes, substances);
}

/** Volume in m³ and surface in m² of a piece; undefined for slabs and long cylinders, which have no ends. */
export function sizeOf(whole: Whole): { volume: number; area: number } | undefined {
  const [a = 0, b = 0, c = 0] = whole.halves;
  switch (whole.kind) {
    case "sphere":
      return { volume: (4 / 3) * Math.PI * a ** 3, area: 4 * Math.PI * a * a };
    case "finite-cylinder":
      return { volume: Math.PI * a * a * 2 * b, area: 2 * Math.PI * a * (a + 2 * b) };
    case "brick":
      return { volume: 8 * a * b * c, area: 8 * (a * b + b * c + a * c) };
    default:
      return undefined;
  }
}

/** The same piece with its thickness or diameter (the shortest side of a brick) changed, layers in proportion. */
export function resized(whole: Whole, byM: number): Whole {
  const factor = (whole.halves[0]! + byM / 2) / whole.halves[0]!;
  return {
    ...whole,
    halves: whole.halves.map((half, i) => (i === 0 ? half * factor : half)),
    layers: whole.layers.map((layer) => ({ ...layer, m: layer.m * factor })),
  };
}
