import type { Piece } from "../../core/heat/schema.ts";
import type { Ink } from "../ink.ts";
import { type Drawn, draw, path } from "../tree.ts";

export interface PieceShape {
  readonly piece: Piece;
  readonly title: string;
  readonly writeMm: (mm: number) => string;
}

const WIDTH = 380;
const TEXT = 14;
const GAP = 46;
const ROOM = { width: WIDTH - GAP - 60, height: 130 };

/** A piece in outline, to scale: seen from the end and, where its length is known, from the side. */
export function shapeDrawing({ piece, title, writeMm }: PieceShape, ink: Ink): Drawn {
  const views = viewsOf(piece);
  const wide = views.reduce((sum, view) => sum + view.w, 0);
  const high = Math.max(...views.map((view) => view.h));
  const scale = Math.min(ROOM.width / wide, ROOM.height / high, 6);
  const bottom = 14 + high * scale;
  let x = 30;
  const drawn = views.map((view) => {
    const [w, h] = [view.w * scale, view.h * scale];
    const y = bottom - h;
    const line = { fill: ink.tint(0.06), stroke: ink.ink, "stroke-width": 1.2 };
    const body = view.round
      ? draw("circle", { cx: x + w / 2, cy: y + h / 2, r: w / 2, ...line })
      : view.endless
        ? endless(x, y, w, h, ink)
        : draw("rect", { x, y, width: w, height: h, ...line });
    const text = { "font-size": TEXT, fill: ink.quiet };
    const under =
      view.wMm !== undefined &&
      draw("text", { x: x + w / 2, y: bottom + 20, "text-anchor": "middle", ...text }, writeMm(view.wMm));
    const beside =
      view.hMm !== undefined && draw("text", { x: x + w + 6, y: y + h / 2 + 5, ...text }, writeMm(view.hMm));
    x += w + GAP + 14;
    return draw("g", {}, body, under, beside);
  });
  return draw(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      viewBox: `0 0 ${WIDTH} ${Math.ceil(bottom + 30)}`,
      role: "img",
      "aria-label": title,
      "font-family": ink.font,
    },
    ...drawn,
  );
}

/** One view: width and height in mm, and which of them are written. */
interface View {
  readonly w: number;
  readonly h: number;
  readonly wMm?: number;
  readonly hMm?: number;
  readonly round?: boolean;
  readonly endless?: boolean;
}

function viewsOf(piece: Piece): View[] {
  switch (piece.kind) {
    case "slab":
      return [{ w: piece.thicknessMm * 3, h: piece.thicknessMm, hMm: piece.thicknessMm, endless: true }];
    case "cylinder":
      return [
        { w: piece.diameterMm, h: piece.diameterMm, wMm: piece.diameterMm, round: true },
        { w: piece.diameterMm * 2, h: piece.diameterMm, endless: true },
      ];
    case "sphere":
      return [{ w: piece.diameterMm, h: piece.diameterMm, wMm: piece.diameterMm, round: true }];
    case "finite-cylinder":
      return [
        { w: piece.diameterMm, h: piece.diameterMm, wMm: piece.diameterMm, round: true },
        { w: piece.lengthMm, h: piece.diameterMm, wMm: piece.lengthMm },
      ];
    case "brick": {
      const [a, b, c] = piece.sidesMm;
      return [
        { w: a, h: c, wMm: a, hMm: c },
        { w: b, h: c, wMm: b },
      ];
    }
  }
}

/** A piece that goes on: its two long edges, and open ends. */
function endless(x: number, y: number, w: number, h: number, ink: Ink): Drawn {
  return draw(
    "g",
    {},
    draw("rect", { x, y, width: w, height: h, fill: ink.tint(0.06) }),
    draw("path", {
      d: path("M", x, y, "L", x + w, y, "M", x, y + h, "L", x + w, y + h),
      stroke: ink.ink,
      "stroke-width": 1.2,
    }),
    draw("path", {
      d: path("M", x, y, "L", x, y + h, "M", x + w, y, "L", x + w, y + h),
      stroke: ink.rule,
      "stroke-width": 1,
      "stroke-dasharray": "3 4",
    }),
  );
}
