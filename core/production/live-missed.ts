import { movedFromFixed } from "./breach-words.ts";
import type { Place, Stand } from "./live-stand.ts";
import { minutesText, nameOf } from "./names.ts";
import type { Broken } from "./plan-types.ts";
import type { Site } from "./site.ts";
import { courseTask, type Task } from "./tasks.ts";

/**
 * Fixed moments that have gone by without what was to be then: they bind the plan no more, but the line check or the
 * course comes late, and that is told as it was while the moment lay ahead.
 */
export function missedMoments(
  site: Site,
  tasks: readonly Task[],
  stands: ReadonlyMap<string, Stand>,
  after: ReadonlyMap<string, Place>,
  now: number,
): Broken[] {
  return tasks.flatMap((task): Broken[] => {
    const stand = stands.get(task.id)!;
    // Later than that it is no pin any more: see `opened` in live-problem.ts.
    const bound = task.at !== undefined && task.at >= Math.max(now, stand.release ?? 0);
    const by = after.get(task.id)!.start - (task.at ?? Number.POSITIVE_INFINITY);
    if (bound || by <= 0 || stand.status !== "open") return [];
    const name = nameOf(site, task);
    const what =
      task.id === courseTask(task.step)
        ? `${name} goes out ${minutesText(by)} later than the service has it`
        : movedFromFixed(name, by);
    return [{ rule: "pin", tasks: [task.id], by, unit: "min", what }];
  });
}
