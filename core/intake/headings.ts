import { type CsvRow, columnWord } from "./csv.ts";

export const PRICE_COLUMNS = ["code", "description", "pack", "size", "per", "price"] as const;
export type PriceColumn = (typeof PRICE_COLUMNS)[number];

const HEADINGS: Readonly<Record<PriceColumn, RegExp>> = {
  code: /^(?:(?:item |product |article |art(?:ikel)? )?(?:code|no|nr|number|nummer|id|ref|reference)|sku|art|item|plu|codigo|codice|referencia)$/,
  description:
    /^(?:(?:item |product )?(?:description|name)|descriptions?|products?|article|artikel|bezeichnung|designation|libelle|produit|descripcion|producto|articulo|descrizione|prodotto|articolo|item|ware|desc)$/,
  pack: /^(?:pack|packs|pack ?size|(?:pack |case |per )?(?:count|units|quantity|qty|pieces)|units per (?:case|pack)|case|case ?size|packing|packaging|format|formato|conditionnement|colisage|gebinde|verpackung|vpe|confezione|envase|unit ?size|qty per (?:case|pack)|per case|anzahl|nombre|unidades|pezzi)$/,
  size: /^(?:(?:pack |case |unit |packing |packaging )?(?:size|inner|inner ?size|content|contents|net|weight|net weight|volume)|inhalt|poids|gewicht|peso|contenance|contenido|contenuto|each)$/,
  per: /^(?:per|unit|uom|u m|price unit|sold by|sell unit|unite|einheit|unidad|unita|me|pricing unit|price per|priced per)$/,
  price:
    /^(?:(?:net |case |pack |unit |list |your |new |sell )?prices?(?: (?:per )?(?:case|pack|unit|net))?(?: (?:gbp|eur|usd|chf|net|ex vat|excl vat))?|prix(?: ht| net| unitaire)?|preis(?: netto)?|netto(?:preis)?|precio(?: neto)?|prezzo(?: netto)?|cost|tarif|p u|pu|gbp|eur|usd|chf)$/,
};

/** Where the headings stand: the place of their last row in the rows, and the words over each column. */
export interface Headings {
  /** -1 without headings. */
  readonly last: number;
  /** Words over a column, the likeliest first; of two rows both together, the lower, the upper. */
  readonly over: readonly (readonly string[])[];
}

/** A heading as it is shown: all the words over a column. */
export const headingOf = ({ over }: Headings, index: number): string => over[index]?.[0] ?? "";

/** True when words over the column name it. */
export const isColumn = ({ over }: Headings, column: PriceColumn, index: number): boolean =>
  (over[index] ?? []).some((words) => HEADINGS[column].test(columnWord(words)));

/** Of two columns under one heading: the price of the whole pack, not of a kilogram; the count, before the size. */
const PREFERRED: Partial<Record<PriceColumn, RegExp>> = {
  price: /\b(?:case|pack|colis|gebinde|cassa|caja)\b/i,
  pack: /\b(?:count|units|qty|quantity|pieces|anzahl|nombre|unidades|pezzi|per case|case)\b/i,
};
const SECOND: Partial<Record<PriceColumn, RegExp>> = {
  price: /\/\s?\p{L}|\bper\s(?:kg|l|unit|ea)|\bold\b|\bunit\b|retail|rrp/iu,
};

/** How well a heading stands for a column among others that name it too: above 0 is better. */
export function preference(heads: Headings, column: PriceColumn, index: number): number {
  const words = headingOf(heads, index);
  // What the lower row says is nearer than what both stand under.
  const near = (heads.over[index] ?? []).slice(0, 2).some((one) => HEADINGS[column].test(columnWord(one)));
  return (
    (near ? 0.2 : 0) +
    (PREFERRED[column]?.test(words) ? (column === "pack" ? 2 : 0.3) : 0) -
    (SECOND[column]?.test(words) ? 0.3 : 0)
  );
}

/** True for a row of headings: two columns at least are named in it. */
export function isHeading(row: CsvRow): boolean {
  const named = PRICE_COLUMNS.filter((column) =>
    row.cells.some((cell) => HEADINGS[column].test(columnWord(cell))),
  );
  return named.length >= 2;
}

/** Finds the headings among the first rows, in one row or in two. */
export function findHeadings(rows: readonly CsvRow[]): Headings {
  const first = rows.slice(0, 30).findIndex(isHeading);
  if (first < 0) return { last: -1, over: [] };
  const [upper, lower] = [rows[first]!.cells, rows[first + 1]?.cells];
  if (!lower || !isSecond(rows[first + 1]!, upper)) return { last: first, over: upper.map((cell) => [cell]) };
  const over: string[][] = [];
  let above = "";
  for (let i = 0; i < Math.max(upper.length, lower.length); i++) {
    // What is merged sideways stands over the empty cells that follow it, where something is below them.
    const below = lower[i] ?? "";
    above = upper[i] || (below === "" ? "" : above);
    const both = below === above ? below : [above, below].filter(Boolean).join(" ");
    over.push([...new Set([both, below, above])].filter(Boolean));
  }
  return { last: first + 1, over };
}

/** A second row of headings: words only, some of them under a column that is named, none of them a price. */
function isSecond(row: CsvRow, upper: readonly string[]): boolean {
  const filled = row.cells.filter(Boolean);
  const named = PRICE_COLUMNS.some((column) =>
    row.cells.some((cell) => HEADINGS[column].test(columnWord(cell))),
  );
  const gaps = row.cells.some((cell, i) => cell !== "" && (upper[i] ?? "") === "");
  const unit = filled.some((cell) => /^\(?(?:kg|ea|eur|gbp|usd|chf|€|£|\$|l|per \p{L}+)\)?$/iu.test(cell));
  return (
    filled.length > 0 &&
    filled.length <= upper.length + 2 &&
    filled.every((cell) => !/\d/.test(cell) && cell.length < 40) &&
    (named || gaps || unit) &&
    // A heading of a group of goods stands alone in the first column.
    !(filled.length === 1 && row.cells[0] !== "" && !named)
  );
}

const TOTALS =
  /^(?:(?:sub|grand)[\s-]?)?(?:totals?|sum|summe|gesamt\p{L}*|zwischensumme|total (?:général|ht|ttc|general)|sous-total|suma|totale|subtotale|importe total|carried forward|übertrag|report)(?:\s*[:=]?)(?:\s+\S{0,20})?$/iu;

/** A row that adds others up. */
export const isTotals = (row: CsvRow): boolean =>
  row.cells.some((cell) => cell.length < 40 && TOTALS.test(cell));
