/** A stretch of minutes. */
export type Span = readonly [from: number, to: number];

/** Minutes from `from` to `to` that lie in one of the spans at least. */
export function covered(spans: readonly Span[], from: number, to: number): number {
  let [sum, reached] = [0, from];
  for (const [a, b] of [...spans].sort((x, y) => x[0] - y[0])) {
    const [start, end] = [Math.max(a, reached), Math.min(b, to)];
    if (end <= start) continue;
    sum += end - start;
    reached = end;
  }
  return sum;
}

/** Minutes that two stretches have in common. */
export function shared(a: Span, b: Span): number {
  return Math.max(0, Math.min(a[1], b[1]) - Math.max(a[0], b[0]));
}
