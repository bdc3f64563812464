import type { Activity } from "./activity.ts";
import type { Bounds } from "./bounds.ts";

/** Makes the next decision by what conflicts were about; false when none of it is open. */
export function decideBusiest(
  b: Bounds,
  activity: Activity,
  like: ArrayLike<number> | null,
  buffer: number[],
): boolean {
  buffer.length = 0;
  let made = false;
  for (let id = activity.pop(); id >= 0 && !made; id = made ? -1 : activity.pop()) {
    buffer.push(id);
    const x = activity.variable[id]!;
    const v = activity.value[id]!;
    if (v <= b.min(x) || v > b.max(x)) continue;
    if (like && x < like.length && like[x]! >= v) b.decide(2 * x, v);
    else b.decide(2 * x + 1, 1 - v);
    made = true;
  }
  for (const id of buffer) activity.push(id);
  return made;
}

/** Decides that the variable that can be least is least (ties: the one with the least room); false when all are fixed. */
export function decideEarliest(b: Bounds, count: number): boolean {
  let next = -1;
  for (let i = 0; i < count; i++) {
    if (b.min(i) === b.max(i)) continue;
    if (next < 0 || b.min(i) < b.min(next) || (b.min(i) === b.min(next) && b.max(i) < b.max(next))) next = i;
  }
  if (next < 0) return false;
  b.decide(2 * next + 1, -b.min(next));
  return true;
}
