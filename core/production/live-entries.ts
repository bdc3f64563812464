import type { Clock } from "./clock.ts";
import { LIVE_KINDS, type LiveBody, LiveBodySchema, type WrittenPlace } from "./live-schema.ts";

/** An entry of the log, as far as a plan cares. */
export interface LiveEntry {
  readonly id: string;
  /** ISO instant by the clock of the tablet that wrote it. */
  readonly at: string;
  readonly corrects?: string | undefined;
  readonly body: unknown;
}

/** Something in the log that could not be followed. */
export interface Unfollowed {
  readonly entry: string;
  readonly what: string;
  readonly mend: string;
}

/** What the marks say of one task, minutes from the horizon. */
export interface Mark {
  /** Begun then. */
  readonly start?: number;
  /** Over then. */
  readonly end?: number;
  /** Begun, and expected to end then. */
  readonly lateEnd?: number;
  /** Not begun, and not before then. */
  readonly notBefore?: number;
}

/** Other equipment for a task, spread over so many of its units. */
export interface Instead {
  readonly unit: string;
  readonly parts: number;
}

export interface Stretch {
  readonly entry: string;
  readonly id: string;
  readonly from: number;
  readonly to: number;
}

/** What the log says, in minutes from the horizon. */
export interface Told {
  readonly marks: ReadonlyMap<string, Mark>;
  readonly absences: readonly Stretch[];
  readonly closures: readonly Stretch[];
  /** By task the equipment it may use instead. */
  readonly instead: ReadonlyMap<string, Instead>;
  readonly places: ReadonlyMap<string, WrittenPlace>;
  /** Entries whose moves are written down already. */
  readonly answered: ReadonlySet<string>;
  /** Tasks back at an earlier place because what moved them was taken back: not before then. */
  readonly back: ReadonlyMap<string, number>;
  /** Entries that no longer count: corrected, or taken back by "undone". */
  readonly takenBack: readonly string[];
  readonly unfollowed: readonly Unfollowed[];
  /** The last entry that may move something. */
  readonly last?: string | undefined;
}

/** Names an entry may use. */
export interface Known {
  readonly tasks: ReadonlySet<string>;
  readonly persons: ReadonlySet<string>;
  /** Units and equipment by id. */
  readonly units: ReadonlySet<string>;
}

export interface ReadOptions {
  /** Minute of the run. */
  readonly now: number;
  readonly rehearsal: boolean;
}

interface Line {
  readonly id: string;
  readonly at: string;
  readonly turn: number | undefined;
  readonly when: number;
  readonly corrects: string | undefined;
  readonly body: LiveBody;
}

/** Clocks of tablets may differ so much before it is said, min. */
const APART = 2;

/**
 * Reads the log in the order in which its writers knew of each other's entries (README, L1 to L4). The same entries
 * in any order, some of them twice, say the same.
 */
export function readLive(
  entries: readonly LiveEntry[],
  clock: Clock,
  known: Known,
  options: ReadOptions,
): Told {
  const unfollowed: Unfollowed[] = [];
  const say = (entry: string, what: string, mend: string) => void unfollowed.push({ entry, what, mend });
  const lines = linesOf(entries, clock, options, say);
  return new Reading(lines, clock, known, say, unfollowed).told();
}

type Say = (entry: string, what: string, mend: string) => void;

function linesOf(entries: readonly LiveEntry[], clock: Clock, options: ReadOptions, say: Say): Line[] {
  const zero = Date.parse(clock.zonedOf(0).replace(/\[.*$/, ""));
  const read = new Map<string, Line>();
  // A fixed order first, so that of two different entries under one id always the same one counts.
  const fixed = [...entries].sort(
    (a, b) =>
      compare(a.at, b.at) || compare(a.id, b.id) || compare(JSON.stringify(a.body), JSON.stringify(b.body)),
  );
  for (const { id, at, corrects, body } of fixed) {
    const kind = (body as { kind?: unknown } | null)?.kind;
    if (read.has(id) || typeof kind !== "string" || !LIVE_KINDS.has(kind)) continue;
    const parsed = LiveBodySchema.safeParse(body);
    if (!parsed.success) {
      const [issue] = parsed.error.issues;
      say(
        id,
        `an entry "${kind}" cannot be read: ${issue?.path.join("/") ?? ""} ${issue?.message ?? ""}`,
        "write it down again",
      );
      continue;
    }
    if ((parsed.data.rehearsal === true) !== options.rehearsal) continue;
    const when =
      parsed.data.when === undefined
        ? Math.floor((Date.parse(at) - zero) / 60_000)
        : clock.minuteOf(parsed.data.when);
    if (!Number.isFinite(when) || when < 0) {
      say(id, `an entry "${kind}" is of a time before the run`, "write it down again on the day");
      continue;
    }
    if (when > options.now + APART)
      say(
        id,
        `"${kind}" is written down for ${clock.textOf(when)}, ${when - options.now} min from now: the clocks of two tablets differ`,
        "set the clocks of the tablets alike; until then it counts as now",
      );
    read.set(id, {
      ...{ id, at, corrects, body: parsed.data },
      turn: parsed.data.turn,
      when: Math.min(when, options.now),
    });
  }
  const sorted = [...read.values()].sort(
    (a, b) => (a.turn ?? 0) - (b.turn ?? 0) || compare(a.at, b.at) || compare(a.id, b.id),
  );
  const cleared = sorted.findLastIndex((line) => line.body.kind === "cleared");
  return sorted.slice(cleared + 1);
}

const compare = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);

class Reading {
  readonly #lines: readonly Line[];
  readonly #clock: Clock;
  readonly #known: Known;
  readonly #say: Say;
  readonly #unfollowed: readonly Unfollowed[];
  /** Entries taken back, and when. */
  readonly #gone = new Map<string, number>();
  readonly #marks = new Map<string, { line: Line; mark: Mark }[]>();

  constructor(
    lines: readonly Line[],
    clock: Clock,
    known: Known,
    say: Say,
    unfollowed: readonly Unfollowed[],
  ) {
    this.#lines = lines;
    this.#clock = clock;
    this.#known = known;
    this.#say = say;
    this.#unfollowed = unfollowed;
  }

  told(): Told {
    for (const line of this.#lines) if (line.corrects !== undefined) this.#gone.set(line.corrects, line.when);
    for (const line of this.#lines) if (!this.#gone.has(line.id)) this.#mark(line);
    const marks = new Map<string, Mark>();
    const broken = this.#brokenOff();
    for (const [task, list] of this.#marks) {
      const { mark = {}, line } = list.at(-1) ?? {};
      // What was broken off since ends by what was left of it then.
      const again = broken.get(task);
      const since = line !== undefined && again !== undefined && again > this.#lines.indexOf(line);
      const { lateEnd: _, ...rest } = mark;
      marks.set(task, since ? rest : mark);
    }
    const absences: Stretch[] = [];
    const closures: Stretch[] = [];
    const instead = new Map<string, Instead>();
    for (const { id, body } of this.#lines) {
      if (this.#gone.has(id)) continue;
      if (body.kind === "absent") this.#stretch(id, body, body.person, this.#known.persons, absences);
      if (body.kind === "closed") this.#stretch(id, body, body.unit, this.#known.units, closures);
      if (body.kind !== "instead") continue;
      for (const { tasks, unit, parts } of body.each)
        if (this.#named(id, unit, this.#known.units))
          for (const task of tasks)
            if (this.#named(id, task, this.#known.tasks)) instead.set(task, { unit, parts: parts ?? 1 });
    }
    const answered = new Set(
      this.#lines.flatMap((l) => (l.body.kind === "placed" ? (l.body.because ?? []) : [])),
    );
    const last = this.#lines.findLast(({ body }) => !["placed", "heard"].includes(body.kind))?.id;
    return {
      marks,
      absences,
      closures,
      instead,
      ...this.#places(),
      answered,
      takenBack: [...this.#gone.keys()],
      unfollowed: this.#unfollowed,
      last,
    };
  }

  /** By task the line that last told how it goes on after it was broken off. */
  #brokenOff(): Map<string, number> {
    const broken = new Map<string, number>();
    this.#lines.forEach(({ body }, k) => {
      if (body.kind !== "placed" || this.#gone.has(body.because ?? "")) return;
      for (const { task, again } of body.places) if (again) broken.set(task, k);
    });
    return broken;
  }

  /** Marks of a task are a pile: "undone" takes off the last. */
  #mark(line: Line): void {
    const { body, when } = line;
    if (!("task" in body) || !this.#named(line.id, body.task, this.#known.tasks)) return;
    const pile = this.#marks.get(body.task) ?? [];
    this.#marks.set(body.task, pile);
    const top = pile.at(-1);
    const now = top?.mark ?? {};
    const put = (mark: Mark) => void pile.push({ line, mark });
    switch (body.kind) {
      case "started":
        // Two tablets at once: over is over. Begun once more after that, it begins anew.
        if (now.end !== undefined && (line.turn ?? 0) > 0 && line.turn === top!.line.turn) return;
        if (now.start === undefined || now.end !== undefined) put({ start: when });
        return;
      case "done":
        if (now.end !== undefined) return;
        if (now.start !== undefined && when < now.start - APART)
          this.#say(
            line.id,
            `${body.task} is marked done at ${this.#clock.textOf(when)} and begun at ${this.#clock.textOf(now.start)}: the clocks of two tablets differ`,
            "set the clocks of the tablets alike; it counts as over when it began",
          );
        put({
          ...(now.start === undefined ? {} : { start: now.start }),
          end: Math.max(when, now.start ?? 0),
        });
        return;
      case "late": {
        const to = this.#clock.minuteOf(body.to);
        if (now.end !== undefined) return;
        if (body.edge === "end") put({ ...now, lateEnd: to });
        else if (now.start === undefined) put({ ...now, notBefore: to });
        return;
      }
      case "undone": {
        const taken = pile.pop();
        if (!taken) {
          this.#say(line.id, `${body.task} has no mark to take back`, "nothing is changed by it");
          return;
        }
        this.#gone.set(taken.line.id, when);
        // Who takes a beginning back says that it has not begun.
        const begun = taken.line.body.kind === "started";
        if (begun) {
          pile.length = 0;
          put({ notBefore: when });
        }
      }
    }
  }

  #named(entry: string, id: string, known: ReadonlySet<string>): boolean {
    if (known.has(id)) return true;
    this.#say(
      entry,
      `nothing in this plan is called "${id}"`,
      "if the book has changed since, mark what stands in the plan now; it is left out here",
    );
    return false;
  }

  #stretch(
    entry: string,
    body: { readonly from: string; readonly to?: string | undefined },
    id: string,
    known: ReadonlySet<string>,
    into: Stretch[],
  ): void {
    if (!this.#named(entry, id, known)) return;
    const from = Math.max(0, this.#clock.minuteOf(body.from));
    const to = body.to === undefined ? Number.POSITIVE_INFINITY : this.#clock.minuteOf(body.to);
    if (to > from) into.push({ entry, id, from, to });
    else
      this.#say(
        entry,
        `"${id}" is out from ${body.from} to ${body.to}`,
        "let it end after it begins; it is left out",
      );
  }

  /**
   * The last place of each task, without what was moved because of something taken back since: such a task is where
   * it was before, if that has not passed by.
   */
  #places(): Pick<Told, "places" | "back"> {
    const places = new Map<string, WrittenPlace>();
    const back = new Map<string, number>();
    for (const { body } of this.#lines) {
      if (body.kind !== "placed") continue;
      const gone = body.because === undefined ? undefined : this.#gone.get(body.because);
      for (const place of body.places) {
        if (gone !== undefined && this.#clock.minuteOf(place.start) >= gone) {
          back.set(place.task, gone);
          continue;
        }
        places.set(place.task, place);
        back.delete(place.task);
      }
    }
    return { places, back };
  }
}
