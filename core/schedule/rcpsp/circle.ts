/**
 * Activities that wait for each other in a circle, the first one again at the end; undefined where there is none.
 * Those that nothing waits to precede are taken away one after the other (Kahn 1962); what is left holds a circle.
 */
export function circleIn(
  n: number,
  arcs: readonly (readonly [number, number, number])[],
): number[] | undefined {
  const waitsFor = new Int32Array(n);
  const next: number[][] = Array.from({ length: n }, () => []);
  for (const [from, to] of arcs) {
    waitsFor[to]!++;
    next[from]!.push(to);
  }
  const free = [...waitsFor.keys()].filter((i) => waitsFor[i] === 0);
  for (let i = free.pop(); i !== undefined; i = free.pop())
    for (const to of next[i]!) if (--waitsFor[to]! === 0) free.push(to);
  // Each that is left waits for one that is left: going back from any of them comes round.
  const before = new Map<number, number>();
  for (const [from, to] of arcs) if (waitsFor[from]! > 0 && waitsFor[to]! > 0) before.set(to, from);
  const seen: number[] = [];
  let at = before.keys().next().value;
  while (at !== undefined && !seen.includes(at)) {
    seen.push(at);
    at = before.get(at);
  }
  return at === undefined ? undefined : [...seen.slice(seen.indexOf(at)), at].reverse();
}
