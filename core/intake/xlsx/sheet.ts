import { type CsvRow, MOST_ROWS } from "../csv.ts";
import { attribute, letters, type Tag, tagsOf } from "./tags.ts";
import type { Shared } from "./workbook.ts";

/** Cells merged into one: rows from 1, columns from 0. */
export interface Merge {
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
}

export interface SheetRows {
  readonly rows: CsvRow[];
  readonly merges: readonly Merge[];
  /** More rows than are read. */
  readonly cut: boolean;
}

/** Columns that are looked at, and merges that are kept. */
const MOST_CELLS = 100;
const MOST_MERGES = 5_000;
/** Copies of merged texts that are made, so that merges over one another cannot multiply. */
const MOST_COPIES = 200_000;

/**
 * The rows of a sheet as texts; what is merged downwards stands in each of its rows, what is merged sideways in its
 * first cell alone. Never throws; linear in the sheet.
 */
export function readSheet(xml: string, shared: Shared): SheetRows {
  const cellsAt = new Map<number, string[]>();
  const merges: Merge[] = [];
  let row = 0;
  let column = -1;
  let cut = false;
  let cell: Tag | undefined;
  let open = -1;
  let value = "";
  for (const tag of tagsOf(xml)) {
    switch (tag.name) {
      case "row":
        if (tag.closing) break;
        row = Number(attribute(xml, tag, "r")) || row + 1;
        column = -1;
        if (cellsAt.size >= MOST_ROWS) cut = true;
        break;
      case "c":
        if (!tag.closing) {
          const at = attribute(xml, tag, "r");
          column = at === undefined ? column + 1 : columnOf(at);
          cell = tag;
          value = "";
        }
        if ((tag.closing || tag.empty) && cell) {
          const text = value === "" ? "" : textOf(value, xml, cell, shared);
          if (text !== "" && column < MOST_CELLS && !cut) put(cellsAt, row, column, text);
          cell = undefined;
        }
        break;
      case "v":
      case "t":
        if (!tag.closing && !tag.empty) open = tag.to;
        else if (tag.closing && open >= 0) {
          value += xml.slice(open, tag.from);
          open = -1;
        }
        break;
      case "mergeCell": {
        const [from, to] = (attribute(xml, tag, "ref") ?? "").split(":");
        if (from && to && merges.length < MOST_MERGES) {
          const [top, bottom] = [rowOf(from), rowOf(to)];
          if (bottom - top < MOST_ROWS)
            merges.push({ top, bottom, left: columnOf(from), right: columnOf(to) });
        }
        break;
      }
      default:
    }
  }
  let copies = MOST_COPIES;
  for (const { top, bottom, left } of merges) {
    const text = cellsAt.get(top)?.[left];
    for (let at = top + 1; text && at <= bottom && copies > 0; at++, copies--)
      if (cellsAt.has(at)) put(cellsAt, at, left, text);
  }
  const rows = [...cellsAt]
    .sort(([a], [b]) => a - b)
    .map(([at, cells]) => {
      const filled = Array.from(cells, (text) => text ?? "");
      return { at, cells: filled, raw: filled.filter(Boolean).join(" | ") };
    });
  return { rows, merges, cut };
}

function put(cellsAt: Map<number, string[]>, row: number, column: number, text: string): void {
  const cells = cellsAt.get(row);
  if (cells) cells[column] = text;
  else {
    const made: string[] = [];
    made[column] = text;
    cellsAt.set(row, made);
  }
}

/** The place of "AB12": letters to a column from 0; a bad reference stands beyond what is read. */
function columnOf(at: string): number {
  let column = 0;
  for (let i = 0; i < at.length && i < 4; i++) {
    const code = at.charCodeAt(i) & ~32;
    if (code < 65 || code > 90) break;
    column = column * 26 + (code - 64);
  }
  return column === 0 ? MOST_CELLS : column - 1;
}

const rowOf = (at: string) => Number(at.replace(/^[A-Z]+/i, "")) || 0;

function textOf(value: string, xml: string, cell: Tag, { strings, dates, percents }: Shared): string {
  const kind = attribute(xml, cell, "t") ?? "n";
  if (kind === "s") return (strings[Number(value)] ?? "").replace(/\s+/g, " ").trim();
  if (kind === "inlineStr" || kind === "str") return letters(value).replace(/\s+/g, " ").trim();
  if (kind === "b") return value === "1" ? "yes" : "no";
  // "#N/A", "#REF!": kept as written, so that the row is named.
  if (kind === "e" || kind === "d") return letters(value).trim();
  const number = Number(value);
  if (value.trim() === "" || !Number.isFinite(number)) return letters(value).trim();
  const style = Number(attribute(xml, cell, "s") ?? -1);
  if (dates.has(style)) return dayOf(number);
  // Binary fractions are written with their noise (12.300000000000001): ten digits hold any price.
  const plain = String(Number(number.toPrecision(10)));
  return percents.has(style) ? `${Number((number * 100).toPrecision(10))} %` : plain;
}

/** Day 1 is 1900-01-01 and a 29 February 1900 is counted that never was (ECMA-376 part 1, 18.17.4.1). */
function dayOf(serial: number): string {
  if (serial < 61 || serial > 2_958_465) return String(serial);
  return new Date(Date.UTC(1899, 11, 30) + Math.floor(serial) * 86_400_000).toISOString().slice(0, 10);
}
