import { stretchesOf } from "./peaks.ts";
import type { Objective, Problem, Task } from "./problem.ts";

/** When a task can be at all: no sooner than `from`, over by `to`. */
export interface Room {
  readonly from: number;
  readonly to: number;
}

/**
 * A sum of peaks below that of every plan that keeps the rules: in a run of stretches hands do at least the work of the
 * tasks that can be nowhere else, by the way that takes the fewest minutes of hands; what that is above the share of all
 * who are there in the run has to be above it somewhere in it. The best of all ways to part the axis into runs.
 */
export function peakBound(
  problem: Problem,
  room: readonly (Room | undefined)[],
  peak: NonNullable<Objective["peak"]>,
): number {
  const stretches = stretchesOf(problem, [], peak);
  const count = stretches.length;
  // By the first stretch a task can be in: minutes of hands, by the last.
  const work = Array.from({ length: count }, () => new Map<number, number>());
  problem.tasks.forEach((task, i) => {
    const minutes = fewestMinutes(task);
    const here = room[i];
    if (minutes === 0 || !here) return;
    const first = stretches.findIndex((s) => s.to > here.from);
    const last = stretches.findLastIndex((s) => s.from < here.to);
    if (first < 0 || last < first) return;
    work[first]!.set(last, (work[first]!.get(last) ?? 0) + minutes);
  });
  // most[b]: the bound of the stretches before b.
  const most = new Float64Array(count + 1);
  const inside = Array.from({ length: count }, () => new Float64Array(count));
  for (let a = count - 1; a >= 0; a--) {
    if (a + 1 < count) inside[a]!.set(inside[a + 1]!);
    for (const [last, minutes] of work[a]!) inside[a]![last]! += minutes;
  }
  for (let a = 0; a < count; a++) {
    let [done, there] = [0, 0];
    for (let b = a; b < count; b++) {
      done += inside[a]![b]!;
      there += stretches[b]!.there;
      most[b + 1] = Math.max(most[b + 1]!, most[a]! + Math.max(0, done - peak.share * there));
    }
  }
  return most[count]!;
}

/** Minutes of hands by the way that takes the fewest; nothing of what has begun, or was given its end. */
function fewestMinutes(task: Task): number {
  if ((task.status ?? "open") !== "open" || task.pin?.end !== undefined) return 0;
  const modes = task.modes.filter((_, m) => (task.pin?.mode ?? m) === m);
  const heads = (m: (typeof modes)[number]) => (m.people ?? []).reduce((sum, need) => sum + need.count, 0);
  return Math.min(...modes.map((m) => heads(m) * m.duration));
}
