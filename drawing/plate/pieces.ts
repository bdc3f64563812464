import type { Placement } from "../../core/plating/schema.ts";
import type { Footprint } from "./size.ts";

/** Where one piece lies: its centre in mm from the plate's centre (y up, away from the guest), turned by degrees. */
export interface Piece {
  readonly xMm: number;
  readonly yMm: number;
  readonly turnDeg: number;
}

const GOLDEN_DEG = 137.50776405;

/**
 * Places the `count` pieces of a placement round its point: round ones scattered evenly (by the golden angle),
 * long ones side by side across their length, a fan opened from one end.
 */
export function layPieces(placement: Placement, size: Footprint): Piece[] {
  const { count, form, xMm, yMm, turnDeg } = placement;
  if (count === 1) return [{ xMm, yMm, turnDeg }];
  if (form === "fan") return fan(placement, size);
  if (form === "dot" || form === "mound" || form === "pool" || form === "layer") {
    const gap = Math.sqrt(size.alongMm * size.acrossMm) * 1.35;
    return Array.from({ length: count }, (_, i) => {
      const radius = gap * Math.sqrt(i) * 0.85;
      const angle = ((turnDeg + i * GOLDEN_DEG) * Math.PI) / 180;
      return { xMm: xMm + radius * Math.cos(angle), yMm: yMm + radius * Math.sin(angle), turnDeg };
    });
  }
  const step = size.acrossMm * 1.2;
  const across = ((turnDeg + 90) * Math.PI) / 180;
  return Array.from({ length: count }, (_, i) => {
    const off = (i - (count - 1) / 2) * step;
    return { xMm: xMm + off * Math.cos(across), yMm: yMm + off * Math.sin(across), turnDeg };
  });
}

function fan({ count, xMm, yMm, turnDeg }: Placement, size: Footprint): Piece[] {
  const open = Math.min(90, 14 * (count - 1));
  return Array.from({ length: count }, (_, i) => {
    const turn = turnDeg - open / 2 + (open * i) / (count - 1);
    const angle = (turn * Math.PI) / 180;
    const root = (turnDeg * Math.PI) / 180;
    const half = size.alongMm / 2;
    return {
      xMm: xMm - half * Math.cos(root) + half * Math.cos(angle),
      yMm: yMm - half * Math.sin(root) + half * Math.sin(angle),
      turnDeg: turn,
    };
  });
}
