import type { LearningBody } from "../../core/learning/schema.ts";
import type { LiveEntry } from "../../core/production/live-entries.ts";
import type { LiveBody, WrittenPlace } from "../../core/production/live-schema.ts";
import type { LotBody } from "../../core/safety/lots-schema.ts";

/**
 * One line of the log: something that happened, as it was written down. Never changed; a correction is a new
 * entry that names the first (A7).
 */
export interface Entry {
  /** Made here, so that an entry sent twice is one entry. */
  readonly id: string;
  readonly service: string;
  readonly kind: LiveBody["kind"] | "reading" | "note" | LearningBody["kind"] | LotBody["kind"];
  /** ISO instant at which it was written. */
  readonly at: string;
  readonly by?: string;
  /** Task of the plan, for the board. */
  readonly task?: string;
  /** Preparation and step of a control point, for a reading. */
  readonly preparation?: string;
  readonly step?: string;
  /** What was watched there, where a step has several points: "cook", "cool". */
  readonly act?: string;
  readonly value?: number;
  readonly unit?: string;
  readonly text?: string;
  /** Of the live board (core/production/live-schema.ts): moment of the run, what its writer had seen, whether rehearsed. */
  readonly when?: string;
  readonly turn?: number;
  readonly rehearsal?: true;
  readonly edge?: "start" | "end";
  readonly byMin?: number;
  readonly from?: string;
  readonly to?: string;
  readonly person?: string;
  readonly each?: Extract<LiveBody, { readonly kind: "instead" }>["each"];
  readonly because?: string;
  readonly places?: readonly WrittenPlace[];
  readonly of?: string;
  readonly station?: string;
  /** The entry this one corrects. */
  readonly corrects?: string;
  /** Why the server did not keep it; it stands on this tablet alone. */
  readonly refused?: string;
}

/** An entry as the server keeps it: what every entry has outside, what this kind of entry says in `body`. */
export interface Sent {
  readonly id: string;
  readonly service: string;
  readonly at: string;
  readonly by: string;
  readonly corrects?: string | undefined;
  readonly body: unknown;
}

const NOBODY = "someone";

export function toSent({ id, service, at, by, corrects, refused: _, ...body }: Entry): Sent {
  return { id, service, at, by: by ?? NOBODY, ...(corrects === undefined ? {} : { corrects }), body };
}

export function fromSent({ id, service, at, by, corrects, body }: Sent): Entry {
  return {
    ...(body as Pick<Entry, "kind">),
    id,
    service,
    at,
    ...(by === NOBODY ? {} : { by }),
    ...(corrects === undefined ? {} : { corrects }),
  };
}

/** An entry as the plan reads it. */
export function toLive({
  id,
  service: _,
  at,
  by: _by,
  corrects,
  refused: _refused,
  ...body
}: Entry): LiveEntry {
  return { id, at, corrects, body };
}

const MARKS: ReadonlySet<string> = new Set(["started", "done", "undone"]);

/** The last mark of each task that has one, of entries in order of writing. */
export function lastMarks(entries: readonly Entry[]): ReadonlyMap<string, Entry> {
  return new Map(
    entries.flatMap((entry): [string, Entry][] =>
      entry.task !== undefined && MARKS.has(entry.kind) ? [[entry.task, entry]] : [],
    ),
  );
}

/** What the last mark of a task makes of it. */
export function stateOf(mark: Entry | undefined): "open" | "started" | "done" {
  return mark?.kind === "done" ? "done" : mark?.kind === "started" ? "started" : "open";
}

/** A reading with the corrections that followed it, first value first. */
export interface Reading {
  readonly first: Entry;
  readonly corrections: readonly Entry[];
  /** What counts now. */
  readonly value: number | undefined;
}

/** Readings in order of writing, each with its corrections, however long the chain. */
export function readings(entries: readonly Entry[]): Reading[] {
  const firstOf = new Map<string, string>();
  for (const entry of entries)
    if (entry.corrects) firstOf.set(entry.id, firstOf.get(entry.corrects) ?? entry.corrects);
  return entries
    .filter((entry) => entry.kind === "reading" && !entry.corrects)
    .map((first) => {
      const corrections = entries.filter((entry) => firstOf.get(entry.id) === first.id);
      return { first, corrections, value: (corrections.at(-1) ?? first).value };
    });
}
