/** Something that is given out, and something that is asked for; `joined` says what may serve what. */
export interface Given<S, T> {
  readonly from: readonly { readonly item: S; readonly amount: number }[];
  readonly to: readonly { readonly item: T; readonly amount: number }[];
  readonly joined: (from: S, to: T) => boolean;
}

/**
 * The most that can be handed over from suppliers to takers along the allowed pairs (maximum flow by the shortest
 * augmenting path; Edmonds and Karp, 1972). Returns what each taker still lacks, in the order of `to`.
 * Amounts below a billionth of the whole count as nothing.
 */
export function lacking<S, T>({ from, to, joined }: Given<S, T>): number[] {
  const whole = to.reduce((sum, each) => sum + each.amount, 0);
  const nothing = 1e-9 * Math.max(1e-3, whole);
  const left = from.map((each) => each.amount);
  const lack = to.map((each) => each.amount);
  const moved = from.map(() => to.map(() => 0));
  const may = from.map((f) => to.map((t) => joined(f.item, t.item)));
  for (;;) {
    const way = shortestWay(left, lack, moved, may, nothing);
    if (!way) return lack.map((each) => (each > nothing ? each : 0));
    const [first, last] = [way[0]!.f, way.at(-1)!.t];
    let amount = Math.min(left[first]!, lack[last]!);
    for (const step of way) if (step.back) amount = Math.min(amount, moved[step.f]![step.t]!);
    for (const step of way) moved[step.f]![step.t]! += step.back ? -amount : amount;
    left[first]! -= amount;
    lack[last]! -= amount;
  }
}

interface Move {
  readonly f: number;
  readonly t: number;
  /** Taken back from the taker, to be given to another. */
  readonly back: boolean;
}

function shortestWay(
  left: readonly number[],
  lack: readonly number[],
  moved: readonly (readonly number[])[],
  may: readonly (readonly boolean[])[],
  nothing: number,
): Move[] | undefined {
  let ways: { readonly at: number; readonly moves: Move[] }[] = left.flatMap((amount, at) =>
    amount > nothing ? [{ at, moves: [] }] : [],
  );
  const seenFrom = new Set(ways.map((way) => way.at));
  const seenTo = new Set<number>();
  while (ways.length > 0) {
    const next: typeof ways = [];
    for (const { at: f, moves } of ways)
      for (let t = 0; t < lack.length; t++) {
        if (!may[f]![t] || seenTo.has(t)) continue;
        seenTo.add(t);
        const here = [...moves, { f, t, back: false }];
        if (lack[t]! > nothing) return here;
        for (let other = 0; other < left.length; other++) {
          if (seenFrom.has(other) || moved[other]![t]! <= nothing) continue;
          seenFrom.add(other);
          next.push({ at: other, moves: [...here, { f: other, t, back: true }] });
        }
      }
    ways = next;
  }
  return undefined;
}
