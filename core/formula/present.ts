import { takenFrom } from "./graph.ts";
import type { Line, Preparation } from "./schema.ts";

/**
 * Share of a line, as put in, that is in the food to the end: where steps take it away by name only what is taken up
 * stays, of the parts that come there. What is lost otherwise is left out: it is the same for all.
 */
export function presentShare(preparation: Preparation, { id, step }: Line): number {
  const { steps } = preparation;
  if (!steps.some(({ discard }) => discard?.lines?.some(({ line }) => line === id))) return 1;
  const known = new Map<string, number>();
  const from = (at: string): number => {
    const before = known.get(at);
    if (before !== undefined) return before;
    const named = steps.find((each) => each.id === at)?.discard?.lines?.find(({ line }) => line === id);
    let [taken, onwards] = [0, 0];
    for (const later of steps)
      for (const { step: entered, share } of takenFrom(later))
        if (entered === at) {
          taken += share;
          onwards += share * from(later.id);
        }
    const share = (named?.takenUp ?? 1) * (Math.max(0, 1 - taken) + onwards);
    known.set(at, share);
    return share;
  };
  return from(step);
}
