import type { Placement } from "../schedule/problem.ts";
import { worked } from "./load.ts";
import { wholeUp } from "./plan-rules.ts";
import type { Site } from "./site.ts";
import type { Task, TaskSet } from "./tasks.ts";
import { type Unit, VESSELS } from "./units.ts";

/** Users after one another on a person or unit that are looked at: beyond these the nearer ones bind. */
const FOLLOWERS = 24;

/**
 * Latest start of each task when it may push what comes after it, with the same hands and units in the same
 * order (README, P17): until a course's moment, the end of a working time, a decided start, or the limit of what
 * already waits for it. Never before its start; equal to it when nothing may slip. In the order of the tasks.
 */
export function latestStarts(
  site: Site,
  set: TaskSet,
  placements: readonly Placement[],
  horizon: number,
): number[] {
  const index = new Map(placements.map((p, i) => [p.task, i]));
  const length = placements.map((p) => p.end - p.start);
  const latest = placements.map((p, i) => ownLimit(site, set, p, i, horizon) - length[i]!);
  // By task: who follows it, and how long after its start at the least.
  const followers: [number, number][][] = placements.map(() => []);
  const follow = (i: number, j: number, gap: number) => {
    if (i !== j) followers[i]!.push([j, gap]);
  };
  for (const link of set.links) {
    const [i, j] = [index.get(link.from.task), index.get(link.to.task)];
    if (i === undefined || j === undefined) continue;
    const from = link.from.at === "end" ? length[i]! : 0;
    const to = link.to.at === "end" ? length[j]! : 0;
    if (link.least !== undefined) follow(i, j, link.least + from - to);
    // A wait goes with its work, a look-in with its wait; all else already waits since its planned moment.
    if (link.most !== undefined && link.rule !== "follows" && link.rule !== "look-in")
      latest[j] = Math.min(latest[j]!, placements[i]![link.from.at] + link.most - to);
  }
  for (const [key, list] of users(set, placements)) {
    const unit = site.units.all.find((u) => `unit ${u.id}` === key);
    list.sort(
      (a, b) => placements[a]!.start - placements[b]!.start || placements[a]!.end - placements[b]!.end,
    );
    for (let a = 0; a < list.length; a++)
      for (let b = a + 1; b < list.length && b <= a + FOLLOWERS; b++) {
        const [i, j] = [list[a]!, list[b]!];
        if (placements[j]!.start < placements[i]!.end) continue;
        follow(i, j, length[i]! + (unit ? emptyBetween(unit, set.tasks[i]!, set.tasks[j]!) : 0));
      }
  }
  const order = placements.map((_, i) => i).sort((a, b) => placements[b]!.start - placements[a]!.start);
  for (let moved = true; moved; ) {
    moved = false;
    for (const i of order)
      for (const [j, gap] of followers[i]!) {
        const most = latest[j]! - gap;
        if (most >= latest[i]!) continue;
        latest[i] = most;
        moved = true;
      }
  }
  // By itself a wait begins when its work ends, and a look-in inside its window.
  for (const link of set.links) {
    if (link.rule !== "follows" && link.rule !== "look-in") continue;
    const [i, j] = [index.get(link.from.task), index.get(link.to.task)];
    if (i === undefined || j === undefined) continue;
    const own = link.rule === "follows" ? latest[i]! + length[i]! : placements[i]!.start + link.most!;
    latest[j] = Math.min(latest[j]!, own);
  }
  return latest.map((minute, i) => Math.max(placements[i]!.start, minute));
}

/** Minutes a unit stands empty from one task to the next: to change its temperature, or to be cleaned. */
function emptyBetween(unit: Unit, a: Task, b: Task): number {
  const { changeover, cleanMin, kind } = unit.equipment;
  const clean = VESSELS.has(kind) && a.preparation !== b.preparation ? (cleanMin ?? 0) : 0;
  const [x, y] = [a, b].map((task) => task.uses.find((use) => use.units.includes(unit.id))?.setC);
  if (x === undefined || y === undefined || x === y || !changeover) return wholeUp(clean);
  return wholeUp(Math.max(clean, changeover.leastMin, changeover.perKMin * Math.abs(x - y)));
}

/** Latest end by the task alone. */
function ownLimit(site: Site, set: TaskSet, p: Placement, i: number, horizon: number): number {
  const task = set.tasks[i]!;
  if (task.at !== undefined) return p.end;
  let limit = Math.min(horizon, task.deadline ?? horizon);
  for (const id of p.persons) {
    const shifts = site.crew.find((cook) => cook.id === id)?.shifts ?? [];
    const span = shifts.flatMap(worked).find((s) => s.from <= p.start && p.start < s.to);
    if (span) limit = Math.min(limit, Math.max(span.to, p.end));
  }
  return limit;
}

/** Tasks by person and by unit, in the order of the plan. */
function users(set: TaskSet, placements: readonly Placement[]): Map<string, number[]> {
  const lists = new Map<string, number[]>();
  placements.forEach((p, i) => {
    const units = set.tasks[i]!.uses.map((_, k) => `unit ${p.resources[k]}`);
    for (const key of new Set([...p.persons.map((id) => `person ${id}`), ...units])) {
      const list = lists.get(key);
      if (list) list.push(i);
      else lists.set(key, [i]);
    }
  });
  return lists;
}
