import type { Need } from "../plating/schema.ts";
import { needsOfWord } from "./need-words.ts";
import type { GuestFlag, GuestGroup } from "./schema.ts";

/** One line of a list of guests as it was read; what could not be read stands in `asked`, never left out. */
export interface ReadGuest {
  /** From 1. */
  readonly line: number;
  readonly text: string;
  /** "4-2"; absent where the line names no seat. */
  readonly seat?: string;
  readonly count: number;
  readonly needs: readonly Need[];
  /** What a certifying person decides. */
  readonly flags: readonly GuestFlag[];
  /** Words that are no need the tool knows. */
  readonly asked: readonly string[];
  /** What was understood with a doubt, in words. */
  readonly doubts: readonly string[];
}

const SEAT =
  /^(?:t(?:able)?\.?\s*([\p{L}\p{N}]+)\s*[,/-]?\s*s(?:eat)?\.?\s*(\p{N}+)|(?:seat\s+)?(\p{N}+)\s*[-/.]\s*(\p{N}+)|seat\s+([\p{L}\p{N}]+))(?=$|[\s:,;])/iu;
const COUNT = /^(\d{1,4})\s*[x×]\s*/i;

/**
 * Reads a pasted list, a guest a line: "T4 S2 coeliac, no nuts", "4-2: vegan", "3 x vegetarian".
 * Empty lines are passed over; nothing else is.
 */
export function readGuestList(text: string): ReadGuest[] {
  return text.split(/\r\n|\r|\n/).flatMap((raw, i): ReadGuest[] => {
    const line = raw.normalize("NFC").trim();
    if (line === "") return [];
    let rest = line.replace(/^[-*•]\s+/, "");
    const first = COUNT.exec(rest);
    rest = first ? rest.slice(first[0].length) : rest;
    const seat = SEAT.exec(rest);
    rest = seat ? rest.slice(seat[0].length).replace(/^[\s:,;-]+/, "") : rest;
    const second = first ? null : COUNT.exec(rest);
    rest = second ? rest.slice(second[0].length) : rest;
    const needs = new Set<Need>();
    const flags = new Set<GuestFlag>();
    const asked: string[] = [];
    const doubts: string[] = [];
    for (const word of wordsOf(rest)) {
      const found = needsOfWord(word);
      for (const need of found?.needs ?? []) needs.add(need);
      if (found?.flag) flags.add(found.flag);
      if (!found) asked.push(word);
      else if (found.doubt !== undefined) doubts.push(found.doubt);
    }
    return [
      {
        ...{ line: i + 1, text: line, count: Number((first ?? second)?.[1] ?? 1) || 1 },
        ...(seat ? { seat: seatOf(seat) } : {}),
        ...{ needs: [...needs], flags: [...flags], asked, doubts },
      },
    ];
  });
}

const seatOf = ([, table, at, a, b, alone]: RegExpExecArray) =>
  table !== undefined ? `${table}-${at}` : a !== undefined ? `${a}-${b}` : alone!;

/** The parts of a line between commas, "and" and the like. */
function wordsOf(text: string): string[] {
  return text
    .split(/[,;+&|]|\band\b|\.(?=\s|$)|[()]/i)
    .map((word) => word.replace(/\s+/g, " ").trim())
    .filter((word) => word !== "");
}

/**
 * Guests of a list put to those there are: a seat that is there gets the new needs on top of its own, nobody loses one.
 * Lines that name neither a seat nor a need are guests too: they stand in the list to be looked at.
 */
export function withGuests(guests: readonly GuestGroup[], read: readonly ReadGuest[]): GuestGroup[] {
  const all = guests.map((group) => ({ ...group }));
  const taken = new Set(all.map((group) => group.id));
  for (const { seat, count, needs, flags } of read) {
    const at = seat === undefined ? -1 : all.findIndex((group) => sameSeat(group.seat, seat));
    if (at >= 0) {
      const group = all[at]!;
      all[at] = { ...group, ...both(group, needs, flags) };
      continue;
    }
    const id = freeId(taken, seat);
    taken.add(id);
    all.push({
      id,
      count,
      ...both({ needs: [] }, needs, flags),
      ...(seat === undefined ? {} : { seat }),
      choices: [],
    });
  }
  return all;
}

/** Needs and flags of before with the new ones; no list of flags where there are none. */
function both(
  before: Pick<GuestGroup, "needs" | "flags">,
  needs: readonly Need[],
  flags: readonly GuestFlag[],
): Pick<GuestGroup, "needs" | "flags"> {
  const all = [...new Set([...(before.flags ?? []), ...flags])];
  return {
    needs: [...new Set([...before.needs, ...needs])],
    ...(all.length > 0 ? { flags: all } : {}),
  };
}

const sameSeat = (a: string | undefined, b: string) => a?.trim().toLowerCase() === b.trim().toLowerCase();

function freeId(taken: ReadonlySet<string>, seat: string | undefined): string {
  const plain = (seat ?? "")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-|-$/g, "");
  const base = plain === "" ? "guest" : `seat-${plain}`;
  if (plain !== "" && !taken.has(base)) return base;
  for (let n = 1; ; n++) if (!taken.has(`${base}-${n}`)) return `${base}-${n}`;
}
