import { expect, test } from "vitest";
import { parseBook } from "../../../core/book/index.ts";
import { demoBook } from "../../../data/demo/book.ts";
import { readSupplier, type SupplierDraft, supplierDraft } from "./supplier-draft.ts";

const demo = parseBook(demoBook);
if (!demo.ok) throw new Error("the demo is no book");
const { suppliers, kitchens } = demo.value;
const there = { suppliers, kitchens };
const filled: SupplierDraft = {
  ...supplierDraft(undefined, there, kitchens[1]),
  ...{ name: " Brackenrigg Fruit ", days: ["sat", "tue"], cutoff: "9.30", minimum: "45,50", charge: "6" },
};
const read = (draft: SupplierDraft, of = undefined as (typeof suppliers)[number] | undefined) => {
  const got = readSupplier(draft, there, of);
  if ("wrong" in got) throw new Error(JSON.stringify(got.wrong));
  return got;
};
const wrongOf = (more: Partial<SupplierDraft>) => {
  const got = readSupplier({ ...filled, ...more }, there);
  return "wrong" in got ? Object.entries(got.wrong).map(([field, { key }]) => `${field} ${key}`) : [];
};

test("A3 a new supplier is read as typed, and the kitchen in hand buys there", () => {
  const { supplier, kitchens: changed } = read(filled);
  expect(supplier).toEqual({
    ...{ id: "brackenrigg-fruit", name: "Brackenrigg Fruit", currency: kitchens[1]!.currency },
    ...{ minimumOrder: "45.50", deliveryCharge: "6", deliveryDays: ["tue", "sat"], arrivesBy: "08:00" },
    ...{ cutoff: { daysBefore: 1, clock: "09:30" }, offers: [] },
  });
  expect(changed.map((one) => one.id)).toEqual([kitchens[1]!.id]);
  expect(changed[0]!.suppliers).toEqual([...kitchens[1]!.suppliers, "brackenrigg-fruit"]);
});

test("A3 each wrong field is told apart, and nothing is read", () => {
  expect(wrongOf({ name: "  " })).toEqual(["name supplier.name.empty"]);
  expect(wrongOf({ name: suppliers[0]!.name.toUpperCase() })).toEqual(["name supplier.name.taken"]);
  expect(wrongOf({ days: [] })).toEqual(["days supplier.days.none"]);
  expect(wrongOf({ cutoff: "", arrivesBy: "25:00" })).toEqual([
    "cutoff supplier.clock.wrong",
    "arrivesBy supplier.clock.wrong",
  ]);
  // A thousand two hundred and fifty, or one and a quarter?
  expect(wrongOf({ minimum: "1,250", charge: "-3" })).toEqual([
    "minimum supplier.money.wrong",
    "charge supplier.money.wrong",
  ]);
  expect(wrongOf({ currency: "euro" })).toEqual(["currency supplier.currency.wrong"]);
  expect(wrongOf({ currency: "XTS" })).toEqual(["currency supplier.currency.other"]);
  expect(wrongOf({ currency: "XTS", kitchens: [] })).toEqual([]);
});

test("a known supplier keeps its id and offers; a kitchen left off no longer buys there", () => {
  const of = suppliers[0]!;
  const draft = supplierDraft(of, there);
  expect(read(draft, of).kitchens).toEqual([]);
  const { supplier, kitchens: changed } = read({ ...draft, name: "Another name", kitchens: [] }, of);
  expect([supplier.id, supplier.name, supplier.offers]).toEqual([of.id, "Another name", of.offers]);
  expect(changed.length).toBeGreaterThan(0);
  for (const one of changed) expect(one.suppliers).not.toContain(of.id);
});

test("a name without letters an id can have, and one whose id is taken, get an id of their own", () => {
  expect(read({ ...filled, name: "中村" }).supplier.id).toBe("supplier");
  const like = suppliers[0]!;
  expect(read({ ...filled, name: `${like.id.replaceAll("-", " ")}!` }).supplier.id).toBe(`${like.id}-2`);
});
