/** A number round the plate: the place in the order, where its piece lies, where the number stands. */
export interface NumberAt {
  readonly n: number;
  /** The piece's point, mm from the centre, y up. */
  readonly atMm: readonly [number, number];
  /** Direction of the number from the centre, degrees counter-clockwise from the guest's right. */
  readonly angleDeg: number;
}

/**
 * Stands the numbers round the plate like a clock: each as near as possible to the direction of its piece, none
 * nearer to the next than `apartDeg` (D4). Pieces at the very centre take the top. Pushes neighbours apart evenly
 * until all are free; with more numbers than fit they are spread equally.
 */
export function numbersAround(
  pieces: readonly { readonly n: number; readonly xMm: number; readonly yMm: number }[],
  apartDeg: number,
): NumberAt[] {
  const wish = pieces.map(({ n, xMm, yMm }) => ({
    n,
    atMm: [xMm, yMm] as const,
    angleDeg: Math.hypot(xMm, yMm) < 1 ? 90 : (Math.atan2(yMm, xMm) * 180) / Math.PI,
  }));
  const placed = wish.sort((a, b) => a.angleDeg - b.angleDeg || a.n - b.n);
  const count = placed.length;
  if (count * apartDeg >= 360)
    return placed.map((p, i) => ({ ...p, angleDeg: placed[0]!.angleDeg + (360 * i) / count }));
  for (let round = 0; round < 200; round++) {
    let moved = false;
    for (let i = 0; i < count && count > 1; i++) {
      const a = placed[i]!;
      const b = placed[(i + 1) % count]!;
      const gap = b.angleDeg - a.angleDeg + (i === count - 1 ? 360 : 0);
      if (gap >= apartDeg - 1e-6) continue;
      const push = (apartDeg - gap) / 2;
      placed[i] = { ...a, angleDeg: a.angleDeg - push };
      placed[(i + 1) % count] = { ...b, angleDeg: b.angleDeg + push };
      moved = true;
    }
    if (!moved) break;
  }
  return placed;
}
