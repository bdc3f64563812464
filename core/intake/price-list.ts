import {
  divide,
  fromNumber,
  multiply,
  type Rational,
  rational,
  toDecimal,
  toNumber,
} from "../numerics/rational.ts";
import { convertExactly } from "../quantity/convert.ts";
import { pieceName, type Unit, unitFacts } from "../quantity/index.ts";
import { type CsvRow, csvRows, MOST_ROWS } from "./csv.ts";
import {
  findHeadings,
  type Headings,
  headingOf,
  isColumn,
  isHeading,
  isTotals,
  PRICE_COLUMNS,
  type PriceColumn,
  preference,
} from "./headings.ts";
import { type Pack, readPack } from "./pack.ts";
import { readPrice } from "./price.ts";
import type { ReadProblem } from "./types.ts";

/** Where a column was found, and how sure that is; a person confirms. */
export interface ColumnGuess {
  readonly index: number;
  readonly heading: string;
  /** From 0 to 1; 1 when a person said so. */
  readonly confidence: number;
}

/** One offer as read. */
export interface PriceRow {
  readonly at: number;
  readonly code: string;
  readonly description: string;
  /** The heading over the row ("DAIRY"), "" without. */
  readonly group: string;
  /** The pack as written. */
  readonly packText: string;
  readonly innerPerPack: number;
  readonly inner: { readonly value: number; readonly unit: Unit };
  readonly catchWeight: boolean;
  /** Of one pack (at its nominal weight), a decimal text. */
  readonly price: string;
  /** As the list writes it, "" when it names none. */
  readonly currency: string;
  /** Price of a kilogram, a litre or a piece, as purchased. */
  readonly unitPrice: { readonly value: number; readonly per: Unit };
  readonly doubt: string;
}

export interface PriceList {
  /** null where no column was found. */
  readonly columns: Readonly<Record<PriceColumn, ColumnGuess | null>>;
  /** The words over each column, "" without. */
  readonly headings: readonly string[];
  readonly rows: readonly PriceRow[];
  /** Rows that could not be read, by line; the rest is kept. */
  readonly problems: readonly ReadProblem[];
}

const LARGE: Readonly<Record<string, Unit>> = { mass: "kg", volume: "L", count: "piece" };
const MOST_PROBLEMS = 1_000;
const WHOLE_PRICE = /\b(?:case|pack|colis|gebinde|cassa|caja)\b/i;
const PER_IN_HEADING = /(?:\/|\b(?:per|pro|par|al|por|je)\b)\s?(kg|kilo|lb|l|ltr|litre|liter|100 ?g)\b/iu;
/** Rows looked at to guess a column by its content. */
const SAMPLE = 60;

/**
 * Reads a supplier's price list from CSV. Columns are guessed from headings, then from content, each with a
 * confidence; `confirmed` (column -> place, from 0; null for none) overrides. A row that cannot be read is named by
 * its line and the rest is kept. Never throws; linear in the text.
 */
export function readPriceList(text: string, confirmed: Confirmed = {}): PriceList {
  const { rows, cut } = csvRows(text);
  return readPriceRows(rows, cut, confirmed);
}

/** What a person said of the columns: a place from 0, or null for a column that is not there. */
export type Confirmed = Partial<Record<PriceColumn, number | null>>;

/** The same for rows that are already parted into cells, such as those of a sheet. */
export function readPriceRows(rows: readonly CsvRow[], cut: boolean, confirmed: Confirmed = {}): PriceList {
  const heads = findHeadings(rows);
  const columns = guessColumns(rows, heads, confirmed);
  const width = Math.min(60, Math.max(0, ...rows.slice(0, SAMPLE).map((row) => row.cells.length)));
  const headings = Array.from({ length: width }, (_, i) => headingOf(heads, i));
  const problems: ReadProblem[] = [];
  const found: PriceRow[] = [];
  const tell = (at: number, what: string, mend: string) => {
    if (problems.length < MOST_PROBLEMS) problems.push({ at, what, mend });
  };
  if (cut) tell(rows.at(-1)!.at, `more than ${MOST_ROWS} rows: the rest is not read`, "part the file");
  if (!columns.price || !columns.description) {
    tell(
      rows[0]?.at ?? 1,
      `no column of ${columns.price ? "descriptions" : "prices"} was found`,
      "say which column it is",
    );
    return { columns, headings, rows: found, problems };
  }
  let group = "";
  for (const row of rows.slice(heads.last + 1)) {
    const filled = row.cells.filter((cell) => cell !== "");
    if (filled.length === 1 && readPrice(filled[0]!) === undefined && filled[0]!.length < 80) {
      group = filled[0]!;
      continue;
    }
    if (isHeading(row)) continue;
    if (isTotals(row)) {
      tell(
        row.at,
        `"${row.raw.trim().slice(0, 40)}" adds other rows up: it is not an offer`,
        "nothing, if so",
      );
      continue;
    }
    const read = readRow(row, columns, group);
    if (Array.isArray(read)) tell(row.at, ...read);
    else found.push(read);
  }
  return { columns, headings, rows: found, problems };
}

/** Why a row was not read, and how to mend it. */
type Unread = [what: string, mend: string];

/** The offer of a row, or why there is none. */
function readRow(row: CsvRow, columns: PriceList["columns"], group: string): PriceRow | Unread {
  const cell = (column: PriceColumn) => row.cells[columns[column]?.index ?? -1] ?? "";
  const description = cell("description");
  if (description === "") return ["no description", "name what is sold in this row"];
  const said = cell("price");
  const price = readPrice(said);
  if (!price)
    return said === ""
      ? ["no price", "give a price or take the row out"]
      : [`the price "${said.slice(0, 40)}" is no number`, "write it as 12.50"];
  if (price.value.n < 0n)
    return [`the price ${said} is negative`, "give a price of 0 or more; credits do not belong in a list"];
  const packText = [cell("pack"), cell("size")].filter(Boolean).join(" x ");
  const doubts = price.doubt ? [price.doubt] : [];
  // A pack may stand in the description's end: "Butter 82 % 20x250g".
  const within = packText === "" ? packIn(description) : undefined;
  let pack =
    packText === "" ? within?.pack : (readPack(packText) ?? readPack(`${cell("pack")} ${cell("size")}`));
  const heading = columns.price?.heading ?? "";
  const measure = price.per ?? PER_IN_HEADING.exec(heading)?.[1];
  // Under "case price" the column of units says how the single one is sold, not what this price is of.
  const unit = pack && WHOLE_PRICE.test(heading) ? "" : cell("per");
  const per = readPack(unit) ?? (measure ? readPack(measure) : undefined);
  if (!pack && !per)
    return [
      `the pack "${(packText || description).slice(0, 60)}" could not be read`,
      "write it as 6x500g, 12 ea or per kg",
    ];
  if (!pack && packText !== "") doubts.push(`the pack "${packText}" could not be read`);
  if (within) doubts.push(`the pack is read from the description: ${within.text}`);
  let packPrice = price.value;
  let catchWeight = pack?.catchWeight ?? false;
  if (per?.perMeasure) {
    // Sold by weight: the price is of a measure, the pack's weight is nominal.
    catchWeight = catchWeight || unitFacts(per.inner.unit).dimension === "mass";
    if (!pack || pack.perMeasure) pack = per;
    else {
      const size = packSize(pack, per.inner.unit);
      if (!size)
        return [
          `a price per ${per.inner.unit} for a pack in ${pack.inner.unit}`,
          "give both in one kind of measure",
        ];
      packPrice = multiply(packPrice, divide(size, fromNumber(per.inner.value)));
    }
  }
  if (!pack) pack = per!;
  if (pack.doubt) doubts.push(pack.doubt);
  const kind = unitFacts(pack.inner.unit).dimension;
  const large = pieceName(pack.inner.unit) ? pack.inner.unit : LARGE[kind];
  const size = large ? packSize(pack, large) : undefined;
  if (!large || !size || size.n === 0n)
    return [`the pack "${packText}" has no size that is bought`, "give mass, volume or count"];
  const value = toNumber(divide(packPrice, size));
  return {
    ...{
      at: row.at,
      code: cell("code"),
      description,
      group,
      packText: packText || within?.text || cell("per"),
    },
    ...{ innerPerPack: pack.innerPerPack, inner: pack.inner, catchWeight },
    ...{
      price: decimal(packPrice),
      currency: price.currency || currencyIn(columns.price?.heading ?? ""),
      unitPrice: { value, per: large },
      doubt: doubts.join("; "),
    },
  };
}

const currencyIn = (heading: string) =>
  /\b(?:EUR|USD|GBP|CHF)\b|[€$£]/i.exec(heading)?.[0].toUpperCase() ?? "";
const decimal = (value: Rational) => toDecimal(value, 6, "half-even").replace(/(\.\d\d\d*?)0+$/, "$1");

function packSize(pack: Pack, unit: Unit): Rational | undefined {
  const whole = multiply(fromNumber(pack.inner.value), rational(pack.innerPerPack));
  const same = convertExactly(whole, pack.inner.unit, unit);
  return same.ok ? same.value : undefined;
}

/** A pack at the end of a description, with a measure: "6 x 1 L", "2.5 kg". */
function packIn(description: string): { pack: Pack; text: string } | undefined {
  const words = description.slice(-80).split(/\s+/);
  for (let from = Math.max(0, words.length - 4); from < words.length; from++) {
    const text = words.slice(from).join(" ");
    const pack = /^[\d(#]/.test(text) ? readPack(text) : undefined;
    if (pack && pack.inner.unit !== "piece") return { pack, text };
  }
  return undefined;
}

function guessColumns(
  rows: readonly CsvRow[],
  heads: Headings,
  confirmed: Confirmed,
): Record<PriceColumn, ColumnGuess | null> {
  const top = heads.last;
  const found: Record<PriceColumn, ColumnGuess | null> = {
    ...{ code: null, description: null, pack: null, size: null, per: null, price: null },
  };
  const taken = new Set<number>();
  const put = (column: PriceColumn, index: number, confidence: number) => {
    found[column] = { index, heading: headingOf(heads, index), confidence };
    taken.add(index);
  };
  const open = (column: PriceColumn) => found[column] === null && confirmed[column] !== null;
  for (const column of PRICE_COLUMNS) {
    const said = confirmed[column];
    if (typeof said === "number") put(column, said, 1);
  }
  // "Item" may be the code or the description: the surer columns choose first.
  for (const column of ["price", "description", "pack", "size", "per", "code"] as const) {
    if (!open(column)) continue;
    const hits = heads.over.flatMap((_, i) => (!taken.has(i) && isColumn(heads, column, i) ? [i] : []));
    const worth = (i: number) => fits(rows, top, column, i) + preference(heads, column, i);
    const best = hits.sort((a, b) => worth(b) - worth(a))[0];
    // Two columns under such a heading are less sure than one.
    if (best !== undefined) put(column, best, hits.length === 1 ? 0.95 : 0.7);
  }
  const width = Math.max(0, ...rows.slice(0, SAMPLE).map((row) => Math.min(row.cells.length, 60)));
  for (const column of ["price", "pack", "description", "code"] as const) {
    if (!open(column)) continue;
    const ranked = Array.from({ length: width }, (_, i) => ({
      i,
      fit: taken.has(i) ? 0 : fits(rows, top, column, i),
    })).sort((a, b) => b.fit - a.fit);
    const first = ranked[0];
    if (first && first.fit >= 0.5) put(column, first.i, Math.round(first.fit * 75) / 100);
  }
  return found;
}

/** The share of the sampled rows whose cell looks like this column's. */
function fits(rows: readonly CsvRow[], top: number, column: PriceColumn, index: number): number {
  const cells = rows
    .slice(top + 1, top + 1 + SAMPLE)
    .filter((row) => row.cells.filter(Boolean).length > 1)
    .map((row) => row.cells[index] ?? "");
  if (cells.length === 0) return 0;
  const judge: Record<PriceColumn, (cell: string) => number | boolean> = {
    price: (cell) => priceLike(cell),
    pack: (cell) => /\d/.test(cell) && /\p{L}|#|[x/×]/u.test(cell) && readPack(cell) !== undefined,
    size: (cell) => readPack(cell) !== undefined,
    per: (cell) => readPack(cell)?.perMeasure === true || /^(?:ea|each|case|cs|kg|lb)$/i.test(cell),
    description: (cell) => /\p{L}{3,}/u.test(cell) && cell.length >= 4 && readPack(cell) === undefined,
    code: (cell) => /^[A-Z0-9][A-Z0-9./-]{2,15}$/i.test(cell) && /\d/.test(cell) && !/[.,]\d{2}$/.test(cell),
  };
  return cells.reduce((sum, cell) => sum + Number(judge[column](cell)), 0) / cells.length;
}

/** Cents or a currency make a price; a workbook drops noughts at the end, and whole numbers may count or name. */
function priceLike(cell: string): number {
  if (readPrice(cell) === undefined) return 0;
  return /[.,]\d{2}\b|[€$£]/.test(cell) ? 1 : /[.,]\d\b/.test(cell) ? 0.8 : 0.3;
}
