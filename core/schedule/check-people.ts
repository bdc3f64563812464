import { common, minutesIn, shiftsOf, workOf } from "./calendar.ts";
import type { Mode, Person, Placement, Problem, Schedule, Task, Violation } from "./problem.ts";

/** Who works on what: number, skill, shift, working time, one task at a time, the same persons. */
export function checkPeople(problem: Problem, schedule: Schedule, found: Violation[]): void {
  const persons = new Map((problem.persons ?? []).map((p) => [p.id, p]));
  const busy = new Map<string, Placement[]>();
  const teams = new Map<string, { task: string; who: Set<string> }[]>();
  problem.tasks.forEach((task, i) => {
    const p = schedule.placements[i]!;
    const mode = task.modes[p.mode]!;
    checkChoice(task, mode, p, persons, found);
    let next = 0;
    for (const need of mode.people ?? []) {
      if (need.same !== undefined)
        push(teams, need.same, { task: task.id, who: new Set(p.persons.slice(next, next + need.count)) });
      next += need.count;
    }
    if (task.status === "done") return;
    if (task.pin?.end === undefined) checkWork(task, mode, p, persons, found);
    if (p.end > p.start)
      p.persons.forEach((id, k) => {
        if (p.persons.indexOf(id) === k) push(busy, id, p);
      });
  });
  for (const [id, list] of busy) checkBusy(id, list, found);
  for (const [name, list] of teams)
    for (const a of list)
      for (const b of list) {
        if (a === b || a.who.size > b.who.size || (a.who.size === b.who.size && a.task >= b.task)) continue;
        const strangers = [...a.who].filter((id) => !b.who.has(id)).length;
        if (strangers > 0)
          found.push({
            rule: "same-persons",
            tasks: [a.task, b.task],
            by: strangers,
            unit: "count",
            on: name,
          });
      }
}

function push<V>(map: Map<string, V[]>, key: string, value: V): void {
  const list = map.get(key);
  if (list) list.push(value);
  else map.set(key, [value]);
}

function checkChoice(
  task: Task,
  mode: Mode,
  p: Placement,
  persons: ReadonlyMap<string, Person>,
  found: Violation[],
): void {
  const heads = (mode.people ?? []).reduce((sum, need) => sum + need.count, 0);
  const distinct = p.persons.filter((id, k) => persons.has(id) && p.persons.indexOf(id) === k).length;
  const wrong = Math.abs(heads - p.persons.length) + (p.persons.length - distinct);
  if (wrong > 0) found.push({ rule: "person-choice", tasks: [task.id], by: wrong, unit: "count" });
  let next = 0;
  for (const need of mode.people ?? [])
    for (let k = 0; k < need.count; k++) {
      const person = persons.get(p.persons[next++] ?? "");
      if (!person) continue;
      if (need.skill !== undefined && !person.skills.includes(need.skill))
        found.push({ rule: "skill", tasks: [task.id], by: 1, unit: "count", on: person.id });
      if (need.among && !need.among.includes(person.id))
        found.push({ rule: "person-choice", tasks: [task.id], by: 1, unit: "count", on: person.id });
    }
}

/**
 * The time from start to end against the mode's duration. Working minutes are those in which all its people
 * work; minutes short are overtime (rule "shift"), minutes too many are a wrong duration.
 */
function checkWork(
  task: Task,
  mode: Mode,
  p: Placement,
  persons: ReadonlyMap<string, Person>,
  found: Violation[],
): void {
  const elapsed = p.end - p.start;
  const add = (rule: "duration" | "shift", by: number) => {
    if (by > 0) found.push({ rule, tasks: [task.id], by, unit: "min", at: p.start });
  };
  const team = p.persons.map((id) => persons.get(id)).filter((q) => q !== undefined);
  if (team.length === 0 || mode.duration === 0) {
    add("duration", Math.abs(elapsed - mode.duration));
    return;
  }
  const works = team.map(workOf).reduce(common);
  const worked = minutesIn(works, p.start, p.end);
  const interrupt = mode.interrupt ?? "no";
  if (interrupt === "no") {
    add("duration", Math.abs(elapsed - mode.duration));
    add("shift", elapsed - worked);
    return;
  }
  add("duration", Math.max(mode.duration - elapsed, worked - mode.duration));
  const overtime = Math.min(elapsed, mode.duration) - worked;
  // Breaks may interrupt; the time between shifts may only where the mode says so.
  const away =
    interrupt === "shifts" ? 0 : elapsed - minutesIn(team.map(shiftsOf).reduce(common), p.start, p.end);
  add("shift", Math.max(overtime, away));
}

function checkBusy(person: string, list: Placement[], found: Violation[]): void {
  const sorted = list.toSorted((a, b) => a.start - b.start);
  for (let i = 0; i < sorted.length; i++)
    for (let j = i + 1; j < sorted.length && sorted[j]!.start < sorted[i]!.end; j++) {
      const by = Math.min(sorted[i]!.end, sorted[j]!.end) - sorted[j]!.start;
      const tasks = [sorted[i]!.task, sorted[j]!.task];
      found.push({ rule: "person-busy", tasks, by, unit: "min", on: person, at: sorted[j]!.start });
    }
}
