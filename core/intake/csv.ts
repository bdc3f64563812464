import Papa from "papaparse";

/** One row of a table, with the line of the source it starts on. */
export interface CsvRow {
  readonly at: number;
  /** The row as it stands. */
  readonly raw: string;
  readonly cells: readonly string[];
}

/** Rows that are read; the bound is told by the reader. */
export const MOST_ROWS = 50_000;

/** Cells of a row that are looked at. */
const MOST_CELLS = 100;

/** Parts a text into rows and cells (RFC 4180 and its messy relatives): comma, semicolon, tab or bar. */
export function csvRows(text: string): { rows: CsvRow[]; cut: boolean } {
  const rows: CsvRow[] = [];
  let at = 1;
  let start = 0;
  let cut = false;
  Papa.parse<string[]>(text, {
    delimiter: delimiterOf(text),
    skipEmptyLines: false,
    step: ({ data, meta }, parser) => {
      const raw = text.slice(start, meta.cursor);
      if (rows.length >= MOST_ROWS) {
        cut = true;
        parser.abort();
        return;
      }
      const cells = data.slice(0, MOST_CELLS).map((cell) => cell.trim());
      if (cells.some((cell) => cell !== "")) rows.push({ at, raw: raw.replace(/[\r\n]+$/, ""), cells });
      at += newlines(raw);
      start = meta.cursor;
    },
  });
  return { rows, cut };
}

function newlines(text: string): number {
  let count = 0;
  for (let i = text.indexOf("\n"); i >= 0; i = text.indexOf("\n", i + 1)) count++;
  return count;
}

/** The mark that parts the first lines most evenly. */
export function delimiterOf(text: string): string {
  const lines = text
    .slice(0, 20_000)
    .split(/\r?\n/)
    .filter((line) => line.trim() !== "")
    .slice(0, 20);
  let best = { mark: ",", score: 0 };
  for (const mark of ["\t", ";", "|", ","]) {
    const counts = lines.map((line) => line.split(mark).length - 1);
    const used = counts.filter((count) => count > 0).length;
    const most = mode(counts.filter((count) => count > 0));
    const score = used === 0 ? 0 : (used + counts.filter((count) => count === most).length) / lines.length;
    if (score > best.score + 0.05) best = { mark, score };
  }
  return best.mark;
}

function mode(counts: readonly number[]): number {
  const tally = new Map<number, number>();
  for (const count of counts) tally.set(count, (tally.get(count) ?? 0) + 1);
  return [...tally].sort((a, b) => b[1] - a[1])[0]?.[0] ?? 0;
}

const LONGEST_HEADING = 60;
/** A heading of a column: small letters, no accents, no marks. */
export const columnWord = (cell: string) =>
  cell
    .slice(0, LONGEST_HEADING)
    .normalize("NFD")
    .replace(/[\u0300-\u036f]/g, "")
    .toLowerCase()
    .replace(/[^\p{L}\p{N}%/]+/gu, " ")
    .trim();
