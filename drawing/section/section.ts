import type { Piece } from "../../core/heat/schema.ts";
import type { Ink } from "../ink.ts";
import { fitText } from "../text.ts";
import { type Drawn, draw, path } from "../tree.ts";

export interface Section {
  readonly piece: Piece;
  readonly title: string;
  /** Name of what the layers leave over. */
  readonly core: string;
  readonly writeMm: (mm: number) => string;
}

const WIDTH = 380;
const TEXT = 14;

/**
 * A piece cut through, to scale: a slab or brick as bands, round things as rings, layers from the outside in.
 * Names stand beside it in the same order.
 */
export function sectionDrawing({ piece, title, core, writeMm }: Section, ink: Ink): Drawn {
  const thickness = thicknessOf(piece);
  const layers = (piece.layers ?? []).map((layer, i) => ({
    name: layer.name ?? `${i + 1}`,
    mm: layer.thicknessMm,
  }));
  const round = piece.kind === "cylinder" || piece.kind === "finite-cylinder" || piece.kind === "sphere";
  const stacked = piece.kind === "slab" && piece.stacked === true;
  const sides = stacked ? 1 : 2;
  const rest = Math.max(0, thickness - sides * layers.reduce((sum, layer) => sum + layer.mm, 0));
  const rows = [...layers, ...(rest > 0 ? [{ name: core, mm: rest }] : [])];
  const scale = Math.min(120 / thickness, 6);
  const size = thickness * scale;
  const height = Math.max(size, rows.length * 22) + 28;
  const body = round
    ? rings(layers, thickness, scale, ink)
    : bands(stacked ? rows : [...rows, ...[...layers].reverse()], scale, ink);
  return draw(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      viewBox: `0 0 ${WIDTH} ${height}`,
      role: "img",
      "aria-label": title,
      "font-family": ink.font,
    },
    draw("g", { transform: "translate(4 12)" }, ...body),
    ...rows.map((row, i) =>
      draw(
        "text",
        { x: 150, y: 24 + i * 22, "font-size": TEXT, fill: ink.ink },
        fitText(`${row.name}, ${writeMm(row.mm)}`, TEXT, WIDTH - 154),
      ),
    ),
  );
}

/** The size across which layers are counted, mm. */
export function thicknessOf(piece: Piece): number {
  if (piece.kind === "slab") return piece.thicknessMm;
  if (piece.kind === "brick") return Math.min(...piece.sidesMm);
  return piece.diameterMm;
}

function bands(rows: readonly { mm: number }[], scale: number, ink: Ink): Drawn[] {
  let y = 0;
  return rows.map((row, i) => {
    const band = draw("rect", {
      x: 0,
      y,
      width: 132,
      height: row.mm * scale,
      fill: ink.tint(i % 2 === 0 ? 0.06 : 0.2),
      stroke: ink.ink,
      "stroke-width": 0.9,
    });
    y += row.mm * scale;
    return band;
  });
}

function rings(layers: readonly { mm: number }[], diameter: number, scale: number, ink: Ink): Drawn[] {
  const middle = (diameter * scale) / 2;
  let radius = middle;
  return [...layers.map((l) => l.mm), 0].map((mm, i) => {
    const ring = draw("path", {
      d: path(
        "M",
        middle - radius,
        middle,
        "A",
        radius,
        radius,
        0,
        1,
        1,
        middle + radius,
        middle,
        "A",
        radius,
        radius,
        0,
        1,
        1,
        middle - radius,
        middle,
        "Z",
      ),
      fill: ink.tint(i % 2 === 0 ? 0.06 : 0.2),
      stroke: ink.ink,
      "stroke-width": 0.9,
    });
    radius -= mm * scale;
    return ring;
  });
}
