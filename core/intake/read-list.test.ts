import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { IngredientSchema } from "../pantry/schema.ts";
import { OfferSchema } from "../purchasing/schema.ts";
import { compareRow, missingOffers } from "./compare.ts";
import { PantryIndex } from "./link.ts";
import { takeList } from "./offers.ts";
import { readListFile } from "./read-list.ts";
import { tieList } from "./take-file.ts";
import { archive, workbook } from "./testing/workbook.ts";

const FEBRUARY = workbook([
  { name: "Terms", rows: [["Orders by 16:00"]] },
  {
    name: "February",
    rows: [
      ["Fen & Moor, February"],
      ["No", "Article", "Pack", null, "Price", null],
      [null, null, "Count", "Size", "Case", "EUR/kg"],
      ["DAIRY"],
      ["D1", "Butter unsalted 82 %", 20, "250 g", 41.2, 8.24],
      ["D2", "Cream 36 %", 6, "1 L", -3, null],
      ["ROOTS"],
      ["R1", "Shallots", 1, "5 kg", 14],
      ["R2", null, 1, "10 kg", 26.5],
      ["R3", "Moon root", 1, "5 kg", 9.9],
      ["Total", null, null, null, 91.6],
    ],
    merges: ["A1:F1", "C2:D2", "E2:F2", "A2:A3", "B2:B3", "A4:F4", "A7:F7", "B8:B9"],
  },
  {
    name: "January",
    rows: [
      ["Article", "Pack", "Price"],
      ["Butter", "20x250g", 38],
    ],
    hidden: true,
  },
]);

describe("IN17 workbooks", () => {
  test("two rows of headings, merged cells, groups, totals and other sheets", async () => {
    const list = await readListFile(FEBRUARY);
    expect(list).toMatchObject({ format: "xlsx", sheet: "February" });
    expect(list.sheets.map((one) => [one.name, one.hidden, one.offers])).toEqual([
      ["Terms", false, 0],
      ["February", false, 4],
      ["January", true, 1],
    ]);
    expect(list.headings.slice(2, 6)).toEqual(["Pack Count", "Pack Size", "Price Case", "Price EUR/kg"]);
    expect(
      list.rows.map((row) => [row.at, row.group, row.code, row.description, row.packText, row.price]),
    ).toEqual([
      [5, "DAIRY", "D1", "Butter unsalted 82 %", "20 x 250 g", "41.20"],
      [8, "ROOTS", "R1", "Shallots", "1 x 5 kg", "14.00"],
      [9, "ROOTS", "R2", "Shallots", "1 x 10 kg", "26.50"],
      [10, "ROOTS", "R3", "Moon root", "1 x 5 kg", "9.90"],
    ]);
    expect(list.rows[0]!.unitPrice).toEqual({ value: 8.24, per: "kg" });
    const told = list.problems.map((one) => `${one.at} ${one.what}`).join("\n");
    expect(told).toMatch(/"January" holds 1 offers too and is hidden/);
    expect(told).toMatch(/8 one cell of "Article" is merged over the rows 8 to 9/);
    expect(told).toMatch(/6 the price -3 is negative/);
    expect(told).toMatch(/11 "Total \| 91.6" adds other rows up/);
  });
  test("another sheet and other columns, when a person says so", async () => {
    const list = await readListFile(FEBRUARY, { sheet: "January" });
    expect(list.rows.map((row) => row.price)).toEqual(["38.00"]);
    const perKg = await readListFile(FEBRUARY, { confirmed: { price: 5 } });
    // A price per kilogram is of the pack by its weight.
    expect(perKg.rows[0]).toMatchObject({ price: "41.20", unitPrice: { value: 8.24 } });
  });
  test("what grows beyond its bound is given up, whatever size it declares", async () => {
    const sheet = new Uint8Array(130 * 1024 * 1024).fill(32);
    const book = { "xl/workbook.xml": '<workbook><sheets><sheet name="a" r:id="r"/></sheets></workbook>' };
    const bytes = archive({ ...book, "xl/worksheets/sheet1.xml": sheet }, 1000);
    expect(bytes.length).toBeLessThan(1_000_000);
    const { rows, problems } = await readListFile(bytes);
    expect(rows).toEqual([]);
    expect(problems[0]!.what).toMatch(/sheet1.xml unpacks to more than 120 MB/);
  });
  test("damaged, foreign and hostile files are told and never throw", async () => {
    const told = async (bytes: Uint8Array) => (await readListFile(bytes)).problems[0]?.what;
    expect(await told(FEBRUARY.slice(0, 900))).toMatch(/damaged/);
    expect(await told(archive({ "word/document.xml": "<d/>" }))).toMatch(/no XLSX workbook/);
    expect(await told(new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 1, 2]))).toMatch(/old binary kind/);
    const part = fc.constantFrom(
      "<c",
      "<v>",
      "</v>",
      "<row r='9'>",
      "</c>",
      "<mergeCell ref='A1:B9'/>",
      "&#0;",
      "<![CDATA[",
      ">",
      "9",
      '"',
      "<c r='ZZ1' t='s'>",
      "<!--",
    );
    await fc.assert(
      fc.asyncProperty(fc.array(part, { maxLength: 40 }), async (parts) => {
        const bytes = archive({
          "xl/workbook.xml": '<workbook><sheets><sheet name="a" r:id="r"/></sheets></workbook>',
          "xl/worksheets/sheet1.xml": parts.join(""),
        });
        await readListFile(bytes);
      }),
      { seed: 20261128, numRuns: 200 },
    );
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 0, max: FEBRUARY.length - 1 }),
        fc.integer({ min: 0, max: 255 }),
        async (at, byte) => {
          await readListFile(FEBRUARY.with(at, byte));
        },
      ),
      { seed: 20261128, numRuns: 150 },
    );
  });
});

const source = { doc: "test", kind: "memory" as const };
const food = (id: string, name: string, more: object = {}) =>
  IngredientSchema.parse({
    ...{ id, name, allergens: { status: "known" }, origin: ["plant"], storage: { state: "cold", days: 5 } },
    ...more,
  });
const pantry = [
  food("butter", "Butter"),
  food("shallot", "Shallot", {
    cuts: [
      { id: "peeled", name: "peeled", trimYield: 0.8, source },
      {
        id: "trim-kept",
        name: "peeled, trim kept",
        trimYield: 0.8,
        usableTrim: { share: 0.1, valuePerKg: "2.00" },
        source,
      },
    ],
  }),
];
const offer = (id: string, ingredient: string, price: string, more: object = {}) =>
  OfferSchema.parse({ id, ingredient, price, innerPerPack: 1, inner: { value: 5, unit: "kg" }, ...more });
const side = (offers: ReturnType<typeof offer>[], cut?: string) => ({
  ...{ index: new PantryIndex(pantry), pantry: new Map(pantry.map((one) => [one.id, one])) },
  ...{ offers, from: "2027-02-01", cutOf: () => cut, currency: "EUR" },
});

describe("IN18 a list beside the book", () => {
  test("the usable kilogram is price over pack over trim yield; the change in per cent", async () => {
    const list = await readListFile(FEBRUARY);
    const { lines, doubts } = tieList(list.rows, side([offer("s", "shallot", "12.50")], "peeled"));
    const shallot = lines[1]!;
    expect(shallot.tie).toMatchObject({ ingredient: "shallot", confidence: 1 });
    // By hand: 14 / 5 kg / 0.8 = 3.50; before 12.50 / 5 / 0.8 = 3.125.
    expect(shallot.compared!.usable!.perKg).toBeCloseTo(3.5, 12);
    expect(shallot.compared!.oldUsable!.perKg).toBeCloseTo(3.125, 12);
    expect(shallot.compared!.changePercent).toBeCloseTo(12, 10);
    expect(doubts.map((one) => one.ask)).toEqual([expect.stringMatching(/^Moon root: not in the pantry/)]);
    // Trim that is used is credited: (2.80 - 0.1 x 2.00) / 0.8 = 3.25.
    const kept = tieList(list.rows, side([], "trim-kept")).lines[1]!;
    expect(kept.compared!.usable!.perKg).toBeCloseTo(3.25, 12);
  });
  test("a large change, a foreign currency and breaks that end are asked", () => {
    const row = { at: 3, code: "", description: "Butter", group: "", packText: "5 kg", innerPerPack: 1 };
    const rows = [
      {
        ...row,
        inner: { value: 5, unit: "kg" as const },
        catchWeight: false,
        price: "90",
        currency: "$",
        unitPrice: { value: 18, per: "kg" as const },
        doubt: "",
      },
    ];
    const old = offer("b", "butter", "40", { breaks: [{ fromPacks: 4, price: "38" }] });
    const { doubts } = tieList(rows, side([old]));
    expect(doubts.map((one) => one.ask).join("\n")).toMatch(
      /in \$, the kitchen counts in EUR[\s\S]*by 125 %[\s\S]*breaks/,
    );
  });
  test("the supplier's own number finds the article again, also in another pack; its history goes on", async () => {
    const { rows } = await readListFile(FEBRUARY);
    const tied = [
      { row: rows[1]!, ingredient: "shallot" },
      { row: rows[2]!, ingredient: "shallot" },
    ];
    const first = takeList([], tied, "2027-02-01");
    expect(first.map((one) => [one.code, one.called, one.price, one.inner.value])).toEqual([
      ["R1", "Shallots", "14.00", 5],
      ["R2", "Shallots", "26.50", 10],
    ]);
    const march = [
      {
        row: { ...rows[1]!, inner: { value: 4, unit: "kg" as const }, price: "12.40" },
        ingredient: "shallot",
      },
    ];
    const second = takeList(first, march, "2027-03-01");
    expect(second).toMatchObject([
      { code: "R1", price: "14.00", until: "2027-02-28" },
      { code: "R2", price: "26.50" },
      { code: "R1", price: "12.40", from: "2027-03-01", inner: { value: 4 } },
    ]);
    expect(second[1]!.until).toBeUndefined();
    expect(missingOffers(first, march, "2027-03-01").map((one) => one.code)).toEqual(["R2"]);
    const renamed = [{ ...rows[1]!, description: "Onion rings" }];
    expect(tieList(renamed, side(first)).lines[0]!.tie).toMatchObject({ by: "code", confidence: 0.7 });
  });
  test("a pack that cannot be weighed has no usable price, and it is said", () => {
    const row = {
      at: 1,
      code: "",
      description: "Butter",
      group: "",
      packText: "12 ea",
      innerPerPack: 12,
      catchWeight: false,
      price: "9",
      currency: "",
      doubt: "",
    };
    const read = {
      ...row,
      inner: { value: 1, unit: "piece" as const },
      unitPrice: { value: 0.75, per: "piece" as const },
    };
    const compared = compareRow(
      { row: read, ingredient: "butter" },
      [],
      "2027-02-01",
      pantry[0]!,
      () => undefined,
    );
    expect(compared.usable).toBeUndefined();
    expect(compared.doubt).toMatch(/cannot be weighed/);
  });
});
