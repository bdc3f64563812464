import { checkSchedule } from "../schedule/check.ts";
import { endOfWork } from "../schedule/facts.ts";
import type { Placement, Problem, Schedule, Violation } from "../schedule/problem.ts";
import type { TaskSet } from "./tasks.ts";

/** By task the ids of its block: work, the waiting that follows it at once, and the look-ins on that. */
export function blocksOf(set: TaskSet): ReadonlyMap<string, readonly string[]> {
  const blocks = new Map<string, string[]>(set.tasks.map((task) => [task.id, [task.id]]));
  for (const { rule, from, to } of set.links) {
    if (rule !== "follows" && rule !== "look-in") continue;
    const [a, b] = [blocks.get(from.task)!, blocks.get(to.task)!];
    if (a === b) continue;
    a.push(...b);
    for (const id of b) blocks.set(id, a);
  }
  return blocks;
}

/**
 * One block of a schedule among what it can touch: what it waits for and what waits for it, whoever and whatever
 * it shares. Moved as a whole, everything else left as it is; what breaks is told by the checker.
 */
export class Surroundings {
  private readonly problem: Problem;
  private readonly schedule: Schedule;
  private readonly block: ReadonlySet<string>;
  private readonly before: ReadonlySet<string>;

  constructor(problem: Problem, schedule: Schedule, block: readonly string[]) {
    this.block = new Set(block);
    const near = nearby(problem, schedule, this.block);
    const spans = (problem.spans ?? []).map((span, k) => ({ span, on: schedule.spans[k]! }));
    const kept = spans.filter(({ span }) => near.has(span.from.task) && near.has(span.to.task));
    const tasks = problem.tasks.filter((task) => near.has(task.id));
    this.problem = {
      ...problem,
      tasks,
      lags: (problem.lags ?? []).filter((lag) => near.has(lag.from.task) && near.has(lag.to.task)),
      spans: kept.map(({ span }) => span),
    };
    this.schedule = {
      placements: schedule.placements.filter((p) => near.has(p.task)),
      spans: kept.map(({ on }) => on),
    };
    this.before = new Set(checkSchedule(this.problem, this.schedule).map(key));
  }

  /** What breaks, and did not before, when the block begins so many minutes later (earlier when negative). */
  brokenAt(by: number): Violation[] {
    const placements = this.movedBy(by);
    return checkSchedule(this.problem, { ...this.schedule, placements }).filter(
      (violation) => !this.before.has(key(violation)),
    );
  }

  /** The minutes the block can move one way, minute by minute, until something breaks. */
  play(way: 1 | -1): number {
    for (let by = 1; by <= this.problem.horizon; by++) if (this.brokenAt(way * by).length > 0) return by - 1;
    return this.problem.horizon;
  }

  private movedBy(by: number): Placement[] {
    // What follows the work moves by as much as the work's end does: a break may lie between.
    let follows = by;
    const moved = new Map<string, Placement>();
    this.problem.tasks.forEach((task, i) => {
      if (!this.block.has(task.id)) return;
      const p = this.schedule.placements[i]!;
      const mode = task.modes[p.mode]!;
      if ((mode.interrupt ?? "no") === "no" || task.pin?.end !== undefined) return;
      const start = p.start + by;
      const end = endOfWork(this.problem, mode, p.persons, start);
      moved.set(task.id, { ...p, start, end });
      if (p.persons.length > 0) follows = end - p.end;
    });
    return this.schedule.placements.map((p) => {
      if (!this.block.has(p.task)) return p;
      return moved.get(p.task) ?? { ...p, start: p.start + follows, end: p.end + follows };
    });
  }
}

/** Tasks that a move of the block could break a rule with. */
function nearby(problem: Problem, schedule: Schedule, block: ReadonlySet<string>): Set<string> {
  const near = new Set(block);
  const used = new Set<string>();
  const persons = new Set<string>();
  for (const p of schedule.placements)
    if (block.has(p.task)) {
      for (const id of p.resources) used.add(id);
      for (const id of p.persons) persons.add(id);
    }
  (problem.spans ?? []).forEach(({ from, to }, k) => {
    if (block.has(from.task) || block.has(to.task)) used.add(schedule.spans[k]!);
  });
  for (const p of schedule.placements)
    if (p.resources.some((id) => used.has(id)) || p.persons.some((id) => persons.has(id))) near.add(p.task);
  (problem.spans ?? []).forEach(({ from, to }, k) => {
    if (used.has(schedule.spans[k]!)) near.add(from.task).add(to.task);
  });
  for (const { from, to } of problem.lags ?? []) {
    if (block.has(from.task)) near.add(to.task);
    if (block.has(to.task)) near.add(from.task);
  }
  return near;
}

function key({ rule, tasks, on }: Violation): string {
  return JSON.stringify([rule, tasks, on]);
}
