import type { Conflict, Problem, Result as Solved, Violation } from "../schedule/problem.ts";
import { benchOf, type Contacts, contactsOf } from "./contacts.ts";
import { type Breach, grouped } from "./grouped.ts";
import { nameOf } from "./names.ts";
import type { Broken } from "./plan-types.ts";
import { ROOM_STEPS } from "./problem.ts";
import type { Site } from "./site.ts";
import type { LinkRule, Task, TaskSet } from "./tasks.ts";

/** What the plan breaks: what no plan here could keep, and what the schedule does not keep (README, P17). */
export function brokenOf(site: Site, set: TaskSet, problem: Problem, solved: Solved): Broken[] {
  const tasks = new Map(set.tasks.map((task) => [task.id, task]));
  const name = (id: string) => {
    const task = tasks.get(id);
    return task ? nameOf(site, task) : id;
  };
  // What waits in a store or is kept through a step is told by its tasks.
  const spans = new Map(
    (problem.spans ?? []).map((span) => [span.id, [...new Set([span.from.task, span.to.task])]]),
  );
  const told = (v: Violation): Violation => ({ ...v, tasks: v.tasks.flatMap((id) => spans.get(id) ?? [id]) });
  const lacks = mergedLacks(set);
  const contacts = contactsOf(site, set.tasks, problem.horizon + 1);
  // What would touch an allergen is counted apart: it is not lost among many breaches of another kind.
  const touched: Breach[] = [];
  const breaches: Breach[] = [];
  for (const v of solved.violations) {
    const touching = contact(site, contacts, tasks, name, told(v));
    if (touching) touched.push(touching);
    else breaches.push({ broken: violated(site, problem, tasks, name, told(v)), on: v.on });
  }
  const found = [...grouped(touched), ...grouped(breaches)];
  if (solved.schedule || found.length > 0) return [...lacks, ...found.sort(causesFirst)];
  // What the builders let through but no engine can read is a conflict of the documents.
  const refused = solved.refusals.map(
    (r): Broken => ({
      rule: "conflict",
      tasks: [],
      by: 1,
      unit: "",
      what: `${r.path}: ${r.what}; ${r.mend}`,
    }),
  );
  return [...lacks, ...refused, ...solved.conflicts.map((c) => conflict(name, c))];
}

/** What is lacking before what comes of it: hands and room, then moments missed, then waits; the largest first. */
function causesFirst(a: Broken, b: Broken): number {
  const rank = ({ rule }: Broken) => {
    const at = CAUSES.indexOf(rule);
    return at < 0 ? CAUSES.length : at;
  };
  return rank(a) - rank(b) || b.by - a.by;
}
const CAUSES = [
  "pin",
  "shift",
  "hands",
  "skill",
  "room",
  "temperature",
  "exclusive",
  "contact",
  "changeover",
  "course",
  "plate-up",
  "line-check",
];

/** One lack of many tasks is said once. */
function mergedLacks(set: TaskSet): Broken[] {
  const merged = new Map<string, Broken>();
  for (const lack of set.lacks) {
    const { rule, what, unit } = lack;
    const known = merged.get(what);
    const tasks = [...(known?.tasks ?? []), ...lack.tasks];
    merged.set(what, { rule, tasks, by: Math.max(known?.by ?? 0, lack.by), unit, what });
  }
  return [...merged.values()];
}

/** Two foods that must be kept apart for a guest, together at one place or one after the other uncleaned (P25). */
function contact(
  site: Site,
  contacts: Contacts,
  tasks: ReadonlyMap<string, Task>,
  name: (id: string) => string,
  v: Violation,
): Breach | undefined {
  if (v.rule !== "changeover" || v.on === undefined) return undefined;
  const there = v.tasks.flatMap((id) => tasks.get(id) ?? []);
  for (const [i, a] of there.entries())
    for (const b of there.slice(i + 1)) {
      if (contacts.gap(v.on, a, b) + contacts.gap(v.on, b, a) === 0) continue;
      const of = contacts.traces(a, b).join(", ");
      const what = `${labelOf(site, v.on) ?? v.on}: ${name(a.id)} and ${name(b.id)} must be kept apart for a guest (${of})`;
      const broken = { rule: "contact", tasks: [a.id, b.id], by: v.by, unit: v.unit, what };
      return { broken, on: `${v.on} ${of}` };
    }
  return undefined;
}

function violated(
  site: Site,
  problem: Problem,
  tasks: ReadonlyMap<string, Task>,
  name: (id: string) => string,
  v: Violation,
): Broken {
  const [a = "", b = ""] = v.tasks;
  const at = v.at === undefined ? "" : ` at ${site.clock.textOf(v.at)}`;
  const on = v.on === undefined ? "" : (labelOf(site, v.on) ?? v.on);
  const base = { tasks: v.tasks.filter((id) => tasks.has(id)), by: v.by, unit: v.unit as string };
  switch (v.rule) {
    case "least-lag":
    case "longest-wait": {
      const link = (v.on ?? "after") as LinkRule;
      // Begun too early is one thing, waited too long another, though one link says both.
      const rule = v.rule === "least-lag" && (link === "hold" || link === "life") ? "ready" : link;
      return { ...base, rule, what: lagWords(rule, v.rule, name(a), name(b), v.by) };
    }
    case "shift":
      return { ...base, rule: "shift", what: `${name(a)} runs ${v.by} min outside working time` };
    case "deadline":
      return { ...base, rule: "course", what: `${name(a)} ends ${v.by} min after its course's moment` };
    case "horizon":
      return { ...base, rule: "horizon", what: `${name(a)} ends ${v.by} min too late` };
    case "release":
    case "now": {
      if (tasks.get(a)?.kind === "plate")
        return { ...base, rule: "plate-up", what: `${name(a)} takes ${v.by} min more than its window` };
      return { ...base, rule: "delivery", what: `${name(a)} begins ${v.by} min before it can` };
    }
    case "capacity": {
      const resource = problem.resources?.find((r) => r.id === v.on);
      const unit = resource?.dimensions?.length === 1 ? resource.dimensions[0]! : "room";
      const by = v.by / ROOM_STEPS;
      return { ...base, rule: "room", by, unit, what: `${on} is over full by ${round(by)} ${unit}${at}` };
    }
    case "state":
      return {
        ...base,
        rule: "temperature",
        unit: "°C",
        what: `${on} is asked for two temperatures at once${at}`,
      };
    case "changeover":
      return {
        ...base,
        rule: "changeover",
        what: `${on} has ${v.by} min too little between ${name(a)} and ${name(b)}`,
      };
    case "exclusive":
      return {
        ...base,
        rule: "exclusive",
        what: `${on} holds ${name(a)} and ${name(b)} together for ${v.by} min`,
      };
    case "person-busy":
      return { ...base, rule: "hands", what: `${on} is asked for in two places for ${v.by} min${at}` };
    case "skill":
    case "person-choice":
    case "same-persons":
      return {
        ...base,
        rule: "skill",
        unit: "hands",
        what: `${name(a)} is given to hands that cannot do it`,
      };
    case "pin": {
      const by = v.unit === "min" ? ` by ${v.by} min` : "";
      return { ...base, rule: "pin", what: `${name(a)} is moved${by} from where it stands fixed` };
    }
    default:
      return { ...base, rule: v.rule, what: `${v.tasks.map(name).join(" and ")}: ${v.rule}${at}` };
  }
}

function lagWords(rule: LinkRule, kind: string, a: string, b: string, by: number): string {
  if (kind === "least-lag")
    switch (rule) {
      case "line-check":
        return `${a} is ready ${by} min after the line check begins`;
      case "thawed":
        return `${b} begins ${by} min before ${a.toLowerCase()} is done`;
      default:
        return `${b} begins ${by} min before ${a} allows`;
    }
  switch (rule) {
    case "hold":
    case "life":
      return `${a} waits ${by} min too long for ${b}`;
    case "follows":
      return `${a} stands ${by} min before ${b} begins`;
    default:
      return `${b} begins ${by} min too long after ${a}`;
  }
}

function conflict(name: (id: string) => string, c: Conflict): Broken {
  const names = c.tasks.slice(0, 3).map(name).join(", ");
  const more = c.tasks.length > 3 ? ` and ${c.tasks.length - 3} more` : "";
  return {
    rule: "conflict",
    tasks: c.tasks,
    by: c.by ?? 0,
    unit: "min",
    what: `${c.rules.join(", ")} cannot all be kept: ${names}${more}`,
  };
}

function labelOf(site: Site, id: string): string | undefined {
  const bench = site.kitchen.stations.find((station) => benchOf(station.id) === id)?.name;
  return bench ?? site.units.all.find((u) => u.id === id)?.name ?? site.crew.find((c) => c.id === id)?.name;
}

const round = (x: number) => Math.round(x * 100) / 100;
