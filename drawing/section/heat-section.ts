import { scaleLinear } from "d3-scale";
import type { Piece } from "../../core/heat/schema.ts";
import type { Ink } from "../ink.ts";
import { textWidth } from "../text.ts";
import { type Drawn, draw, path } from "../tree.ts";
import { heatColour, inkOnHeat } from "./heat-scale.ts";
import { thicknessOf } from "./section.ts";

export interface HeatSection {
  readonly piece: Piece;
  /** Distance of the cells from the centre (of a piece heated unevenly: from its underside), mm, and their °C. */
  readonly mm: readonly number[];
  readonly celsius: readonly number[];
  /** Ends of the colour scale, °C. */
  readonly from: number;
  readonly to: number;
  /** The same for two pieces that are compared. */
  readonly pxPerMm: number;
  readonly title: string;
  readonly writeC: (celsius: number) => string;
  readonly writeMm: (mm: number) => string;
}

const WIDTH = 420;
const TEXT = 14;
const TOP = 12;
const PIECE = 250;

/** A piece cut through at a moment, to scale: its temperatures in colour and in figures, the scale beside it. */
export function heatSectionDrawing(section: HeatSection, ink: Ink): Drawn {
  const { piece, pxPerMm, from, to } = section;
  const thickness = thicknessOf(piece);
  const size = thickness * pxPerMm;
  const share = (celsius: number) => (celsius - from) / Math.max(1e-9, to - from);
  const round = piece.kind === "cylinder" || piece.kind === "finite-cylinder" || piece.kind === "sphere";
  const whole = (section.mm.at(-1) ?? 0) > thickness / 2;
  const across = round ? size : widthOf(piece, pxPerMm);
  const height = Math.max(size + TOP + 34, 170);
  const shape = { x: (PIECE - across) / 2, y: TOP, size, across, round, whole };
  return draw(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      viewBox: `0 0 ${WIDTH} ${height}`,
      role: "img",
      "aria-label": section.title,
      "font-family": ink.font,
    },
    ...cells(section, shape, share),
    ...edges(section, shape, ink),
    ...figures(section, shape, share),
    draw(
      "text",
      { x: PIECE / 2, y: TOP + size + 22, "text-anchor": "middle", "font-size": TEXT, fill: ink.quiet },
      section.writeMm(thickness),
    ),
    ...scale(section, height, ink),
  );
}

interface Shape {
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly across: number;
  readonly round: boolean;
  readonly whole: boolean;
}

/** How wide a flat piece is drawn: a brick's middle side, a slab as wide as there is room. */
function widthOf(piece: Piece, pxPerMm: number): number {
  if (piece.kind !== "brick") return PIECE;
  const middle = [...piece.sidesMm].sort((a, b) => a - b)[1]!;
  return Math.min(PIECE, middle * pxPerMm);
}

/** Cells from the outermost in, each laid over the last, so that no seam shows between them. */
function cells({ mm, celsius, pxPerMm }: HeatSection, shape: Shape, share: (c: number) => number): Drawn[] {
  const { x, y, size, across, round, whole } = shape;
  const middle = size / 2;
  const edge = (i: number) => (i >= mm.length - 1 ? undefined : ((mm[i]! + mm[i + 1]!) / 2) * pxPerMm);
  return celsius
    .map((each, i) => {
      const fill = heatColour(share(each));
      const outer = edge(i) ?? (whole ? size : middle);
      if (round) return draw("circle", { cx: x + middle, cy: y + middle, r: outer, fill });
      if (whole) return draw("rect", { x, y: y + size - outer, width: across, height: outer, fill });
      return draw("rect", { x, y: y + middle - outer, width: across, height: 2 * outer, fill });
    })
    .reverse();
}

/** The outline, and where one layer ends and the next begins. */
function edges({ piece, pxPerMm }: HeatSection, shape: Shape, ink: Ink): Drawn[] {
  const { x, y, size, across, round } = shape;
  const at = (depth: number, outline: boolean) => {
    const stroke = outline
      ? { stroke: ink.ink, "stroke-width": 1.2 }
      : { stroke: ink.ground, "stroke-width": 1.2, "stroke-dasharray": "4 3" };
    if (round)
      return draw("circle", {
        cx: x + size / 2,
        cy: y + size / 2,
        r: size / 2 - depth,
        fill: "none",
        ...stroke,
      });
    const stacked = piece.kind === "slab" && piece.stacked;
    const inside = stacked ? size - depth : size - 2 * depth;
    const side = piece.kind === "brick" ? depth : 0;
    return draw("rect", {
      x: x + side,
      y: y + depth,
      width: Math.max(0, across - 2 * side),
      height: Math.max(0, inside),
      fill: "none",
      ...stroke,
    });
  };
  let depth = 0;
  const layers = (piece.layers ?? []).map((layer) => {
    depth += layer.thicknessMm * pxPerMm;
    return at(depth, false);
  });
  return [...layers, at(0, true)];
}

/** Figures in the piece: at the core, half way and under the surface, as many as there is room for. */
function figures(section: HeatSection, shape: Shape, share: (c: number) => number): Drawn[] {
  const { mm, celsius, pxPerMm, writeC } = section;
  const { x, y, size, across, whole } = shape;
  const reach = whole ? size : size / 2;
  const up = (fromInside: number) => (whole ? y + size - fromInside : y + size / 2 - fromInside);
  const wanted = whole ? [0.5, 0, 1] : [0, 1, 0.5];
  const placed: { y: number; text: string; celsius: number }[] = [];
  for (const part of wanted) {
    const at = Math.min(Math.max(reach * part, whole ? TEXT * 0.7 : 0), reach - TEXT * 0.7);
    if (at < 0 || placed.some((other) => Math.abs(other.y - up(at)) < TEXT + 4)) continue;
    const value = readAt(mm, celsius, at / pxPerMm);
    const text = writeC(value);
    if (textWidth(text, TEXT) > across - 8) continue;
    placed.push({ y: up(at), text, celsius: value });
  }
  return placed.map((each) =>
    draw(
      "text",
      {
        x: x + across / 2,
        y: each.y + 5,
        "text-anchor": "middle",
        "font-size": TEXT,
        "font-weight": 600,
        fill: inkOnHeat(share(each.celsius)),
      },
      each.text,
    ),
  );
}

/** Between the centres of two cells on a straight line; beyond the last that of the last. */
function readAt(mm: readonly number[], celsius: readonly number[], at: number): number {
  const next = mm.findIndex((each) => each >= at);
  if (next === -1) return celsius.at(-1) ?? 0;
  if (next === 0) return celsius[0]!;
  const part = (at - mm[next - 1]!) / (mm[next]! - mm[next - 1]!);
  return celsius[next - 1]! + part * (celsius[next]! - celsius[next - 1]!);
}

function scale({ from, to, writeC }: HeatSection, height: number, ink: Ink): Drawn[] {
  const steps = 24;
  const long = Math.min(220, height - 2 * TOP - 10);
  const y = scaleLinear([from, to], [TOP + long, TOP]);
  const x = PIECE + 60;
  return [
    ...Array.from({ length: steps }, (_, i) =>
      draw("rect", {
        x,
        y: TOP + (long * i) / steps,
        width: 18,
        height: long / steps + (i < steps - 1 ? 0.5 : 0),
        fill: heatColour(1 - (i + 0.5) / steps),
      }),
    ),
    draw("rect", { x, y: TOP, width: 18, height: long, fill: "none", stroke: ink.ink, "stroke-width": 0.9 }),
    ...y.ticks(5).map((at) =>
      draw(
        "g",
        {},
        draw("path", {
          d: path("M", x + 18, y(at), "L", x + 23, y(at)),
          stroke: ink.ink,
          "stroke-width": 0.9,
        }),
        draw("text", { x: x + 28, y: y(at) + 5, "font-size": TEXT, fill: ink.ink }, writeC(at)),
      ),
    ),
  ];
}
