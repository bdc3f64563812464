import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { takeList } from "./offers.ts";
import { readPack } from "./pack.ts";
import { readPrice } from "./price.ts";
import { readPriceList } from "./price-list.ts";

const SEED = { seed: 20261125 };
const pack = (text: string) => {
  const read = readPack(text);
  return (
    read && `${read.innerPerPack} x ${read.inner.value} ${read.inner.unit}${read.catchWeight ? " catch" : ""}`
  );
};

describe("IN13 packs", () => {
  test("as suppliers write them", () => {
    const table: Record<string, string | undefined> = {
      ...{
        "2x2.5kg": "2 x 2.5 kg",
        "case 12 ea 750ml": "12 x 750 mL",
        "flat 30": "30 x 1 piece",
        "10/2 lb": "10 x 2 lb",
      },
      ...{
        "4/1 GAL": "4 x 1 gal",
        "15 dz": "15 x 12 piece",
        "25 lb bag": "1 x 25 lb",
        "50#": "1 x 50 lb",
        "6x4x250g": "24 x 250 g",
      },
      ...{
        "750 ml x 12": "12 x 750 mL",
        each: "1 x 1 piece",
        "9/.5 gal": "9 x 0.5 gal",
        "2,5 kg": "1 x 2.5 kg",
        "12 bunches": "12 x 1 bunch",
      },
      ...{
        "per kg": "1 x 1 kg catch",
        "/kg": "1 x 1 kg catch",
        "~4.5kg": "1 x 4.5 kg catch",
        "2/8-10 lb": "2 x 9 lb catch",
      },
      ...{ POA: undefined, "": undefined, cs: undefined, "0 x 5 kg": undefined },
    };
    for (const [text, expected] of Object.entries(table)) expect(pack(text), text).toBe(expected);
  });
  test("a No. 10 can is 12 to 13 cups (USDA/ICN Basics at a Glance), with a doubt", () => {
    const read = readPack("6/#10")!;
    expect(read).toMatchObject({ innerPerPack: 6, inner: { unit: "cup" } });
    expect(read.inner.value).toBeGreaterThanOrEqual(12);
    expect(read.inner.value).toBeLessThanOrEqual(13);
    expect(read.doubt).toMatch(/label/);
  });
  test("what could be meant otherwise is doubted", () => {
    expect(readPack("1/2 gal")).toMatchObject({
      inner: { value: 0.5, unit: "gal" },
      doubt: expect.stringMatching(/or one of 2/),
    });
    expect(readPack("6/10")!.doubt).toMatch(/No. 10/);
    expect(readPack("8-10 lb")!.doubt).toMatch(/middle/);
  });
});

test("IN14 prices: marks, currencies, negative, per measure", () => {
  const value = (cell: string) => {
    const read = readPrice(cell);
    return (
      read &&
      [Number(read.value.n) / Number(read.value.d), read.currency, read.per].filter(
        (x) => x !== undefined && x !== "",
      )
    );
  };
  expect(value("€ 12,50")).toEqual([12.5, "€"]);
  expect(value("1,234.56")).toEqual([1234.56]);
  expect(value("1.234,56 EUR")).toEqual([1234.56, "EUR"]);
  expect(value("$9.8/lb")).toEqual([9.8, "$", "lb"]);
  expect(value("-3.00")).toEqual([-3]);
  expect(value("(3.00)")).toEqual([-3]);
  expect(value("85p")).toEqual([0.85, "£"]);
  for (const cell of ["POA", "", "market", "1.2.3,4", "12 apples"]) expect(value(cell), cell).toBeUndefined();
  expect(readPrice("1,500")!.doubt).toBeTruthy();
});

const LIST = `Hill & Dale Provisions;;;;
Price list November;;;;

Art.No;Article;Pack;Unit;Price EUR
DAIRY;;;;
1001;Butter 82 % unsalted;20x250g;;"38,40"
1003;Comté 18 months;;kg;24,50
FISH;;;;
2001;Char side;2/1.5-2 kg;per kg;27.90
2003;Oysters No 3;100 ea;;-12
2004;Crab;12 ea;;POA
2007;Vinegar;xx;;3,00
2008;Sparkling juice;case 12 ea 750ml;;1.234,50
`;

describe("IN15 price lists", () => {
  test("good rows are kept, bad ones named by line", () => {
    const { rows, problems, columns } = readPriceList(LIST);
    expect(rows.map((row) => [row.at, row.group, row.description, row.price, row.unitPrice.per])).toEqual([
      [6, "DAIRY", "Butter 82 % unsalted", "38.40", "kg"],
      [7, "DAIRY", "Comté 18 months", "24.50", "kg"],
      [9, "FISH", "Char side", "97.65", "kg"],
      [13, "FISH", "Sparkling juice", "1234.50", "L"],
    ]);
    expect(rows[0]!.unitPrice.value).toBeCloseTo(7.68, 12);
    expect(rows[2]).toMatchObject({ catchWeight: true, currency: "EUR" });
    expect(rows[2]!.unitPrice.value).toBeCloseTo(27.9, 12);
    expect(rows[3]!.unitPrice.value).toBeCloseTo(1234.5 / 9, 10);
    expect(problems.map((one) => [one.at, one.what])).toEqual([
      [10, expect.stringMatching(/negative/)],
      [11, expect.stringMatching(/POA/)],
      [12, expect.stringMatching(/"xx"/)],
    ]);
    expect(columns.price).toMatchObject({ index: 4, confidence: 0.95 });
  });
  test("without headings columns are guessed from content, less surely; a person's word goes before", () => {
    const bare =
      "A100,Whole milk,6x2 L,9.60\nA101,Yoghurt plain,4x1 kg,11.20\nA102,Salted butter,20x250g,44.00\n";
    const { columns, rows } = readPriceList(bare);
    expect(rows.map((row) => row.unitPrice.value)).toEqual([0.8, 2.8, 8.8]);
    for (const column of ["price", "pack", "description"] as const)
      expect(columns[column]!.confidence).toBeLessThan(0.8);
    const two = "Item,Pack,Old price,Price\nMilk,1 L,1.00,2.00\n";
    expect(readPriceList(two).rows[0]!.price).toBe("2.00");
    expect(readPriceList(two, { price: 2 }).rows[0]!.price).toBe("1.00");
    expect(readPriceList(two, { price: 2 }).columns.price!.confidence).toBe(1);
  });
  test("any text is read without throwing, and every row is either read or named or a heading", () => {
    const cell = fc.constantFrom(
      "",
      "Milk",
      "6x1 L",
      "9.60",
      "-1",
      "per kg",
      "#",
      '"',
      "1/2",
      "POA",
      "DAIRY",
      "0",
    );
    fc.assert(
      fc.property(
        fc.array(fc.array(cell, { maxLength: 6 }), { maxLength: 15 }),
        fc.string({ unit: "binary", maxLength: 60 }),
        (rows, tail) => {
          const text = `Item;Pack;Price\n${rows.map((row) => row.join(";")).join("\n")}\n${tail}`;
          const read = readPriceList(text);
          for (const row of read.rows) expect(row.unitPrice.value).toBeGreaterThanOrEqual(0);
        },
      ),
      { ...SEED, numRuns: 800 },
    );
    fc.assert(
      fc.property(
        fc.string({ unit: "binary", maxLength: 90 }),
        (text) => void [readPack(text), readPrice(text)],
      ),
      { ...SEED, numRuns: 2000 },
    );
  });
});

describe("IN16 history", () => {
  const tied = (price: string) => {
    const { rows } = readPriceList(`Item,Pack,Price\nButter,20x250g,${price}\n`);
    return [{ row: rows[0]!, ingredient: "butter" }];
  };
  test("a changed price ends the old offer the day before; the same price goes on", () => {
    const first = takeList([], tied("38.40"), "2026-11-01");
    const second = takeList(first, tied("39.90"), "2026-12-01");
    expect(second).toMatchObject([
      { id: "butter-2026-11-01", price: "38.40", from: "2026-11-01", until: "2026-11-30" },
      { id: "butter-2026-12-01", price: "39.90", from: "2026-12-01", innerPerPack: 20 },
    ]);
    expect(takeList(second, tied("39.90"), "2027-01-01")).toEqual(second);
    expect(takeList(second, tied("41.00"), "2026-12-01")).toMatchObject([{}, { price: "41.00" }]);
    expect(() => takeList([], tied("1.00"), "soon")).toThrow(RangeError);
  });
});
