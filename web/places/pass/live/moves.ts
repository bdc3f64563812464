import type { WrittenPlace } from "../../../../core/production/live-schema.ts";
import type { Plan } from "../../../../core/run/result.ts";
import type { Entry } from "../../../offline/entry.ts";

/** One task that moved. */
export interface Move {
  readonly task: string;
  readonly before: WrittenPlace | undefined;
  readonly after: WrittenPlace;
}

/** What one event moved. */
export interface Moved {
  readonly id: string;
  readonly cause: Entry | undefined;
  readonly moves: readonly Move[];
  /** The cause was taken back: all of it is where it was before. */
  readonly back: boolean;
}

/**
 * What the log says has moved, newest first; a wait that goes along with its work is told with it. What moved because of
 * something taken back has gone back with it.
 */
export function movedBy(
  plan: Plan,
  entries: readonly Entry[],
  rehearsal: boolean,
  takenBack: readonly string[],
): Moved[] {
  const counted = entries
    .filter((entry) => (entry.rehearsal === true) === rehearsal)
    .toSorted((a, b) => (a.turn ?? 0) - (b.turn ?? 0) || (a.at < b.at ? -1 : 1));
  const list = counted.slice(counted.findLastIndex((entry) => entry.kind === "cleared") + 1);
  const gone = new Set([...takenBack, ...list.flatMap((entry) => entry.corrects ?? [])]);
  const byId = new Map(list.map((entry) => [entry.id, entry]));
  const places = new Map<string, WrittenPlace>(
    plan.tasks.map((task) => [
      task.id,
      {
        ...{ task: task.id, start: task.start, end: task.end, hands: [...task.hands] },
        units: [...new Set(task.equipment.map((each) => each.id))],
      },
    ]),
  );
  const moved: Moved[] = [];
  for (const entry of list) {
    if (entry.kind !== "placed") continue;
    const back = entry.because !== undefined && gone.has(entry.because);
    const moves = (entry.places ?? []).flatMap((after): Move[] => {
      const before = places.get(after.task);
      if (!back) places.set(after.task, after);
      return before && same(before, after) ? [] : [{ task: after.task, before, after }];
    });
    const ids = new Set(moves.map((move) => move.task));
    const cause = entry.because ? byId.get(entry.because) : undefined;
    // Who marks a task as begun or done need not be told that it moved there.
    const marked = cause?.kind === "started" || cause?.kind === "done" ? cause.task : undefined;
    const told = moves.filter(({ task }) => {
      const work = task.replace(/\/(wait|look-\d+)$/, "");
      return work !== marked && (work === task || !ids.has(work));
    });
    if (told.length > 0) moved.push({ id: entry.id, cause, moves: told, back });
  }
  return moved.reverse();
}

function same(a: WrittenPlace, b: WrittenPlace): boolean {
  const units = (p: WrittenPlace) => [...new Set(p.units)].sort().join(" ");
  const hands = (p: WrittenPlace) => [...p.hands].sort().join(" ");
  return (
    a.start === b.start &&
    a.end === b.end &&
    hands(a) === hands(b) &&
    units(a) === units(b) &&
    a.again?.at === b.again?.at
  );
}

/** Moves that a station has not said it has seen; and those it has, when they were taken back since. */
export function unseen(moved: readonly Moved[], entries: readonly Entry[], station: string): Moved[] {
  const heard = (id: string) =>
    entries.filter((e) => e.kind === "heard" && e.station === station && e.of === id).length;
  return moved.filter(({ id, back }) => heard(id) === (back ? 1 : 0));
}
