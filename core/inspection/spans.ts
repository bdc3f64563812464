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

/**
 * The unbroken stretches of time in which something is over, each by its worst moment (the first of equals).
 * @param moments at which anything may change. @param over by how much it is over from that moment on.
 */
export function worstOfStretches(
  moments: Iterable<number>,
  over: (minute: number) => number,
): { readonly at: number; readonly by: number }[] {
  const found: { at: number; by: number }[] = [];
  let open = false;
  for (const at of [...new Set(moments)].sort((a, b) => a - b)) {
    const by = over(at);
    if (by > 0 && (!open || by > found.at(-1)!.by)) {
      if (open) found.pop();
      found.push({ at, by });
    }
    open = by > 0;
  }
  return found;
}
