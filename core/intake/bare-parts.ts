import { TO_TASTE } from "../quantity/read.ts";
import type { Row } from "./layout.ts";
import { SEASONING, splitNote } from "./split-note.ts";
import { META } from "./words.ts";

/** Lines with amounts that a bare heading has at least under itself, and the group before it at least in itself. */
const LEAST = 2;

/**
 * Rows that by the way of this text are headings of parts, though neither an empty row, a colon nor a known word says so:
 * a few words beginning large, without an amount, between lines that have one. Where the list itself opens with such a
 * heading, or where there are several and every other line has an amount or is left to the cook, a bare word is no line.
 * By the place of each row in the source.
 */
export function bareParts(rows: readonly Row[]): ReadonlySet<number> {
  const method = rows.findIndex((row) => row.section === "method");
  const list = rows.slice(0, method < 0 ? rows.length : method);
  const first = list.findIndex((row) => row.amount);
  const last = list.findLastIndex((row) => row.amount);
  if (first < 0) return new Set();
  const found = list.flatMap((row, i) =>
    i > first && i < last && looksBare(row) && leads(list, i) ? [i] : [],
  );
  const opened = first > 0 && looksBare(list[first - 1]!) && first > 1;
  const others = list.slice(first, last + 1).filter((row, i) => {
    const bare = !row.amount && !row.section && !row.numbered && !row.prose && !/[:：]$/u.test(row.body);
    return bare && !found.includes(i + first) && !leftToCook(row);
  });
  return new Set(opened || (others.length === 0 && found.length > 1) ? found.map((i) => list[i]!.at) : []);
}

const leftToCook = (row: Row) => SEASONING.test(row.body) || TO_TASTE.test(row.body) || forUse(row.body);
const forUse = (body: string) =>
  splitNote(body, false).notes.some((note) => /^(?:to|for|pour|para|per|zum|zur)\b/iu.test(note));

function looksBare(row: Row): boolean {
  return (
    !row.amount &&
    row.section === undefined &&
    !row.numbered &&
    !row.bulleted &&
    !row.prose &&
    row.words <= 4 &&
    /^\p{Lu}/u.test(row.body) &&
    !/[,(/.:;]|\d|\s[–—-]\s/u.test(row.body) &&
    !META.test(row.body) &&
    !leftToCook(row)
  );
}

/** Amounts stand close before it and close under it. */
const leads = (rows: readonly Row[], at: number) =>
  rows.slice(at + 1, at + 1 + LEAST).filter((row) => row.amount).length === LEAST &&
  rows.slice(Math.max(0, at - LEAST - 1), at).filter((row) => row.amount).length >= LEAST;
