import type { Told } from "./live-entries.ts";
import type { Link, Task, TaskSet } from "./tasks.ts";

/** Where a task stands in the plan, minutes from the horizon. */
export interface Place {
  readonly start: number;
  readonly end: number;
  readonly hands: readonly string[];
  /** By the task's uses of equipment. */
  readonly units: readonly string[];
  /** It was broken off at `stopped` and goes on at `at`. */
  readonly again?: { readonly stopped: number; readonly at: number };
}

/** A window in which a person or a unit is out. */
export interface Out {
  readonly id: string;
  readonly from: number;
  /** Infinite while nobody knows. */
  readonly to: number;
}

/** How a task stands now. */
export interface Stand {
  readonly status: "open" | "started" | "done";
  readonly start: number;
  readonly end: number;
  /** Nobody has marked it: taken as gone by the plan. */
  readonly assumed?: true;
  /** Open: not before this minute. */
  readonly release?: number;
}

export interface StandsOf {
  readonly set: TaskSet;
  readonly places: ReadonlyMap<string, Place>;
  readonly told: Told;
  readonly now: number;
  /** Where work of a task begun at `start` by its hands ends. */
  readonly endOf: (task: Task, place: Place, start: number) => number;
  /** Absences and closures by person or unit. */
  readonly out: (id: string, at: number) => boolean;
}

/**
 * What has begun and what is over at minute `now` (README, L5, L6): by the marks; a wait by the work before it; what
 * nobody marked by the plan, as long as nothing that is known speaks against it.
 */
export function standsOf(given: StandsOf): Map<string, Stand> {
  const { set, places, told, now } = given;
  const tasks = new Map(set.tasks.map((task) => [task.id, task]));
  const before = new Map<string, Link[]>();
  for (const link of set.links) {
    if (link.least === undefined) continue;
    const list = before.get(link.to.task);
    if (list) list.push(link);
    else before.set(link.to.task, [link]);
  }
  const busy = busyByMarks(given);
  const known = new Map<string, Stand>();
  const open = new Set<string>();
  const stand = (id: string): Stand => {
    const found = known.get(id);
    if (found) return found;
    const place = places.get(id);
    // A circle of links, or a task nobody has placed yet: open.
    if (!place || open.has(id))
      return { status: "open", start: Number.POSITIVE_INFINITY, end: Number.POSITIVE_INFINITY };
    open.add(id);
    const made = make(tasks.get(id)!, place);
    known.set(id, made);
    return made;
  };
  const make = (task: Task, place: Place): Stand => {
    const mark = told.marks.get(task.id) ?? {};
    const lasts = place.end - place.start;
    if (mark.end !== undefined) {
      const start = mark.start ?? (place.start <= mark.end ? place.start : Math.max(0, mark.end - lasts));
      return { status: "done", start, end: mark.end };
    }
    if (mark.start !== undefined) {
      const end = mark.lateEnd ?? (place.again ? place.end : given.endOf(task, place, mark.start));
      // Work that nobody marked done may be done any minute; a wait is over by itself.
      if (end > now || (place.hands.length > 0 && mark.start < now))
        return { status: "started", start: mark.start, end: Math.max(end, now, mark.start) };
      return { status: "done", start: mark.start, end, assumed: true };
    }
    const links = before.get(task.id) ?? [];
    const work = links.find((link) => link.rule === "follows");
    const worked = work && stand(work.from.task);
    if (worked?.status === "done" && worked.end <= now && !place.again) {
      const end = Math.max(mark.lateEnd ?? worked.end + lasts, worked.end);
      return { status: end <= now ? "done" : "started", start: worked.end, end, assumed: true };
    }
    // What is out of the oven is not looked into any more.
    const looked = links.find((link) => link.rule === "look-in");
    const waited = looked && stand(looked.from.task);
    if (waited?.status === "done" && waited.end <= now && place.start >= waited.end)
      return { status: "done", start: waited.end, end: waited.end, assumed: true };
    const release = Math.max(mark.notBefore ?? 0, backAt(told, task.id, place));
    // What was broken off has begun, be it this minute.
    const begun = place.again
      ? place.start <= now
      : place.start < now && release <= place.start && plausible(task, place);
    if (!begun)
      return { status: "open", start: place.start, end: place.end, ...(release > 0 ? { release } : {}) };
    const end = Math.max(mark.lateEnd ?? place.end, place.start);
    return { status: end <= now ? "done" : "started", start: place.start, end, assumed: true };
  };
  const plausible = (task: Task, place: Place): boolean => {
    for (const link of before.get(task.id) ?? []) {
      const from = stand(link.from.task);
      if (from.status === "open" && link.from.at === "end") return false;
      const moment = from[link.from.at] + link.least!;
      if (moment > place[link.to.at]) return false;
      // What is under way may end later than it should.
      if (link.from.at === "end" && from.status === "started" && from.end > place[link.to.at]) return false;
    }
    if (place.hands.some((id) => given.out(id, place.start))) return false;
    if (place.units.some((id) => given.out(id, place.start))) return false;
    return !place.hands.some((id) => busy(id, task.id, place.start, Math.min(place.end, now)));
  };
  for (const task of set.tasks) stand(task.id);
  return known;
}

function backAt(told: Told, id: string, place: Place): number {
  const from = told.back.get(id);
  return from !== undefined && place.start < from ? from : 0;
}

/** Whether a person is known to be at something else: by marks alone. */
function busyByMarks({ set, places, told, now, endOf }: StandsOf) {
  const by = new Map<string, { id: string; from: number; to: number }[]>();
  for (const task of set.tasks) {
    const mark = told.marks.get(task.id);
    const place = places.get(task.id);
    if (mark?.start === undefined || !place) continue;
    const to = mark.end ?? Math.max(now, mark.lateEnd ?? endOf(task, place, mark.start));
    for (const id of place.hands) {
      const list = by.get(id) ?? [];
      list.push({ id: task.id, from: mark.start, to });
      by.set(id, list);
    }
  }
  return (person: string, task: string, from: number, to: number) =>
    (by.get(person) ?? []).some((span) => span.id !== task && span.from < to && span.to > from);
}
