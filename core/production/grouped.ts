import { minutesText } from "./names.ts";
import type { Broken } from "./plan-types.ts";

/** A breach with the unit, person or link it is about. */
export interface Breach {
  readonly broken: Broken;
  readonly on: string | undefined;
}

/** Breaches told one by one; of more, those of one rule on one unit or person are told together. */
const MOST_TOLD = 20;

/**
 * The breaches of a schedule as a list that can be read: one by one while they are few, else one line for each rule
 * and each unit or person, with its worst, how many there are and the minutes together. A line names the tasks of all
 * it stands for.
 */
export function grouped(breaches: readonly Breach[]): Broken[] {
  if (breaches.length <= MOST_TOLD) return breaches.map(({ broken }) => broken);
  const groups = new Map<string, Broken[]>();
  for (const { broken, on } of breaches) {
    const key = JSON.stringify([broken.rule, on ?? "", broken.unit]);
    const group = groups.get(key);
    if (group) group.push(broken);
    else groups.set(key, [broken]);
  }
  return [...groups.values()].map(together);
}

/** Minutes add up; room and degrees at different times do not: there the worst stands. */
function together(list: readonly Broken[]): Broken {
  const worst = list.reduce((a, b) => (b.by > a.by ? b : a));
  if (list.length === 1) return worst;
  const adds = worst.unit === "min";
  const by = adds ? list.reduce((sum, b) => sum + b.by, 0) : worst.by;
  const total = adds ? `, ${minutesText(by)} in all` : "";
  return {
    ...worst,
    tasks: [...new Set(list.flatMap((b) => b.tasks))],
    by,
    times: list.length,
    what: `${worst.what}; with ${list.length - 1} more of the kind${total}`,
  };
}
