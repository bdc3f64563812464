import type { Conflict, Placement, Problem, Result as Solved, Violation } from "../schedule/problem.ts";
import { breachName } from "./breach-names.ts";
import { breach } from "./breach-words.ts";
import { benchOf, type Contacts, contactsOf } from "./contacts.ts";
import { type Breach, grouped } from "./grouped.ts";
import type { Broken } from "./plan-types.ts";
import type { Site } from "./site.ts";
import type { Task, TaskSet } from "./tasks.ts";

/** What the plan breaks: what no plan here could keep, and what the schedule does not keep (README, P17). */
export function brokenOf(site: Site, set: TaskSet, problem: Problem, solved: Solved): Broken[] {
  const tasks = new Map(set.tasks.map((task) => [task.id, task]));
  const placed = new Map((solved.schedule?.placements ?? []).map((p) => [p.task, p]));
  const name = (id: string) => {
    const task = tasks.get(id);
    return task ? breachName(site, task, placed.get(id)) : id;
  };
  // What waits in a store or is kept through a step is told by its tasks.
  const spans = new Map(
    (problem.spans ?? []).map((span) => [span.id, [...new Set([span.from.task, span.to.task])]]),
  );
  const all = (v: Violation) => v.tasks.flatMap((id) => spans.get(id) ?? [id]);
  const heads = (v: Violation) => v.tasks.map((id) => spans.get(id)?.[0] ?? id);
  const words = { site, problem, tasks, name, label: (id: string) => labelOf(site, id) };
  const lacks = mergedLacks(set);
  const contacts = contactsOf(site, set.tasks, problem.horizon + 1);
  // What would touch an allergen is counted apart: it is not lost among many breaches of another kind.
  const touched: Breach[] = [];
  const breaches: Breach[] = [];
  for (const v of solved.violations) {
    const touching = contact(site, contacts, tasks, name, { ...v, tasks: all(v) }, placed);
    if (touching) touched.push(touching);
    // Two temperatures at once are a breach of their own, whoever must be kept from what.
    if (!touching || v.rule === "state")
      breaches.push({ broken: breach(words, v, heads(v), all(v)), on: v.on });
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
  placed: ReadonlyMap<string, Placement>,
): Breach | undefined {
  if ((v.rule !== "changeover" && v.rule !== "state") || v.on === undefined) return undefined;
  const there = v.tasks.flatMap((id) => tasks.get(id) ?? []);
  for (const [i, a] of there.entries())
    for (const b of there.slice(i + 1)) {
      if (contacts.gap(v.on, a, b) + contacts.gap(v.on, b, a) === 0) continue;
      const of = contacts.traces(a, b).join(", ");
      const what = `${labelOf(site, v.on) ?? v.on}: ${name(a.id)} and ${name(b.id)} must be kept apart for a guest (${of})`;
      const [p, q] = [placed.get(a.id)!, placed.get(b.id)!];
      const together = Math.max(1, Math.min(p.end, q.end) - Math.max(p.start, q.start));
      const by = v.rule === "state" ? together : v.by;
      const broken = { rule: "contact", tasks: [a.id, b.id], by, unit: "min", what };
      return { broken, on: `${v.on} ${of}` };
    }
  return undefined;
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
