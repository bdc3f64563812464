import { checkPeople } from "./check-people.ts";
import { checkResources } from "./check-resources.ts";
import { momentOf, type Placed } from "./placed.ts";
import type { Moment, Placement, Problem, Schedule, Task, Violation } from "./problem.ts";

/**
 * Judges a schedule against every hard rule of the problem and lists what it breaks and by how much; empty
 * when it keeps them all. It reads only problem and schedule, and shares no code with the engine.
 *
 * What has happened is not judged: a done task is only an anchor for lags and what leaves a state and a class behind on
 * its resource, and a lag between two moments that have both happened is left out.
 * @throws RangeError when the schedule does not name each task once, in order, with a mode it has.
 */
export function checkSchedule(problem: Problem, schedule: Schedule): Violation[] {
  const placed = readSchedule(problem, schedule);
  const found: Violation[] = [];
  for (let i = 0; i < problem.tasks.length; i++)
    checkTimes(problem, problem.tasks[i]!, schedule.placements[i]!, found);
  checkLags(problem, placed, found);
  checkPeople(problem, schedule, found);
  checkResources(problem, schedule, placed, found);
  return found;
}

function readSchedule(problem: Problem, schedule: Schedule): Placed {
  if (schedule.placements.length !== problem.tasks.length)
    throw new RangeError(`${schedule.placements.length} placements for ${problem.tasks.length} tasks`);
  if (schedule.spans.length !== (problem.spans?.length ?? 0))
    throw new RangeError(`${schedule.spans.length} span choices for ${problem.spans?.length ?? 0} spans`);
  const placed = new Map<string, { task: Task; placement: Placement }>();
  problem.tasks.forEach((task, i) => {
    const placement = schedule.placements[i]!;
    if (placement.task !== task.id)
      throw new RangeError(`placement ${i} is of "${placement.task}", not "${task.id}"`);
    if (!task.modes[placement.mode]) throw new RangeError(`"${task.id}" has no mode ${placement.mode}`);
    if (
      !Number.isInteger(placement.start) ||
      !Number.isInteger(placement.end) ||
      placement.end < placement.start
    )
      throw new RangeError(`"${task.id}" is placed from ${placement.start} to ${placement.end}`);
    placed.set(task.id, { task, placement });
  });
  return placed;
}

function checkTimes(problem: Problem, task: Task, p: Placement, found: Violation[]): void {
  const add = (rule: Violation["rule"], by: number, at: number) => {
    if (by > 0) found.push({ rule, tasks: [task.id], by, unit: "min", at });
  };
  const pin = task.pin;
  if (pin?.start !== undefined) add("pin", Math.abs(p.start - pin.start), p.start);
  if (pin?.end !== undefined) add("pin", Math.abs(p.end - pin.end), p.end);
  const choices =
    (pin?.mode !== undefined && pin.mode !== p.mode ? 1 : 0) +
    differing(pin?.persons, p.persons) +
    differing(pin?.resources, p.resources);
  if (choices > 0) found.push({ rule: "pin", tasks: [task.id], by: choices, unit: "count" });
  if (task.status === "done") return;
  add("horizon", p.end - problem.horizon, problem.horizon);
  add("horizon", -p.start, p.start);
  if (task.deadline !== undefined) add("deadline", p.end - task.deadline, task.deadline);
  if (task.status === "started") return;
  add("now", (problem.now ?? 0) - p.start, p.start);
  add("release", (task.release ?? 0) - p.start, p.start);
}

function differing(wanted: readonly string[] | undefined, got: readonly string[]): number {
  if (!wanted) return 0;
  return wanted.filter((id, i) => got[i] !== id).length;
}

function checkLags(problem: Problem, placed: Placed, found: Violation[]): void {
  for (const lag of problem.lags ?? []) {
    if (happened(lag.from, placed) && happened(lag.to, placed)) continue;
    const from = momentOf(lag.from, placed);
    const wait = momentOf(lag.to, placed) - from;
    const tasks = [lag.from.task, lag.to.task];
    const on = lag.rule === undefined ? {} : { on: lag.rule };
    if (lag.least !== undefined && wait < lag.least)
      found.push({ rule: "least-lag", tasks, by: lag.least - wait, unit: "min", at: from + wait, ...on });
    if (lag.most !== undefined && wait > lag.most)
      found.push({
        rule: "longest-wait",
        tasks,
        by: wait - lag.most,
        unit: "min",
        at: from + lag.most,
        ...on,
      });
  }
}

function happened(m: Moment, placed: Placed): boolean {
  const status = placed.get(m.task)!.task.status;
  return status === "done" || (status === "started" && m.at === "start");
}
