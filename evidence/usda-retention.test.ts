import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { RETENTION } from "../core/safety/retention-table.ts";
import { checkData } from "./check-data.ts";

/**
 * USDA Table of Nutrient Retention Factors, Release 6 (2007), published: per cent of calcium, iron and potassium left.
 * [code, group and way of ours, calcium, iron, potassium]. A dozen rows, one of each kind of difference, read from the table.
 */
const SAMPLE = [
  ["0601", "beef", "bake", 90, 100, 80],
  ["0651", "beef", "braise-drained", 80, 100, 55],
  ["0652", "beef", "braise-kept", 100, 100, 100],
  ["0805", "chicken", "bake", 95, 90, 80],
  ["1152", "liver", "boil-drained", 95, 60, 45],
  ["1251", "pork", "grill", 75, 80, 85],
  ["0381", "pasta", "boil-drained", 95, 75, 30],
  ["0432", "rice", "boil-kept", 100, 95, 95],
  ["0541", "pulse-2-h", "boil-drained", 85, 75, 65],
  ["2702", "shellfish-in-shell", "steam", 100, 90, 90],
  ["3005", "greens", "boil-drained", 95, 95, 85],
  ["3455", "root", "boil-drained", 95, 95, 90],
  ["0155", "fruit", "boil-kept", 95, 100, 90],
] as const;

const rows = Object.entries(RETENTION).flatMap(([group, ways]) =>
  Object.entries(ways).map(([way, row]) => ({ group, way, row })),
);
const paths = checkData(
  "every row restated of the retention table",
  "reference/usda-retention/retention.csv",
);

describe("USDA retention factors", () => {
  test("rows of each kind, restated", () => {
    for (const [code, group, way, ...factors] of SAMPLE) {
      const found = rows.find((each) => each.group === group && each.way === way);
      expect(found?.row, `${group} ${way}`).toEqual([code, ...factors]);
    }
  });

  test("no way with the liquid eaten leaves less than the same without", () => {
    for (const ways of Object.values(RETENTION))
      for (const by of ["boil", "braise"] as const) {
        const [kept, drained] = [ways[`${by}-kept`], ways[`${by}-drained`]];
        if (kept && drained)
          for (const i of [1, 2, 3] as const) expect(kept[i]).toBeGreaterThanOrEqual(drained[i]);
      }
  });

  test.skipIf(!paths)("every row is the table's own, under words that mean its way", () => {
    const [head, ...lines] = readFileSync(paths![0], "utf8").trim().split(/\r?\n/);
    const columns = head!.split(",");
    const table = new Map(
      lines.map((line) => {
        const cells = line
          .match(/("[^"]*"|[^,]*)(,|$)/g)!
          .map((cell) => cell.replace(/,$/, "").replaceAll('"', ""));
        return [cells[0]!, Object.fromEntries(columns.map((column, i) => [column, cells[i]!]))];
      }),
    );
    const WORDS: Readonly<Record<string, RegExp>> = {
      bake: /BAKED|ROASTED|BKD|CKD$/,
      grill: /BROILED|TOASTED/,
      fry: /FRIED|SAUTEED|STIR FRY|CKD$/,
      steam: /STEAMED/,
      boil: /BOILE?D|SIMM|STEWED|COOKED|POACHED|CKD|BLD|HEATED/,
      braise: /BRAISED|BRO?WN,SIMM?E?R|BRWN,SIMMRD?|SIMMR|SAUTEED\+SIMMERED/,
    };
    expect(rows.length).toBeGreaterThan(100);
    for (const { group, way, row } of rows) {
      const [code, ...factors] = row;
      const printed = table.get(code)!;
      const where = `${group} ${way} ${code} ${printed.preparation}`;
      expect(factors, where).toEqual(
        ["calcium", "iron", "potassium"].map((column) => Number(printed[column])),
      );
      expect(printed.preparation, where).toMatch(WORDS[way.split("-")[0]!]!);
      expect(printed.preparation, where).not.toMatch(/REHEATED|FROZEN|CANNED/);
      if (way.endsWith("-kept"))
        expect(printed.preparation, where).not.toMatch(/WO\/(?!SHELL)|(?<!NOT )DRAIN/);
      if (way.endsWith("-drained") && group !== "egg" && group !== "shellfish-in-shell")
        expect(printed.preparation, where).toMatch(/WO\/|DRAIN|DRND/);
    }
  });
});
