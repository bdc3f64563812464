import { checkSchedule } from "./check.ts";
import { endOfWork } from "./facts.ts";
import type { Problem, Rule, Schedule, Violation } from "./problem.ts";
import { Play } from "./slack.ts";

/** One step of a chain: what a task would break if it went one minute further. */
export interface Link {
  readonly task: string;
  /** The furthest start it has alone. */
  readonly limit: number;
  readonly rule: Rule;
  /** Person, resource or the lag's own words. */
  readonly on?: string;
  /** The other task concerned, which would have to move too; absent where a date or an hour stands in the way. */
  readonly other?: string;
}

export interface Why {
  readonly task: string;
  /** How many minutes the task alone can move in this direction. */
  readonly play: number;
  /** From the task to what stands at the end of the chain. */
  readonly chain: readonly Link[];
  /** What ends the chain: a date, hour or capacity that does not move; a task that could; one met before. */
  readonly end: "fixed" | "movable" | "circle";
  /** For "movable": the minutes the last task could give. */
  readonly gives?: number;
}

/** Why a task does not start later: the chain of what would have to give way, each step tried by the checker. */
export function whyNotLater(problem: Problem, schedule: Schedule, task: string): Why {
  return chainOf(problem, schedule, task, 1);
}

/** Why a task does not start earlier. */
export function whyNotEarlier(problem: Problem, schedule: Schedule, task: string): Why {
  return chainOf(problem, schedule, task, -1);
}

/**
 * @throws RangeError when the problem has no such task
 */
function chainOf(problem: Problem, schedule: Schedule, task: string, step: 1 | -1): Why {
  const index = new Map(problem.tasks.map((t, i) => [t.id, i]));
  if (!index.has(task)) throw new RangeError(`no task is called "${task}"`);
  const play = new Play(problem, schedule);
  const broken = new Set(checkSchedule(problem, schedule).map(key));
  // A span stands for the tasks at its ends.
  const ends = new Map((problem.spans ?? []).map((s) => [s.id, [s.from.task, s.to.task]]));
  const others = (v: Violation, but: string) =>
    v.tasks.flatMap((t) => ends.get(t) ?? [t]).filter((t) => t !== but);
  const room = (id: string) => {
    const i = index.get(id)!;
    const { earliest, latest } = play.of(i);
    const { start } = schedule.placements[i]!;
    if (Number.isNaN(earliest)) return 0;
    return step > 0 ? latest - start : start - earliest;
  };
  const chain: Link[] = [];
  const met = new Set<string>();
  let at = task;
  for (;;) {
    met.add(at);
    const i = index.get(at)!;
    const limit = schedule.placements[i]!.start + step * room(at);
    const found = broughtAbout(problem, schedule, i, limit + step, broken);
    const open = (v: Violation) => others(v, at).find((t) => !met.has(t));
    const violation = found.find((v) => open(v) !== undefined) ?? found[0];
    const first = { task, play: room(task), chain };
    // Nothing in the way one minute on, though not beyond: other people or resources would do.
    if (!violation) return { ...first, end: "movable", gives: 0 };
    const other = open(violation);
    const circle = others(violation, at)[0];
    chain.push({
      task: at,
      limit,
      rule: violation.rule,
      ...(violation.on === undefined ? {} : { on: violation.on }),
      ...(other !== undefined ? { other } : circle !== undefined ? { other: circle } : {}),
    });
    if (other === undefined) return { ...first, end: circle === undefined ? "fixed" : "circle" };
    if ((problem.tasks[index.get(other)!]!.status ?? "open") !== "open") return { ...first, end: "fixed" };
    if (room(other) > 0) return { ...first, end: "movable", gives: room(other) };
    at = other;
  }
}

/** What the schedule breaks when task i starts at `start`, and did not break before. */
function broughtAbout(
  problem: Problem,
  schedule: Schedule,
  i: number,
  start: number,
  broken: ReadonlySet<string>,
): Violation[] {
  const p = schedule.placements[i]!;
  const task = problem.tasks[i]!;
  const mode = task.modes[p.mode]!;
  const end =
    task.pin?.end !== undefined ? start + p.end - p.start : endOfWork(problem, mode, p.persons, start);
  const placements = [...schedule.placements];
  placements[i] = { ...p, start, end };
  return checkSchedule(problem, { ...schedule, placements }).filter((v) => !broken.has(key(v)));
}

function key(v: Violation): string {
  return JSON.stringify([v.rule, v.tasks, v.on]);
}
