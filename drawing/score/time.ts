/** Minutes from 00:00 of the date of service, on the long side of a drawing; quiet stretches are folded (D6). */
export interface RunTime {
  readonly from: number;
  readonly to: number;
  /** Length of the whole axis. */
  readonly length: number;
  /** Place of a moment; held at the ends. */
  at(minute: number): number;
  /** Moment of a place. */
  minuteAt(place: number): number;
  readonly folds: readonly {
    readonly from: number;
    readonly to: number;
    readonly place: number;
    readonly width: number;
  }[];
}

export interface Span {
  readonly from: number;
  readonly to: number;
}

/**
 * A time axis on which stretches longer than `foldOver` minutes without any of the `busy` spans take only `foldWidth`.
 * @param busy spans that must stay to scale (work of hands; the service).
 */
export function runTime(
  from: number,
  to: number,
  busy: readonly Span[],
  options: { readonly perMinute: number; readonly foldOver?: number; readonly foldWidth?: number },
): RunTime {
  const { perMinute, foldOver = 120, foldWidth = 26 } = options;
  const merged = mergeSpans(
    busy.map((s) => ({ from: Math.max(from, s.from), to: Math.min(to, s.to) })).filter((s) => s.to >= s.from),
  );
  const knots: [minute: number, place: number][] = [[from, 0]];
  const folds: { from: number; to: number; place: number; width: number }[] = [];
  let minute = from;
  let place = 0;
  const forward = (until: number, width: number) => {
    place += width;
    minute = until;
    knots.push([minute, place]);
  };
  for (const span of [...merged, { from: to, to }]) {
    const quiet = span.from - minute;
    if (quiet > foldOver && quiet * perMinute > foldWidth) {
      folds.push({ from: minute, to: span.from, place, width: foldWidth });
      forward(span.from, foldWidth);
    } else if (quiet > 0) forward(span.from, quiet * perMinute);
    if (span.to > minute) forward(span.to, (span.to - minute) * perMinute);
  }
  return {
    from,
    to,
    length: place,
    folds,
    at: (m) => through(knots, m, 0, 1),
    minuteAt: (p) => through(knots, p, 1, 0),
  };
}

/** Spans joined where they touch or overlap, in order. */
export function mergeSpans(spans: readonly Span[]): Span[] {
  const merged: { from: number; to: number }[] = [];
  for (const span of [...spans].sort((a, b) => a.from - b.from)) {
    const last = merged.at(-1);
    if (last && span.from <= last.to) last.to = Math.max(last.to, span.to);
    else merged.push({ ...span });
  }
  return merged;
}

function through(knots: readonly [number, number][], value: number, x: 0 | 1, y: 0 | 1): number {
  const first = knots[0]!;
  if (value <= first[x]) return first[y];
  for (let i = 1; i < knots.length; i++) {
    const a = knots[i - 1]!;
    const b = knots[i]!;
    if (value > b[x]) continue;
    return b[x] === a[x] ? b[y] : a[y] + ((value - a[x]) / (b[x] - a[x])) * (b[y] - a[y]);
  }
  return knots.at(-1)![y];
}
