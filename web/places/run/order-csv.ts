import Papa from "papaparse";
import type { SupplierOrder } from "../../../core/run/result.ts";

/** Heads of the columns, in the order of the rows. */
export interface OrderHeads {
  readonly supplier: string;
  readonly orderBy: string;
  readonly deliver: string;
  readonly offer: string;
  readonly what: string;
  readonly packs: string;
  readonly pack: string;
  readonly price: string;
  readonly sum: string;
}

/**
 * One order as comma-separated values (RFC 4180) for the supplier. A cell that a spreadsheet would take for a formula is
 * written as text.
 */
export function orderCsv(order: SupplierOrder, heads: OrderHeads, when: (clock: string) => string): string {
  const rows = order.lines.map((line) => ({
    [heads.supplier]: order.name,
    [heads.orderBy]: when(order.orderBy),
    [heads.deliver]: when(order.deliver),
    [heads.offer]: line.offer,
    [heads.what]: line.name,
    [heads.packs]: line.packs,
    [heads.pack]: line.pack,
    [heads.price]: line.price,
    [heads.sum]: line.total,
  }));
  return `${Papa.unparse(rows, { escapeFormulae: true, newline: "\r\n" })}\r\n`;
}

/** Hands a text to the reader as a file. */
export function saveFile(name: string, text: string): void {
  // The mark tells a spreadsheet that the letters are UTF-8.
  const address = URL.createObjectURL(new Blob(["\uFEFF", text], { type: "text/csv;charset=utf-8" }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
