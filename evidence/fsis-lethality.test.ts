import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { fsisChicken, fsisMeat, fsisTurkey } from "../core/heat/fsis-tables.ts";
import {
  dMinutesAt,
  holdSecondsAt,
  holdTable,
  killRateOfTable,
  reductionOver,
  tableLog10,
} from "../core/heat/lethality.ts";
import { organismNamed } from "../core/heat/organisms.ts";
import type { LethalityTableRef } from "../core/heat/schema.ts";
import { checkData } from "./check-data.ts";
import { run } from "./heat-cases.ts";

/** FSIS Cooking Guideline for Meat and Poultry Products, FSIS-GD-2021-14, December 2021 (published). */
const celsius = (fahrenheit: number) => ((fahrenheit - 32) * 5) / 9;

describe("FSIS tables, by integrating a held temperature", () => {
  const printed: [LethalityTableRef, number, number][] = [
    [{ table: "fsis-meat-6.5" }, 130, 112],
    [{ table: "fsis-meat-6.5" }, 140, 12],
    [{ table: "fsis-meat-6.5" }, 145, 4],
    [{ table: "fsis-meat-6.5" }, 150, 67 / 60],
    [{ table: "fsis-meat-7" }, 130, 121],
    [{ table: "fsis-meat-7" }, 136, 32],
    [{ table: "fsis-meat-5" }, 130, 86],
    [{ table: "fsis-meat-5" }, 145, 3],
    [{ table: "fsis-chicken-7", fatPercent: 1 }, 136, 63.3],
    [{ table: "fsis-chicken-7", fatPercent: 1 }, 145, 8.4],
    [{ table: "fsis-chicken-7", fatPercent: 5 }, 140, 27.5],
    [{ table: "fsis-chicken-7", fatPercent: 12 }, 140, 35],
    [{ table: "fsis-chicken-7", fatPercent: 12 }, 155, 54.4 / 60],
    [{ table: "fsis-turkey-7", fatPercent: 1 }, 136, 64],
    [{ table: "fsis-turkey-7", fatPercent: 1 }, 145, 10.5],
    [{ table: "fsis-turkey-7", fatPercent: 12 }, 140, 33.7],
    [{ table: "fsis-turkey-7", fatPercent: 12 }, 160, 26.9 / 60],
  ];
  test.each(printed)(
    "%o at %d °F: all of it in %d minutes, none of it in no time",
    (ref, fahrenheit, minutes) => {
      const held = [
        { minute: 0, celsius: celsius(fahrenheit) },
        { minute: minutes, celsius: celsius(fahrenheit) },
      ];
      expect(reductionOver(held, killRateOfTable(ref))).toBeCloseTo(tableLog10(ref), 6);
    },
  );
  test("nothing counts below the first row, and the last printed time is the least above it", () => {
    const meat = holdTable({ table: "fsis-meat-6.5" });
    expect(holdSecondsAt(meat, celsius(129.9))).toBe(Number.POSITIVE_INFINITY);
    expect(holdSecondsAt(meat, celsius(130))).toBeCloseTo(6720, 6);
    expect(holdSecondsAt(meat, celsius(157))).toBe(14);
    expect(holdSecondsAt(meat, 100)).toBe(14);
    // 158 °F is printed as instantaneous; the cautious side keeps the last printed time.
    expect(holdSecondsAt(meat, celsius(158))).toBe(14);
  });
  test("between rows the logarithm of the time is a straight line", () => {
    const meat = holdTable({ table: "fsis-meat-6.5" });
    expect(holdSecondsAt(meat, celsius(130.5))).toBeCloseTo(Math.sqrt(6720 * 5340), 6);
  });
  test("fat: up to the next whole per cent; unknown and above 12 as 12; other poultry the longer of two", () => {
    const at140 = (ref: LethalityTableRef) => holdSecondsAt(holdTable(ref), celsius(140));
    expect(at140({ table: "fsis-chicken-7", fatPercent: 4.2 })).toBeCloseTo(1650, 6);
    expect(at140({ table: "fsis-chicken-7" })).toBeCloseTo(2100, 6);
    expect(at140({ table: "fsis-chicken-7", fatPercent: 20 })).toBeCloseTo(2100, 6);
    expect(at140({ table: "fsis-poultry-7", fatPercent: 1 })).toBeCloseTo(1686, 6);
    expect(at140({ table: "fsis-poultry-7", fatPercent: 12 })).toBeCloseTo(2100, 6);
  });
  test("come-up counts only by integration: a core that rises through the table needs less than a full hold", () => {
    const lean = { composition: { water: 0.74, protein: 0.23, fat: 0.02, ash: 0.01 } };
    const stage = {
      mediumC: 63,
      coefficient: 95,
      untilTable: { table: "fsis-chicken-7", fatPercent: 2 },
    } as const;
    const result = run({ kind: "slab", thicknessMm: 30 }, lean, 4, stage);
    const reached = result.curve.find((p) => p.coreC >= 60)!.minute;
    expect(result.stages[0]!.worstLog10).toBeCloseTo(7, 3);
    expect(result.totalMinutes).toBeLessThan(reached + 25.7);
    expect(result.totalMinutes).toBeGreaterThan(reached);
    const again = reductionOver(
      result.curve.map((p) => ({ minute: p.minute, celsius: p.coreC })),
      killRateOfTable(stage.untilTable),
    );
    expect(Math.abs(again - 7)).toBeLessThan(0.1);
  });
  test("the fitted organisms stay near the tables they were fitted to: within 20 %", () => {
    const meat = organismNamed("salmonella-meat")!;
    const poultry = organismNamed("salmonella-poultry")!;
    for (const f of [132, 138, 144, 150, 156]) {
      const hold = holdSecondsAt(holdTable({ table: "fsis-meat-6.5" }), celsius(f)) / 60;
      expect(Math.abs((6.5 * dMinutesAt(meat, celsius(f))) / hold - 1), `meat ${f}`).toBeLessThan(0.2);
    }
    for (const f of [137, 142, 147, 152, 158]) {
      const hold = holdSecondsAt(holdTable({ table: "fsis-chicken-7" }), celsius(f)) / 60;
      expect(Math.abs((7 * dMinutesAt(poultry, celsius(f))) / hold - 1), `poultry ${f}`).toBeLessThan(0.2);
    }
  });
});

const data = checkData("1 test of all cells", "reference/lethality-fsis.json");
const there = data !== undefined;
const [file] = data ?? [""];

test.skipIf(!there)("every cell of the three tables is the printed one", () => {
  const read = JSON.parse(readFileSync(file, "utf8"));
  let cells = 0;
  for (const row of read.meat_table2_and_table6) {
    const ours = fsisMeat.find(([f]) => f === row.temp_F)!;
    expect(ours[1], `${row.temp_F} °F`).toEqual([row.log6_5_s, row.log7_s, row.log5_s]);
    cells += 3;
  }
  for (const [key, table] of [
    ["chicken_table3_7log", fsisChicken],
    ["turkey_table4_7log", fsisTurkey],
  ] as const)
    for (const row of read[key]) {
      expect(table.find(([f]) => f === row.temp_F)![1], `${key} ${row.temp_F}`).toEqual(
        row.hold_s_by_fat_pct_1_to_12,
      );
      cells += 12;
    }
  expect(cells).toBe(31 * 3 + 30 * 24);
});
