import Papa from "papaparse";
import { expect, test } from "vitest";
import type { SupplierOrder } from "../../../core/run/result.ts";
import { orderCsv } from "./order-csv.ts";

const heads = {
  ...{ supplier: "Supplier", orderBy: "Order by", deliver: "Delivered", offer: "Offer", what: "What" },
  ...{ packs: "Packs", pack: "Pack", price: "Price", sum: "Sum" },
};
const order = {
  ...{ supplier: "coast", name: 'Coast, "Butchers"', orderBy: "D-2 11:00", deliver: "D 08:00" },
  lines: [
    { offer: "c-rib", name: "=HYPERLINK(1)", packs: 2, pack: "5 kg", price: "60.00", total: "120.00" },
    { offer: "c-eel", name: "Eel, smoked", packs: 1, pack: "1 kg", price: "-4.00", total: "-4.00" },
  ],
} as unknown as SupplierOrder;

test("an order as a table reads back the same, and no cell is a formula", () => {
  const text = orderCsv(order, heads, (clock) => clock);
  const { data } = Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true });
  expect(data.map((row) => [row.Supplier, row.What, row.Packs, row.Sum])).toEqual([
    ['Coast, "Butchers"', "'=HYPERLINK(1)", "2", "120.00"],
    ['Coast, "Butchers"', "Eel, smoked", "1", "'-4.00"],
  ]);
  expect(text.split("\r\n")).toHaveLength(4);
});
