import type { Entry, Reading } from "../../offline/entry.ts";

/** So long after the curve's end a reading still belongs beside it, minutes. */
const AFTER = 120;

/**
 * Readings as minutes since the step was begun: since the last start of one of its tasks on the board before the
 * reading, else since its planned start. What was read at another time than that is only counted.
 * @param tasks ids of the step's tasks, and the planned start of each in minutes since 1970
 */
export function placed(
  read: readonly Reading[],
  entries: readonly Entry[],
  tasks: readonly { readonly id: string; readonly start: number }[],
  curveMinutes: number,
): { readonly inside: readonly (readonly [minute: number, celsius: number])[]; readonly outside: number } {
  const ids = new Set(tasks.map((task) => task.id));
  const minuteOf = (entry: Entry) => Date.parse(entry.at) / 60_000;
  const begun = entries
    .filter((entry) => entry.kind === "started" && entry.task !== undefined && ids.has(entry.task))
    .map(minuteOf);
  const planned = tasks.map((task) => task.start);
  const inside: [number, number][] = [];
  let outside = 0;
  for (const { first, value } of read) {
    if (value === undefined) continue;
    const at = minuteOf(first);
    const starts = begun.some((start) => start <= at) ? begun : planned;
    const start = starts.filter((each) => each <= at).sort((a, b) => b - a)[0];
    if (start !== undefined && at - start <= curveMinutes + AFTER) inside.push([at - start, value]);
    else outside++;
  }
  return { inside: inside.sort(([a], [b]) => a - b), outside };
}
