import { readFileSync } from "node:fs";
import Papa from "papaparse";
import { describe, expect, test } from "vitest";
import { FormulaCells } from "../core/formula/cells.ts";
import { PreparationSchema } from "../core/formula/schema.ts";
import { Ledger } from "../core/ledger/ledger.ts";
import { IngredientSchema } from "../core/pantry/schema.ts";
import { checkData } from "./check-data.ts";
import { BOILED, COOKED, TRIMMED } from "./usda-yields.ts";

const source = { doc: "USDA", kind: "published" } as const;

/** Mass through the steps of a preparation of one kilogram of one ingredient, g. */
function through(steps: object[], trimYield?: number) {
  const food = IngredientSchema.parse({
    ...{ id: "food", name: "food", origin: ["plant"], allergens: { status: "known" } },
    storage: { state: "cold", days: 5 },
    cuts: trimYield === undefined ? [] : [{ id: "cut", name: "cut", trimYield, source }],
  });
  const item = { ingredient: "food", ...(trimYield === undefined ? {} : { cut: "cut" }) };
  const preparation = PreparationSchema.parse({
    ...{ id: "x", name: "x", yield: { amount: { value: 1, unit: "kg" } } },
    lines: [{ id: "food", item, amount: { value: 1, unit: "kg" }, step: "s0" }],
    steps: steps.map((step, i) => ({
      id: `s${i}`,
      name: "x",
      text: "x",
      from: i === 0 ? [] : [`s${i - 1}`],
      ...step,
    })),
  });
  const ledger = new Ledger();
  const larder = { ingredients: new Map([["food", food]]), preparations: new Map([["x", preparation]]) };
  const { balance, lines } = new FormulaCells(ledger, larder, (kind) => `/${kind}/0`).add(preparation);
  return {
    inG: ledger.value(balance.inG),
    waterG: ledger.value(balance.water),
    outG: ledger.value(balance.outG),
    lost: new Map(balance.lost.map(({ how, g }) => [how, ledger.value(g)])),
    apG: ledger.value(lines[0]!.ap),
  };
}

/** Cooking as two named losses, given as % of the raw weight; a published gain is water taken up. */
function cooked(moisture: number, fat: number) {
  const first = 1 + moisture / 100;
  const second = (first + fat / 100) / first;
  return through([
    { change: { factor: first, as: "evaporated" } },
    { change: { factor: second, ...(second < 1 ? { as: "rendered" } : {}) } },
  ]);
}

const data = checkData(
  "3 tests of all rows",
  "reference/usda-cooking-yields/yields.csv",
  "reference/yields.json",
);
const there = data !== undefined;
const [file, trims] = data ?? ["", ""];

describe("USDA cooking yields, Release 2 (2014)", () => {
  test.each(COOKED)(
    "%s %s, %s: the two losses named make the yield measured, to 5 points",
    (_, __, ___, y, moisture, fat) => {
      const of = cooked(moisture, fat);
      expect(Math.abs(of.outG / 10 - y)).toBeLessThan(5);
      expect(of.lost.get("evaporated")).toBeCloseTo(-moisture * 10, 6);
      expect(of.lost.get("rendered")).toBeCloseTo(-fat * 10, 6);
      expect(of.inG - of.outG - of.lost.get("evaporated")! - of.lost.get("rendered")!).toBeCloseTo(0, 6);
    },
  );

  test.skipIf(!there)("106 of the 150 rows with both changes close within 5 points, and no others", () => {
    const { data: rows } = Papa.parse<Record<string, string>>(readFileSync(file, "utf8"), {
      header: true,
      skipEmptyLines: true,
    });
    const known = rows.filter((row) => row.moisture_change_pct !== "" && row.fat_change_pct !== "");
    const close = known.filter((row) => {
      const of = cooked(Number(row.moisture_change_pct), Number(row.fat_change_pct));
      return Math.abs(of.outG / 10 - Number(row.yield_pct)) <= 5 + 1e-9;
    });
    expect([known.length, close.length]).toEqual([150, 106]);
  });

  test.skipIf(!there)("the rows restated here are the published ones", () => {
    const { data: rows } = Papa.parse<Record<string, string>>(readFileSync(file, "utf8"), {
      header: true,
      skipEmptyLines: true,
    });
    for (const [ndb, , , ...figures] of COOKED) {
      const row = rows.find((each) => each.ndb === ndb)!;
      expect([row.yield_pct, row.moisture_change_pct, row.fat_change_pct].map(Number)).toEqual(figures);
    }
  });
});

describe("USDA SR28 refuse", () => {
  test.each(TRIMMED)("%s %s: bought for a kilogram, less the refuse, is a kilogram", (_, __, ___, refuse) => {
    const { apG, inG } = through([{}], (100 - refuse) / 100);
    expect(inG).toBe(1000);
    expect(apG - (apG * refuse) / 100).toBeCloseTo(1000, 9);
  });

  test.skipIf(!there)("the rows restated here are the published ones", () => {
    const { trim } = JSON.parse(readFileSync(trims, "utf8")) as {
      trim: { ndb: string; refuse_pct: number }[];
    };
    for (const [ndb, , , refuse] of TRIMMED)
      expect(trim.find((row) => row.ndb === ndb)!.refuse_pct).toBe(refuse);
  });
});

describe("USDA SR26 water of grains and pulses", () => {
  test.each(BOILED)(
    "%s: water taken up until it has the boiled water content keeps the dry matter",
    (_, raw, boiled) => {
      // No dry matter goes into the pot (a few percent do): factor = (100 − raw) / (100 − boiled).
      const factor = (100 - raw) / (100 - boiled);
      const { outG, waterG } = through([{ change: { addWaterFactor: factor - 1 } }]);
      expect(((10 * raw + waterG) / outG) * 100).toBeCloseTo(boiled, 9);
      expect(outG - (10 * raw + waterG)).toBeCloseTo(1000 - 10 * raw, 9);
    },
  );
});
