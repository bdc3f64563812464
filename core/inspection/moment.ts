import type { PlanTask } from "../run/result.ts";
import { named } from "./named.ts";
import type { Scope } from "./scope.ts";
import { shared } from "./spans.ts";
import type { Finding } from "./types.ts";

/** A person who is away or a unit that is out, minutes from the horizon; `toMin` infinite while nobody knows. */
export interface Missing {
  readonly id: string;
  readonly fromMin: number;
  readonly toMin: number;
}

/** What is known of a task that has begun or is over. */
export interface Known {
  readonly task: string;
  readonly status: "started" | "done";
  readonly startMin: number;
  readonly endMin: number;
  /** It was broken off, and goes on from this minute. */
  readonly againMin?: number | undefined;
}

/** A service in the middle of its day, as it was told. */
export interface Moment {
  readonly nowMin: number;
  readonly known: readonly Known[];
  readonly away: readonly Missing[];
  /** Units, or equipment with all its units. */
  readonly out: readonly Missing[];
  /** Tasks that somebody in charge lets use other equipment than their steps ask for. */
  readonly elsewhere: ReadonlySet<string>;
}

/** The service with what has happened: pinned as it was told, and no pin left on a moment that has gone by. */
export function scopeAt(scope: Scope, { known, nowMin }: Moment): Scope {
  const happened = new Set(known.map(({ task }) => task));
  const left = scope.service.pins.filter(
    (pin) => !happened.has(pin.task) && (pin.start === undefined || scope.minuteOf(pin.start) >= nowMin),
  );
  const pins = [...left, ...known.map(({ task, status }) => ({ task, status }))];
  const begun = new Map(known.map(({ task, startMin }) => [task, startMin]));
  return { ...scope, service: { ...scope.service, pins }, begun };
}

/** The plan's tasks as they hold hands and room from now on: what was broken off holds them from when it goes on. */
export function tasksAt(tasks: readonly PlanTask[], scope: Scope, { known }: Moment): PlanTask[] {
  const again = new Map(known.flatMap((k) => (k.againMin === undefined ? [] : [[k.task, k.againMin]])));
  return tasks.map((task) => {
    const startMin = again.get(task.id);
    return startMin === undefined ? task : { ...task, startMin, start: scope.textOf(startMin) };
  });
}

/** Look-ins of waitings that were broken off: when to look in is no longer written. */
export function looksOfBrokenOff({ known }: Moment): (task: string) => boolean {
  const waits = known.flatMap(({ task, againMin }) => (againMin === undefined ? [] : [task]));
  const heads = waits.map((id) => id.replace(/\/wait$/, "/look-"));
  return (task) => heads.some((head) => task.startsWith(head));
}

/** Judges the past against what was told, and that nothing that is to come is in the past or with what is not there. */
export function judgeMoment(tasks: readonly PlanTask[], moment: Moment): Finding[] {
  const found: Finding[] = [];
  const known = new Map(moment.known.map((each) => [each.task, each]));
  for (const task of tasks) {
    const say = (rule: string, by: number, what: string) => {
      if (by > 0) found.push({ rule, tasks: [task.id], by, unit: "min", what: `${named(task.id)} ${what}` });
    };
    const past = known.get(task.id);
    if (past) {
      say("past", Math.abs(task.startMin - past.startMin), "does not begin when it began");
      if (past.againMin === undefined)
        say("past", Math.abs(task.endMin - past.endMin), "does not end when it ended or is to end");
    } else say("now", moment.nowMin - task.startMin, "begins in the past");
    if (past && past.againMin === undefined) continue;
    const span = [past?.againMin ?? task.startMin, task.endMin] as const;
    for (const { id, fromMin, toMin } of moment.away)
      if (task.hands.includes(id))
        say("away", shared(span, [fromMin, toMin]), `is given to ${named(id, "person")}, who is away`);
    for (const { id, fromMin, toMin } of moment.out)
      if (task.equipment.some((each) => each.id === id || each.id.split("#")[0] === id))
        say("out", shared(span, [fromMin, toMin]), `stands on ${named(id, "unit")}, which is out`);
  }
  return found;
}
