import { findConflict } from "../schedule/conflict.ts";
import type { ConflictPart, Conflict as Found, Problem } from "../schedule/problem.ts";
import type { Effort, Engine, MadePlan } from "./make-plan.ts";
import { minutesText, nameOf, roomText } from "./names.ts";
import type { Clash } from "./no-plan.ts";
import type { ConflictRule } from "./plan-types.ts";
import type { Site } from "./site.ts";
import type { Link, Task } from "./tasks.ts";
import { VESSELS } from "./units.ts";

/** A part of the plan that does not fit is looked for among so many tasks at most. */
const MOST_TASKS = 160;

/**
 * The rules that cannot all be kept, where the plan breaks something that is no plain lack (README, P24): with any
 * one of them left out, what they are about was planned. A part of the tasks that does not fit even alone is grown
 * from the foremost broken rule, by what follows what and by hands and room; the rules are taken from that part.
 * @returns undefined when none was found within the effort
 */
export function conflictOf(
  made: MadePlan,
  engine: Engine,
  effort: Pick<Effort, "seed" | "stop">,
): Clash | undefined {
  const part = unfitPart(made, engine, effort);
  if (!part) return undefined;
  const { seed, stop } = effort;
  const found = findConflict(part, { seed, schedules: TRIAL, ...(stop ? { stop } : {}) });
  return found?.irreducible ? { rules: inWords(made, found), found, part } : undefined;
}

/** Schedules for each trial: the parts are small. */
const TRIAL = 10;

/** The smallest part met that finds no plan alone. */
function unfitPart(
  made: MadePlan,
  engine: Engine,
  { seed, stop }: Pick<Effort, "seed" | "stop">,
): Problem | undefined {
  for (const broken of made.plan.broken.filter((each) => each.tasks.length > 0).slice(0, 3)) {
    let kept = new Set(broken.tasks);
    for (let round = 0; kept.size <= MOST_TASKS; round++) {
      if (stop?.()) return undefined;
      const part = onlyTasks(made.problem, kept);
      const { status } = engine(part, { seed, schedules: TRIAL, stop, relax: [] });
      if (status !== "feasible" && status !== "optimal") return part;
      const grown = grow(made, kept, round);
      if (grown.size === kept.size && round % 2 === 1) break;
      kept = grown;
    }
  }
  return undefined;
}

/** Those that follow or come before; every other time those beside them on the same hands or units. */
function grow({ problem, solved }: MadePlan, kept: ReadonlySet<string>, round: number): Set<string> {
  const next = new Set(kept);
  if (round % 2 === 0) {
    for (const { from, to } of problem.lags ?? []) {
      if (kept.has(from.task)) next.add(to.task);
      if (kept.has(to.task)) next.add(from.task);
    }
    return next;
  }
  const placed = solved.schedule?.placements ?? [];
  const inside = placed.filter((p) => kept.has(p.task));
  for (const p of placed)
    if (
      inside.some(
        (q) =>
          p.start < q.end &&
          q.start < p.end &&
          (p.persons.some((id) => q.persons.includes(id)) ||
            p.resources.some((id) => q.resources.includes(id))),
      )
    )
      next.add(p.task);
  return next;
}

function onlyTasks(problem: Problem, kept: ReadonlySet<string>): Problem {
  return {
    ...problem,
    tasks: problem.tasks.filter((task) => kept.has(task.id)),
    lags: (problem.lags ?? []).filter((lag) => kept.has(lag.from.task) && kept.has(lag.to.task)),
    spans: (problem.spans ?? []).filter((span) => kept.has(span.from.task) && kept.has(span.to.task)),
  };
}

/** Each rule of a conflict with the names of the documents, the telling ones first. */
function inWords({ site, set }: MadePlan, found: Found): ConflictRule[] {
  const tasks = new Map(set.tasks.map((task) => [task.id, task]));
  const rules = found.parts.map((part): ConflictRule & { plain: boolean } => ({
    rule: part.kind === "least" || part.kind === "most" ? (part.on ?? part.kind) : part.kind,
    tasks: part.tasks.length > 0 ? part.tasks : found.tasks,
    what: words(
      site,
      part,
      part.tasks.map((id) => tasks.get(id)!),
      linkOf(set.links, part),
      found.tasks.map((id) => tasks.get(id)!),
    ),
    plain: part.on === "follows" || part.on === "look-in" || (part.kind === "least" && part.on !== "after"),
  }));
  return rules.sort((a, b) => Number(a.plain) - Number(b.plain)).map(({ plain: _, ...rule }) => rule);
}

function linkOf(links: readonly Link[], { kind, tasks, on }: ConflictPart): Link | undefined {
  if (kind !== "least" && kind !== "most") return undefined;
  return links.find(
    (link) =>
      link.from.task === tasks[0] &&
      link.to.task === tasks[1] &&
      link.rule === on &&
      link[kind] !== undefined,
  );
}

const STATES = { hot: "hot ", cold: "cold ", frozen: "frozen ", ambient: "" } as const;

function words(
  site: Site,
  { kind, on }: ConflictPart,
  [task, other]: readonly Task[],
  link: Link | undefined,
  all: readonly Task[],
): string {
  const name = task ? nameOf(site, task) : "";
  const after = other ? nameOf(site, other) : "";
  const at = (minute: number | undefined) => (minute === undefined ? "" : site.clock.textOf(minute));
  switch (kind) {
    case "deadline":
      return `${name} has to be done at ${at(task?.deadline)}`;
    case "release":
      return `${name} may not begin before ${at(task?.release)}`;
    case "pin":
      return `${name} ${task?.kind === "milestone" ? "is" : "is pinned"} at ${at(task?.at)}`;
    case "least":
      if (link?.rule === "follows") return `the waiting of ${name} begins when its work ends`;
      return link?.least
        ? `${after} begins ${minutesText(link.least)} after ${name} at the earliest`
        : `${after} begins when ${name} is done`;
    case "most":
      if (link?.rule === "follows") return `the waiting of ${name} begins at once`;
      if (link?.rule === "hold" || link?.rule === "life")
        return `${name} keeps ${link.state ? STATES[link.state] : ""}${minutesText(link.most ?? 0)} at most until ${after}`;
      return `${after} begins ${minutesText(link?.most ?? 0)} after ${name} at most`;
    case "capacity":
      return roomWords(site, on!, all);
    case "hours": {
      const cook = site.crew.find((each) => each.id === on);
      const shifts = (cook?.shifts ?? []).map((s) => `${at(s.from)} to ${at(s.to)}`);
      return `${cook?.name ?? "somebody"} works ${shifts.join(", ")}`;
    }
    case "hands": {
      const able = site.crew
        .filter((cook) => on === "" || cook.skills.includes(on!))
        .map((cook) => cook.name);
      const skill = site.kitchen.skills.find((each) => each.id === on)?.name;
      return `${skill ? `the skill "${skill}"` : "the hands"}: ${able.join("; ") || "nobody"}`;
    }
    case "duration":
      return `${name} takes ${minutesText(Math.min(...(task?.ways ?? []).map((way) => way.minutes)))}`;
    case "horizon":
      return "the work ends with the last shift";
    case "now":
      return "no work lies before the first moment of the plan";
  }
}

/** "Kettle, 40 L has room for 40 litres: Simmer takes 29 litres for 13 h". */
function roomWords(site: Site, id: string, all: readonly Task[]): string {
  const unit = site.units.all.find((each) => each.id === id);
  const wants = all.flatMap((task) =>
    task.uses
      .filter((use) => use.units.includes(id))
      .map((use) => {
        const heat = use.setC === undefined ? "" : ` at ${use.setC} °C`;
        const room = use.space.map(({ unit: of, value }) => roomText(value, of)).join(", ");
        const minutes = Math.min(...task.ways.map((way) => way.minutes));
        return `${nameOf(site, task)} takes ${room}${heat} for ${minutesText(minutes)}`;
      }),
  );
  const room = unit?.equipment.capacity.map((c) => roomText(c.value, c.unit)).join(", ") ?? "";
  const days = (unit?.equipment.days ?? []).map((day) => `${day.from} to ${day.to}`).join(", ");
  const alone = unit && VESSELS.has(unit.equipment.kind) ? ", one preparation at a time" : "";
  return `${unit?.name ?? "it"} has room for ${room}${alone}${days && `, ${days}`}: ${[...new Set(wants)].slice(0, 4).join("; ")}`;
}
