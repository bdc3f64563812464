import { readFileSync } from "node:fs";
import Papa from "papaparse";
import { describe, expect, test } from "vitest";
import { checkData } from "../../../evidence/check-data.ts";
import { ingredients } from "./index.ts";

const data = checkData("2 tests of restated figures", "reference/usda-sr/foods.csv");
const there = data !== undefined;
const [file] = data ?? [""];

const COLUMNS = {
  water: ["water_g", 1],
  protein: ["protein_g", 1],
  fat: ["fat_g", 1],
  saturated: ["saturated_g", 1],
  carbohydrate: ["carbohydrate_g", 1],
  sugars: ["sugars_g", 1],
  fibre: ["fibre_g", 1],
  ash: ["ash_g", 1],
  alcohol: ["alcohol_g", 1],
  cholesterolMg: ["cholesterol_mg", 1],
  energyKcal: ["energy_kcal", 1],
  /** Salt is sodium × 2.5 (EU 1169/2011 Annex I), from mg to g. */
  salt: ["sodium_mg", 2.5 / 1000],
} as const;
const ndbOf = (table: string | undefined) => /^NDB (\d{5})/.exec(table ?? "")?.[1];

describe.runIf(there)("figures restated from USDA SR28", () => {
  const rows = new Map(
    (there
      ? Papa.parse<Record<string, string>>(readFileSync(file, "utf8"), { header: true, skipEmptyLines: true })
          .data
      : []
    ).map((row) => [row.ndb, row]),
  );

  test("D7 every composition that names a row has its figures, to the second decimal", () => {
    let compared = 0;
    for (const { id, composition } of ingredients) {
      if (composition?.source.doc !== "USDA SR28") continue;
      const row = rows.get(ndbOf(composition.source.table) ?? "");
      expect(row, `${id}: ${composition.source.table}`).toBeDefined();
      for (const [field, [column, factor]] of Object.entries(COLUMNS)) {
        const given = composition[field as keyof typeof COLUMNS];
        const printed = row![column];
        if (given === undefined) continue;
        expect(printed, `${id} ${field} is blank in the release`).not.toBe("");
        expect(Math.abs(given - Number(printed) * factor), `${id} ${field}`).toBeLessThanOrEqual(0.00501);
        compared += 1;
      }
    }
    expect(compared).toBeGreaterThan(1000);
  });

  test("D7 every published trim yield is 1 − refuse of its row", () => {
    let compared = 0;
    for (const { id, cuts } of ingredients)
      for (const cut of cuts ?? []) {
        const row = rows.get(ndbOf(cut.source.table) ?? "");
        // Rows outside the selection of foods (kale, savoy, whole pears) cannot be compared here.
        if (cut.source.doc !== "USDA SR28" || row === undefined) continue;
        expect(cut.trimYield, `${id} ${cut.id}`).toBeCloseTo(1 - Number(row.refuse_pct) / 100, 6);
        compared += 1;
      }
    expect(compared).toBeGreaterThan(25);
  });
});
