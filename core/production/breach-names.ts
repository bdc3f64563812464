import type { Placement } from "../schedule/problem.ts";
import type { Site } from "./site.ts";
import type { Task } from "./tasks.ts";

/**
 * A task as a breach tells it, so that a cook knows which one is meant: "Rye crumb: Toast (batch 2 of 3, load 1 of 2, the
 * waiting, D-1 14:20)". The clock is its start.
 */
export function breachName(site: Site, task: Task, placed: Pick<Placement, "start"> | undefined): string {
  const batches = site.amounts.preparations.get(task.preparation)?.batches.length ?? 1;
  const [, load] = /\.(\d+)/.exec(task.id) ?? [];
  const [, look] = /\/look-(\d+)$/.exec(task.id) ?? [];
  const which = [
    ...(task.batch > 0 && batches > 1 ? [`batch ${task.batch} of ${batches}`] : []),
    ...(task.share < 1 && load !== undefined ? [`load ${load} of ${Math.round(1 / task.share)}`] : []),
    ...(task.kind === "wait" && task.station !== undefined ? ["the waiting"] : []),
    ...(look === undefined ? [] : [`look-in ${look}`]),
    ...(placed ? [site.clock.textOf(placed.start)] : []),
  ];
  return which.length === 0 ? task.name : `${task.name} (${which.join(", ")})`;
}
