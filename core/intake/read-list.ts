import { csvRows } from "./csv.ts";
import { decodeText } from "./decode.ts";
import { type Confirmed, type PriceList, readPriceRows } from "./price-list.ts";
import type { ReadProblem } from "./types.ts";
import { isArchive } from "./xlsx/archive.ts";
import { type Merge, readSheet } from "./xlsx/sheet.ts";
import { openWorkbook } from "./xlsx/workbook.ts";

/** A sheet of the file, and how many offers stand in it. */
export interface ListSheet {
  readonly name: string;
  readonly hidden: boolean;
  readonly offers: number;
}

/** A price list file as read. */
export interface ListFile extends PriceList {
  readonly format: "csv" | "xlsx";
  /** All sheets of a workbook; none for CSV. */
  readonly sheets: readonly ListSheet[];
  /** The one that was read, "" for CSV. */
  readonly sheet: string;
}

/** Sheets of a workbook that are looked at. */
const MOST_SHEETS = 30;

/**
 * Reads a price list from the bytes of a CSV or XLSX file. Of several sheets the one with most offers is taken,
 * visible ones first, unless `sheet` names one; the others are told. Never throws.
 */
export async function readListFile(
  bytes: Uint8Array,
  { sheet, confirmed = {} }: { sheet?: string; confirmed?: Confirmed } = {},
): Promise<ListFile> {
  if (!isArchive(bytes)) {
    if (isOldWorkbook(bytes))
      return nothing("csv", [
        { at: 1, what: "this is a workbook of the old binary kind (XLS)", mend: "save it as XLSX or as CSV" },
      ]);
    const { text, problems } = decodeText(bytes);
    const { rows, cut } = csvRows(text);
    const list = readPriceRows(rows, cut, confirmed);
    return { ...list, problems: [...problems, ...list.problems], format: "csv", sheets: [], sheet: "" };
  }
  const book = await openWorkbook(bytes);
  if ("ok" in book) return nothing("xlsx", [{ at: 1, what: book.what, mend: book.mend }]);
  const read = book.sheets.slice(0, MOST_SHEETS).map((one) => {
    const { rows, merges, cut } = readSheet(one.xml, book.shared);
    const own = sheet === undefined || sheet === one.name ? confirmed : {};
    return { ...one, merges, list: readPriceRows(rows, cut, own) };
  });
  const best =
    read.find((one) => one.name === sheet) ??
    [...read].sort(
      (a, b) => Number(a.hidden) - Number(b.hidden) || b.list.rows.length - a.list.rows.length,
    )[0]!;
  const others: ReadProblem[] = read
    .filter((one) => one !== best && one.list.rows.length > 0)
    .map((one) => ({
      at: 1,
      what: `the sheet "${one.name}" holds ${one.list.rows.length} offers too${one.hidden ? " and is hidden" : ""}: not read`,
      mend: "choose that sheet to read it",
    }));
  if (book.sheets.length > MOST_SHEETS)
    others.push({ at: 1, what: `only the first ${MOST_SHEETS} sheets are looked at`, mend: "part the file" });
  return {
    ...best.list,
    problems: [...others, ...mergeProblems(best.merges, best.list), ...best.list.problems],
    ...{ format: "xlsx", sheet: best.name },
    sheets: read.map(({ name, hidden, list }) => ({ name, hidden, offers: list.rows.length })),
  };
}

/** Merges over several offers: each was given the value, which a person should see. */
function mergeProblems(merges: readonly Merge[], list: PriceList): ReadProblem[] {
  const lines = new Set(list.rows.map((row) => row.at));
  const names = new Map(
    Object.values(list.columns).flatMap((guess) => (guess ? [[guess.index, guess.heading]] : [])),
  );
  return merges.flatMap(({ top, bottom, left }) => {
    if (bottom === top || !names.has(left) || !lines.has(top)) return [];
    const what = `one cell${names.get(left) ? ` of "${names.get(left)}"` : ""} is merged over the rows ${top} to ${bottom}: each is given its value`;
    return [{ at: top, what, mend: "part the cells if they differ" }];
  });
}

const isOldWorkbook = (bytes: Uint8Array) =>
  bytes[0] === 0xd0 && bytes[1] === 0xcf && bytes[2] === 0x11 && bytes[3] === 0xe0;

function nothing(format: ListFile["format"], problems: ReadProblem[]): ListFile {
  const columns = { code: null, description: null, pack: null, size: null, per: null, price: null };
  return { format, sheets: [], sheet: "", columns, headings: [], rows: [], problems };
}
