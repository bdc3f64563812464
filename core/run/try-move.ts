import type { Amounts } from "../production/amounts.ts";
import { blocksOf } from "../production/blocks.ts";
import { brokenOf } from "../production/broken.ts";
import type { Documents } from "../production/documents.ts";
import { type MadePlan, problemFor } from "../production/make-plan.ts";
import type { Broken, Plan } from "../production/plan-types.ts";
import { spareOf } from "../production/ready-parts.ts";
import type { Service } from "../production/schema.ts";
import type { FillTarget } from "../production/site.ts";
import { checkSchedule } from "../schedule/check.ts";
import { endOfWork } from "../schedule/facts.ts";
import type { Problem, Schedule, Violation } from "../schedule/problem.ts";
import { repair } from "../schedule/repair.ts";

export type TaskPin = Service["pins"][number];

/** A task that would stand elsewhere than in the plan; minutes from the horizon. */
export interface Moved {
  readonly task: string;
  readonly name: string;
  readonly beforeMin: number;
  readonly startMin: number;
  readonly endMin: number;
  readonly before: string;
  readonly start: string;
  readonly hands: readonly string[];
  /** Its hands change. */
  readonly others: boolean;
}

/** What would give if a task were pinned, found around the plan as it stands. */
export interface TriedMove {
  readonly pin: TaskPin;
  readonly fits: boolean;
  /** The task itself first, then the others in order of time. */
  readonly moved: readonly Moved[];
  /** What it would break that the plan does not break already. */
  readonly broken: readonly Broken[];
  readonly spareMin?: number;
  readonly spareBeforeMin?: number;
}

/** A plan that was made, with what it was made from. */
export interface Standing {
  readonly docs: Documents;
  readonly amounts: Amounts;
  readonly made: MadePlan;
  readonly plan: Plan;
  readonly fill: FillTarget;
}

/**
 * The quick answer to a drag: the plan mended around one pin, with few others moved. Not a search: the plan made
 * anew with the pin may be better. Where it cannot be mended, the task alone stands where it was put, and what that
 * breaks is said.
 * @param pin of the task whose block moves; a waiting is moved by its work
 * @returns undefined when the plan has no such task
 */
export function tryMove(standing: Standing, pin: TaskPin): TriedMove | undefined {
  const { made, plan } = standing;
  const stood = made.solved.schedule;
  if (!stood || !made.set.tasks.some((task) => task.id === pin.task)) return undefined;
  const { site, set, problem, refused } = pinnedProblem(standing, pin);
  const old = asPinned(problem, stood, pin);
  const alone = movedAlone(problem, old, pin, made);
  const best = alone.violations.length === 0 ? alone : better(alone, mended(problem, old, pin));
  const { schedule, violations } = best;
  const known = new Set(plan.broken.map((broken) => broken.what));
  const broken = [
    ...refused.map((what): Broken => ({ rule: "pin", tasks: [pin.task], by: 1, unit: "count", what })),
    ...brokenOf(site, set, problem, { ...made.solved, schedule, violations }).filter(
      ({ what }) => !known.has(what),
    ),
  ];
  const moved = movedTasks(standing, schedule, pin.task);
  const at = new Map(schedule.placements.map((p) => [p.task, p]));
  const tasks = plan.tasks.map((task) => {
    const p = at.get(task.id)!;
    return { ...task, startMin: p.start, endMin: p.end };
  });
  const [spareMin, spareBeforeMin] = [spareOf({ tasks }), spareOf(plan)];
  return {
    pin,
    fits: broken.length === 0,
    moved,
    broken,
    ...(spareMin === undefined ? {} : { spareMin }),
    ...(spareBeforeMin === undefined ? {} : { spareBeforeMin }),
  };
}

interface Tried {
  readonly schedule: Schedule;
  readonly violations: readonly Violation[];
}

/** The schedule with the hands and the units that a pin names, where they can serve; all at the minutes they had. */
function asPinned(problem: Problem, old: Schedule, pin: TaskPin): Schedule {
  const placements = old.placements.map((p, i) => {
    const { modes } = problem.tasks[i]!;
    const mode = p.task === pin.task && pin.crew ? 0 : p.mode;
    const { people = [], resources = [] } = modes[mode] ?? {};
    const heads = people.reduce((sum, need) => sum + need.count, 0);
    const crew = pin.crew?.filter((id) => people[0]?.among?.includes(id)).slice(0, heads) ?? [];
    return {
      ...{ ...p, mode },
      ...(p.task === pin.task && heads > 0 && crew.length === heads ? { persons: crew } : {}),
      resources: p.resources.map((id, k) => servingOf(id, resources[k]?.of)),
    };
  });
  return { placements, spans: old.spans.map((id, k) => servingOf(id, problem.spans?.[k]?.need.of)) };
}

/** The resource that served if it still may, else the first that may. */
const servingOf = (id: string, of: readonly string[] | undefined): string =>
  of === undefined || of.includes(id) ? id : of[0]!;

/** The block of the task where it is put, everything else left as it is. */
function movedAlone(problem: Problem, old: Schedule, pin: TaskPin, made: MadePlan): Tried {
  const start = problem.tasks.find((task) => task.id === pin.task)?.pin?.start;
  const block = new Set(blocksOf(made.set).get(pin.task));
  const was = old.placements.find((p) => p.task === pin.task)!;
  const by = start === undefined ? 0 : start - was.start;
  const mode = problem.tasks.find((task) => task.id === pin.task)!.modes[was.mode];
  const end =
    mode && was.persons.length > 0 ? endOfWork(problem, mode, was.persons, was.start + by) : was.end + by;
  const placements = old.placements.map((p) => {
    if (!block.has(p.task)) return p;
    if (p.task === pin.task) return { ...p, start: p.start + by, end };
    return { ...p, start: p.start + end - was.end, end: p.end + end - was.end };
  });
  const schedule = { ...old, placements };
  return { schedule, violations: checked(problem, schedule) };
}

/**
 * What comes before gives way when a task moves earlier, what comes after it when it moves later. Undefined when
 * what is decided gave way: this pin, another, or a fixed moment.
 */
function mended(problem: Problem, old: Schedule, pin: TaskPin): Tried | undefined {
  const was = old.placements.find((p) => p.task === pin.task)!.start;
  const start = problem.tasks.find((task) => task.id === pin.task)!.pin?.start ?? was;
  const { schedule, violations } = repair(problem, old, {
    ...{ tries: 2, enough: 1, late: start < was },
    relax: ["late"],
  });
  return violations.some(({ rule }) => rule === "pin") ? undefined : { schedule, violations };
}

function better(a: Tried, b: Tried | undefined): Tried {
  return b && harm(b) < harm(a) ? b : a;
}

/** The problem with the pin in it; a start alone needs no new tasks. */
function pinnedProblem({ docs, amounts, made, fill }: Standing, pin: TaskPin) {
  const { start, ...others } = pin;
  if (start !== undefined && Object.keys(others).length === 1) {
    const minute = made.site.clock.minuteOf(start);
    const tasks = made.problem.tasks.map((task) =>
      task.id === pin.task ? { ...task, pin: { ...task.pin, start: minute } } : task,
    );
    return { site: made.site, set: made.set, problem: { ...made.problem, tasks }, refused: [] };
  }
  const pins = [...amounts.service.pins.filter((each) => each.task !== pin.task), pin];
  const pinned: Amounts = { ...amounts, service: { ...amounts.service, pins } };
  const { kitchen, apart, earliest } = made.site;
  const again = problemFor(docs, pinned, { fillTarget: fill, kitchen, apart, earliest });
  const at = `${docs.pointer("services", amounts.service.id)}/pins/${pins.length - 1}/`;
  const refused = again.site.doubts.filter(({ path }) => path.startsWith(at)).map(({ what }) => what);
  return { ...again, refused };
}

/** A way of doing a task that the pin has taken away counts as one broken rule of that task. */
function checked(problem: Problem, schedule: Schedule): readonly Violation[] {
  const gone = problem.tasks.filter((task, i) => !task.modes[schedule.placements[i]!.mode]);
  if (gone.length > 0)
    return gone.map((task) => ({ rule: "pin", tasks: [task.id], by: 1, unit: "count" as const }));
  return checkSchedule(problem, schedule);
}

const harm = ({ violations }: Tried): number =>
  violations.reduce((sum, v) => sum + 1 + v.by / (v.by + 60), 0);

function movedTasks({ made, plan }: Standing, schedule: Schedule, first: string): Moved[] {
  const old = new Map(made.solved.schedule!.placements.map((p) => [p.task, p]));
  const names = new Map(plan.tasks.map((task) => [task.id, task.name]));
  const { clock } = made.site;
  return schedule.placements
    .flatMap((p): Moved[] => {
      const was = old.get(p.task)!;
      const others =
        p.persons.length !== was.persons.length || p.persons.some((id) => !was.persons.includes(id));
      const stays = p.start === was.start && p.end === was.end && !others;
      if (stays && p.task !== first) return [];
      return [
        {
          ...{ task: p.task, name: names.get(p.task) ?? "", beforeMin: was.start },
          ...{ startMin: p.start, endMin: p.end, hands: p.persons, others },
          ...{ before: clock.textOf(was.start), start: clock.textOf(p.start) },
        },
      ];
    })
    .sort((a, b) => Number(b.task === first) - Number(a.task === first) || a.startMin - b.startMin);
}
