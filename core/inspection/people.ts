import type { PlanTask } from "../run/result.ts";
import { named } from "./named.ts";
import type { Parts } from "./parts.ts";
import type { Scope } from "./scope.ts";
import { covered, type Span } from "./spans.ts";
import type { Finding } from "./types.ts";

type Person = Scope["kitchen"]["crew"][number];

/** Judges hands: how many, whose, with what skill, when they are there, and that nobody does two things at once. */
export function judgePeople(scope: Scope, parts: Parts, tasks: readonly PlanTask[]): Finding[] {
  const found: Finding[] = [];
  const crew = new Map(scope.kitchen.crew.map((person) => [person.id, person]));
  const looks = new Set<string>();
  const worked = new Map<string, Parts["loads"][number]>();
  for (const load of parts.loads) {
    if (load.work) worked.set(load.work.id, load);
    for (const look of load.looks) looks.add(look.id);
  }
  for (const task of tasks) {
    const say = (rule: string, by: number, unit: string, what: string) =>
      found.push({ rule, tasks: [task.id], by, unit, what: `${named(task.id)}: ${what}` });
    for (const id of task.hands)
      if (!crew.has(id)) say("hands", 1, "person", `there is no "${id}" in this kitchen`);
    if (new Set(task.hands).size < task.hands.length)
      say("hands", 1, "person", "one person stands there twice");
    const work = worked.get(task.id)?.step.work;
    const [least, most] = handsOf(task, work?.hands, looks);
    const hands = task.hands.length;
    if (hands < least || hands > most)
      say(
        "hands",
        hands < least ? least - hands : hands - most,
        "person",
        `${hands === 0 ? "nobody is" : hands === 1 ? "one is" : `${hands} are`} at it, and it asks for ${askedFor(least, most)}`,
      );
    for (const person of task.hands.flatMap((id) => crew.get(id) ?? [])) {
      const skill = skillFor(scope, task, work?.skill);
      if (skill !== undefined && !person.skills.includes(skill))
        say("skill", 1, "person", `${named(person.id, "person")} has not the skill ${named(skill, "skill")}`);
      const away = minutesAway(scope, person, task, work?.interruptible ?? false);
      if (away > 0)
        say("shift", away, "min", `${named(person.id, "person")} is not there for ${away} min of it`);
    }
  }
  for (const person of crew.keys()) found.push(...judgeBusy(person, tasks));
  return found;
}

const askedFor = (least: number, most: number) =>
  most === Infinity ? `${least} or more` : least === most ? `${least}` : `${least} to ${most}`;

function handsOf(
  task: PlanTask,
  hands: { readonly least: number; readonly most: number } | undefined,
  looks: ReadonlySet<string>,
): [number, number] {
  if (hands) return [hands.least, hands.most];
  if (looks.has(task.id)) return [1, 1];
  // Work that belongs to no step that could be judged is told elsewhere.
  if (task.kind === "work") return [0, Infinity];
  if (task.kind === "plate") return [1, Infinity];
  // The line check is somebody's work; other moments are no one's.
  if (task.kind === "milestone") return task.endMin > task.startMin ? [1, Infinity] : [0, Infinity];
  return [0, 0];
}

/** Skills "plating" and "lead" are asked for where somebody has them. */
function skillFor(scope: Scope, task: PlanTask, own: string | undefined): string | undefined {
  if (own !== undefined) return own;
  const wanted = task.kind === "plate" ? "plating" : task.kind === "milestone" ? "lead" : undefined;
  return scope.kitchen.crew.some((person) => wanted !== undefined && person.skills.includes(wanted))
    ? wanted
    : undefined;
}

/** Minutes of a task in which the person has no shift, or a break that the work cannot be interrupted for. */
function minutesAway(scope: Scope, person: Person, task: PlanTask, interruptible: boolean): number {
  const spanOf = (span: { readonly from: string; readonly to: string }): Span => [
    scope.minuteOf(span.from),
    scope.minuteOf(span.to),
  ];
  const { startMin, endMin } = task;
  const there = covered(person.shifts.map(spanOf), startMin, endMin);
  if (interruptible) return endMin - startMin - there;
  const rests = person.shifts.flatMap((shift) => shift.breaks.map(spanOf));
  return endMin - startMin - there + covered(rests, startMin, endMin);
}

function judgeBusy(person: string, tasks: readonly PlanTask[]): Finding[] {
  const found: Finding[] = [];
  const own = tasks.filter((task) => task.hands.includes(person));
  own.forEach((a, i) => {
    for (const b of own.slice(i + 1)) {
      const by = Math.min(a.endMin, b.endMin) - Math.max(a.startMin, b.startMin);
      if (by > 0)
        found.push({
          ...{ rule: "busy", tasks: [a.id, b.id], by, unit: "min" },
          what: `${named(person, "person")} is asked for in two places for ${by} min: ${named(a.id)} and ${named(b.id)}`,
        });
    }
  });
  return found;
}
