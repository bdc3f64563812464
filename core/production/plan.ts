import type { Placement, Problem, Result as Solved } from "../schedule/problem.ts";
import { brokenOf } from "./broken.ts";
import { loadOf } from "./load.ts";
import { nameOf } from "./names.ts";
import { peaksOf } from "./peaks.ts";
import { minutesBetween } from "./plan-rules.ts";
import type { Plan, PlanStatus, PlanTask, Remedy } from "./plan-types.ts";
import { unitsOfTasks } from "./problem.ts";
import type { Site } from "./site.ts";
import { latestStarts } from "./spare.ts";
import type { Link, Task, TaskSet } from "./tasks.ts";
import { termsOf } from "./terms.ts";

/**
 * A schedule read back into the kitchen's words (README, P17).
 * @param after what each task comes after, where that is known already
 */
export function planOf(
  site: Site,
  set: TaskSet,
  problem: Problem,
  solved: Solved,
  remedies: readonly Remedy[],
  after: (task: string) => readonly string[] = afterIn(set.links),
): Plan {
  const { schedule } = solved;
  const units = schedule ? unitsOfTasks(set, problem, schedule) : [];
  const placements = (schedule?.placements ?? []).map((p, i) => ({ ...p, resources: units[i]! }));
  const byTask = new Map(placements.map((p) => [p.task, p]));
  const waits = set.links.filter((link) => link.most !== undefined && link.state !== undefined);
  const holds = holdsOf(waits, byTask);
  const latest = latestStarts(site, set, placements, problem.horizon);
  const tasks = placements.map((placement, i) =>
    planTask(
      site,
      set.tasks[i]!,
      placement,
      bounded(solved.earliest[i], placement.start),
      latest[i]!,
      after,
      holds,
    ),
  );
  const broken = brokenOf(site, set, problem, solved);
  const peaks = schedule ? peaksOf(site, problem, schedule) : [];
  const status: PlanStatus = placements.length === 0 ? "none" : broken.length === 0 ? "feasible" : "broken";
  return {
    status,
    objective: placements.length === 0 ? [] : termsOf(site, set, placements, solved, peaks),
    peaks,
    tasks,
    broken,
    remedies,
    load: loadOf(site, set, placements),
    seed: solved.seed,
    schedules: solved.schedules,
  };
}

/** What each task comes after by its links. */
function afterIn(links: readonly Link[]): (task: string) => readonly string[] {
  const after = new Map<string, string[]>();
  for (const link of links) {
    if (link.least === undefined) continue;
    const list = after.get(link.to.task);
    if (!list) after.set(link.to.task, [link.from.task]);
    else if (!list.includes(link.from.task)) list.push(link.from.task);
  }
  return (task) => after.get(task) ?? [];
}

const KINDS = {
  work: "work",
  look: "work",
  wait: "passive",
  thaw: "passive",
  plate: "plate",
  milestone: "milestone",
} as const;

function planTask(
  site: Site,
  task: Task,
  placement: Placement,
  earliest: number,
  latest: number,
  after: (task: string) => readonly string[],
  holds: ReadonlyMap<string, NonNullable<PlanTask["hold"]>>,
): PlanTask {
  const { start, end } = placement;
  const hold = holds.get(task.id);
  return {
    id: task.id,
    preparation: task.preparation,
    step: task.step,
    batch: task.batch,
    kind: KINDS[task.kind],
    name: nameOf(site, task),
    start: site.clock.textOf(start),
    end: site.clock.textOf(end),
    startMin: start,
    endMin: end,
    hands: placement.persons,
    ...(task.station === undefined ? {} : { station: task.station }),
    equipment: task.uses.flatMap((use, k) =>
      use.space.map(({ unit, value }) => ({
        id: placement.resources[k]!,
        space: value,
        unit,
        ...(use.setC === undefined ? {} : { setC: use.setC }),
      })),
    ),
    earliest: site.clock.textOf(Math.min(start, earliest)),
    latest: site.clock.textOf(latest),
    slackMin: minutesBetween(latest, start),
    after: after(task.id),
    ...(hold ? { hold } : {}),
  };
}

const bounded = (minute: number | undefined, start: number) =>
  minute === undefined || !Number.isFinite(minute) ? start : minute;

/** By task the longest wait of its output that has a limit, and the one with the least to spare. */
function holdsOf(
  waits: readonly Link[],
  byTask: ReadonlyMap<string, Placement>,
): Map<string, NonNullable<PlanTask["hold"]>> {
  const holds = new Map<string, NonNullable<PlanTask["hold"]>>();
  for (const link of waits) {
    const [from, to] = [byTask.get(link.from.task), byTask.get(link.to.task)];
    if (!from || !to) continue;
    const usedMin = minutesBetween(to[link.to.at], from[link.from.at]);
    const known = holds.get(link.from.task);
    if (known && known.maxMin - known.usedMin <= link.most! - usedMin) continue;
    holds.set(link.from.task, { state: link.state!, maxMin: link.most!, usedMin });
  }
  return holds;
}
