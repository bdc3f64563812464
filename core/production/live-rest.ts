import type { Out, Place, Stand } from "./live-stand.ts";
import type { RoomNeed, Task } from "./tasks.ts";

/** A task broken off: somebody left, or its oven died. */
export interface Interruption {
  readonly stopped: number;
  /** What is left, min. */
  readonly minutes: number;
  readonly hands: number;
  readonly uses: readonly RoomNeed[];
  /** Persons and units that left it. */
  readonly by: readonly string[];
  /** When it goes on, where that is settled. */
  readonly again?: number;
}

const REST = "~rest";
export const restId = (task: string) => `${task}${REST}`;
export const originalId = (id: string) => (id.endsWith(REST) ? id.slice(0, -REST.length) : id);

interface Given {
  readonly places: ReadonlyMap<string, Place>;
  readonly stands: ReadonlyMap<string, Stand>;
  readonly away: readonly Out[];
  readonly closed: readonly Out[];
}

/**
 * What was broken off, by task (README, L8). What is marked done was not. A wait or work that had gone on elsewhere
 * already may be broken off again.
 */
export function interruptions(
  { places, stands, away, closed }: Given,
  tasks: readonly Task[],
): Map<string, Interruption> {
  const found = new Map<string, Interruption>();
  for (const task of tasks) {
    const stand = stands.get(task.id)!;
    const place = places.get(task.id);
    if (!place || stand.status === "open") continue;
    // What is marked done is over, whatever left it.
    if (stand.status === "done" && !stand.assumed) continue;
    const from = place.again?.at ?? stand.start;
    const outs = [
      ...away.filter((out) => place.hands.includes(out.id)),
      ...closed.filter((out) => place.units.includes(out.id)),
    ].filter((out) => out.from >= from && out.from < stand.end && !answered(task, place, out, closed));
    const stopped = Math.min(...outs.map((out) => out.from));
    const hands = place.hands.length;
    if (outs.length > 0)
      found.set(task.id, {
        stopped,
        minutes: stand.end - stopped,
        hands,
        uses: task.uses,
        by: outs.filter((out) => out.from === stopped).map((out) => out.id),
      });
    else if (place.again && stand.status !== "done")
      found.set(task.id, {
        stopped: place.again.stopped,
        minutes: Math.max(1, stand.end - place.again.at),
        hands,
        uses: task.uses,
        by: [],
        again: place.again.at,
      });
  }
  return found;
}

/** Whether it goes on already after that, with nothing there that could have taken the place of what left it. */
function answered(task: Task, { again }: Place, out: Out, closed: readonly Out[]): boolean {
  if (again === undefined || out.from !== again.stopped) return false;
  const shut = (id: string) => closed.some((c) => c.id === id && c.from <= again.at && again.at < c.to);
  return task.uses.every((use) => !use.units.includes(out.id) || use.units.every(shut));
}
