import { readFileSync } from "node:fs";
import Papa from "papaparse";
import { describe, expect, test } from "vitest";
import { checkData } from "../../evidence/check-data.ts";
import { COLUMNS } from "./composition/row.ts";
import { starterPantry } from "./index.ts";
import { restatedRows } from "./sr28.ts";

const data = checkData(
  "6 tests of restated figures",
  "reference/usda-sr/foods.csv",
  "reference/usda-sr/portions.csv",
  "reference/usda-cooking-yields/yields.csv",
  "reference/yields.json",
);
const there = data !== undefined;
const [foodRows, portionRows, yieldRows, trims] = data ?? ["", "", "", ""];
const PRINTED = {
  water: "water_g",
  protein: "protein_g",
  fat: "fat_g",
  saturated: "saturated_g",
  carbohydrate: "carbohydrate_g",
  sugars: "sugars_g",
  fibre: "fibre_g",
  ash: "ash_g",
  alcohol: "alcohol_g",
  salt: "sodium_mg",
  cholesterolMg: "cholesterol_mg",
  energyKcal: "energy_kcal",
} as const;
/** A hundredth of a gram is the last digit restated; half of it, and a little for binary fractions. */
const HALF_DIGIT = 0.00501;
/** Salt is sodium × 2.5 (EU 1169/2011 Annex I), from mg to g. */
const factorOf = (column: string) => (column === "salt" ? 2.5 / 1000 : 1);

const read = (file: string) =>
  there
    ? Papa.parse<Record<string, string>>(readFileSync(file, "utf8"), {
        header: true,
        skipEmptyLines: true,
      }).data
    : [];
const ndbOf = (table: string | undefined) => /^NDB (\d{5})/.exec(table ?? "")?.[1];

describe.runIf(there)("figures restated from the published tables", () => {
  const foods = new Map(read(foodRows).map((row) => [row.ndb, row]));

  test("P2 every row of composition is the printed one to half a hundredth; blank there is null here", () => {
    for (const [ndb, row] of restatedRows) {
      const printed = foods.get(ndb);
      expect(printed, ndb).toBeDefined();
      COLUMNS.forEach((column, at) => {
        const figure = row[at] ?? null;
        const text = printed![PRINTED[column]]!;
        expect(figure === null, `${ndb} ${column} against "${text}"`).toBe(text === "");
        if (figure !== null)
          expect(Math.abs(figure - Number(text) * factorOf(column)), `${ndb} ${column}`).toBeLessThanOrEqual(
            HALF_DIGIT,
          );
      });
    }
    expect(restatedRows.size).toBeGreaterThan(500);
  });

  test("P2 energy is that of the row's own factors and 6.93 kcal/g of alcohol, to 3 kcal or 2 %", () => {
    const off: string[] = [];
    let computed = 0;
    for (const [ndb, row] of restatedRows) {
      const printed = foods.get(ndb)!;
      const factors = [printed.protein_kcal_g, printed.fat_kcal_g, printed.carbohydrate_kcal_g];
      if (factors.includes("")) continue;
      const at = (column: (typeof COLUMNS)[number]) => row[COLUMNS.indexOf(column)] ?? 0;
      const [protein, fat, carbohydrate] = factors.map(Number) as [number, number, number];
      const kcal =
        protein * at("protein") + fat * at("fat") + carbohydrate * at("carbohydrate") + 6.93 * at("alcohol");
      if (Math.abs(kcal - at("energyKcal")) > Math.max(3, 0.02 * at("energyKcal"))) off.push(ndb);
      computed += 1;
    }
    // Printed so: back ribs, ox kidney and semi-soft goat's cheese (355 computed, 364 printed).
    expect(off.sort()).toEqual(["01157", "10192", "13323"]);
    expect(computed).toBeGreaterThan(400);
  });

  test("P3 every published trim yield is 1 − refuse of its row", () => {
    type Trim = { trim: { ndb?: string; refuse_pct: number }[] };
    const more = (JSON.parse(readFileSync(trims, "utf8")) as Trim).trim;
    const refuse = new Map(more.map((row) => [row.ndb, row.refuse_pct]));
    for (const [ndb, row] of foods) if (row.refuse_pct !== "") refuse.set(ndb, Number(row.refuse_pct));
    let compared = 0;
    const outside: string[] = [];
    for (const { id, cuts } of starterPantry)
      for (const cut of cuts ?? []) {
        if (cut.source.doc !== "USDA SR28") continue;
        const printed = refuse.get(ndbOf(cut.source.table));
        if (printed === undefined) outside.push(`${id} ${cut.id}`);
        else {
          expect(cut.trimYield, `${id} ${cut.id}`).toBeCloseTo(1 - printed / 100, 6);
          compared += 1;
        }
      }
    expect(outside).toEqual([]);
    expect(compared).toBeGreaterThan(150);
  });

  test("P4 every measure named with a density or a piece is printed with those grams", () => {
    const portions = read(portionRows);
    const bare = (text: string) => text.replace(/^0?\./, "0.").toLowerCase();
    let compared = 0;
    const lost: string[] = [];
    for (const { id, densities = [], pieces = [] } of starterPantry)
      for (const { source } of [...densities, ...pieces]) {
        const [, ndb, measure, grams] = /^NDB (\d{5}): (.*) = ([\d.]+) g/.exec(source.table ?? "") ?? [];
        if (source.doc !== "USDA SR28" || measure === undefined) continue;
        const found = portions.some(
          (row) =>
            row.ndb === ndb &&
            Number(row.grams) === Number(grams) &&
            bare(`${row.amount} ${row.measure}`).startsWith(bare(measure)),
        );
        if (!found) lost.push(`${id}: ${source.table}`);
        compared += 1;
      }
    expect(lost).toEqual([]);
    expect(compared).toBeGreaterThan(400);
  });

  test("P5 every cooking yield of the USDA table has a printed row of that name, method and figure", () => {
    const rows = read(yieldRows);
    const METHODS: Record<string, RegExp> = {
      roasted: /roasted/i,
      grilled: /grilled/i,
      braised: /braised/i,
      simmered: /simmered/i,
      "pan-fried": /pan-(fried|browned)/i,
    };
    let compared = 0;
    for (const { id, cookingYields = [] } of starterPantry)
      for (const { method, yield: given, source } of cookingYields) {
        if (!source.doc.startsWith("USDA Table of Cooking Yields")) continue;
        const ndb = ndbOf(source.table);
        const found = rows.some(
          (row) =>
            (ndb ? row.ndb === ndb : row.food === source.table) &&
            METHODS[method]!.test(row.method!) &&
            Math.abs(Number(row.yield_pct) / 100 - given) < 1e-6,
        );
        expect(found, `${id} ${method} ${source.table}`).toBe(true);
        compared += 1;
      }
    expect(compared).toBeGreaterThan(60);
  });

  test("P5 what a grain takes up agrees with the gain worked out of its published waters, to a hundredth", () => {
    type Gains = { grain_pulse_gain: { rows: Record<string, number>[] } };
    const { rows } = (JSON.parse(readFileSync(trims, "utf8")) as Gains).grain_pulse_gain;
    let compared = 0;
    for (const { id, cookingYields = [] } of starterPantry)
      for (const { yield: given, source } of cookingYields) {
        const [, before, after] = /^water ([\d.]+) raw, ([\d.]+) boiled/.exec(source.table ?? "") ?? [];
        if (before === undefined) continue;
        const row = rows.find(
          (r) => r.water_raw_pct === Number(before) && r.water_cooked_pct === Number(after),
        );
        expect(row, `${id} ${source.table}`).toBeDefined();
        expect(Math.abs(row!.gain_factor! - given), id).toBeLessThan(0.01);
        compared += 1;
      }
    expect(compared).toBeGreaterThan(12);
  });
});
