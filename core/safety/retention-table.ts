import type { CookingWay } from "../formula/schema.ts";
import type { CellSource } from "../ledger/ledger.ts";
import type { RetentionGroup } from "../pantry/retention-groups.ts";

/** Per cent left of calcium, iron, potassium, after the code of the row. */
export type RetentionRow = readonly [code: string, calcium: number, iron: number, potassium: number];

/** How it was cooked, and whether the liquid is eaten too, where the table asks. */
export type RetentionWay =
  | Exclude<CookingWay, "boil" | "braise">
  | `${"boil" | "braise"}-${"kept" | "drained"}`;

export const RETENTION_SOURCE: CellSource = {
  doc: "USDA Table of Nutrient Retention Factors, Release 6 (2007)",
  kind: "published",
};

const pulse = (drained: RetentionRow, kept: RetentionRow) => ({
  ...{ "boil-drained": drained, "boil-kept": kept },
});

/**
 * Rows restated of the table, whole batch cooked over whole batch raw. Boiled vegetables are those covered with water.
 * Broiled is grill, fried and sautéed is fry, baked and roasted is bake, stewed and simmered is boil, browned then simmered
 * is braise. Left out: lean fish simmered with its liquid (code 2402), whose 80 is below the 100 and 85 printed without it.
 */
export const RETENTION: Readonly<
  Record<RetentionGroup, Readonly<Partial<Record<RetentionWay, RetentionRow>>>>
> = {
  cheese: {
    bake: ["0001", 100, 100, 100],
    grill: ["0003", 100, 100, 100],
    "boil-kept": ["0005", 100, 100, 100],
  },
  egg: {
    bake: ["0101", 100, 100, 100],
    fry: ["0103", 100, 100, 100],
    "boil-drained": ["0107", 100, 100, 100],
  },
  milk: { "boil-kept": ["2152", 100, 100, 100] },
  nut: {
    bake: ["2203", 100, 100, 100],
    grill: ["2202", 100, 100, 100],
    "boil-kept": ["2204", 100, 100, 100],
  },
  fruit: {
    bake: ["0151", 95, 100, 90],
    grill: ["0152", 95, 100, 90],
    fry: ["0153", 95, 100, 90],
    "boil-kept": ["0155", 95, 100, 90],
  },
  "dried-fruit": {
    bake: ["0251", 95, 100, 90],
    fry: ["0253", 95, 100, 90],
    "boil-kept": ["0255", 95, 100, 90],
  },
  citrus: {
    bake: ["0270", 100, 100, 100],
    fry: ["0270", 100, 100, 100],
    "boil-kept": ["0270", 100, 100, 100],
  },
  flour: {
    bake: ["0301", 100, 100, 100],
    grill: ["0306", 100, 100, 100],
    fry: ["0305", 100, 100, 100],
    steam: ["0302", 100, 100, 100],
    "boil-kept": ["0302", 100, 100, 100],
  },
  cereal: { "boil-kept": ["0358", 100, 95, 95] },
  pasta: {
    bake: ["0380", 100, 100, 100],
    "boil-drained": ["0381", 95, 75, 30],
    "boil-kept": ["0384", 100, 100, 100],
  },
  rice: {
    "boil-drained": ["0431", 95, 90, 85],
    "boil-kept": ["0432", 100, 95, 95],
    "braise-kept": ["0433", 100, 95, 95],
  },
  "pulse-20-min": pulse(["0501", 85, 85, 75], ["0502", 90, 90, 80]),
  "pulse-1-h": pulse(["0521", 85, 80, 70], ["0522", 90, 85, 75]),
  "pulse-2-h": pulse(["0541", 85, 75, 65], ["0542", 90, 80, 70]),
  beef: {
    bake: ["0601", 90, 100, 80],
    grill: ["0602", 100, 95, 85],
    fry: ["0604", 100, 95, 85],
    "braise-drained": ["0651", 80, 100, 55],
    "braise-kept": ["0652", 100, 100, 100],
    "boil-drained": ["0653", 80, 100, 55],
    "boil-kept": ["0654", 100, 100, 100],
  },
  veal: {
    bake: ["1954", 95, 85, 80],
    grill: ["1951", 95, 90, 85],
    fry: ["1952", 95, 90, 85],
    "braise-drained": ["2001", 100, 95, 60],
    "braise-kept": ["2002", 100, 100, 100],
    "boil-drained": ["2003", 85, 95, 60],
    "boil-kept": ["2004", 100, 100, 100],
  },
  lamb: {
    bake: ["1004", 100, 100, 75],
    grill: ["1001", 100, 95, 85],
    "braise-drained": ["1051", 100, 95, 55],
    "braise-kept": ["1052", 100, 100, 100],
    "boil-drained": ["1055", 100, 95, 55],
    "boil-kept": ["1056", 100, 100, 100],
  },
  pork: {
    bake: ["1254", 95, 100, 80],
    grill: ["1251", 75, 80, 85],
    fry: ["1252", 75, 80, 85],
    "braise-drained": ["1351", 80, 100, 75],
    "braise-kept": ["1352", 100, 100, 100],
    "boil-drained": ["1301", 80, 100, 75],
    "boil-kept": ["1302", 100, 100, 100],
  },
  "cured-pork": {
    bake: ["1459", 95, 100, 80],
    grill: ["1451", 75, 80, 85],
    fry: ["1456", 75, 80, 85],
    "braise-drained": ["1551", 80, 100, 75],
    "braise-kept": ["1552", 100, 100, 100],
    "boil-drained": ["1521", 80, 100, 75],
    "boil-kept": ["1522", 100, 100, 100],
  },
  chicken: {
    bake: ["0805", 95, 90, 80],
    grill: ["0801", 95, 90, 80],
    fry: ["0803", 95, 90, 80],
    "braise-drained": ["0851", 80, 90, 60],
    "braise-kept": ["0852", 100, 100, 100],
    "boil-drained": ["0855", 80, 90, 60],
    "boil-kept": ["0856", 100, 100, 100],
  },
  turkey: {
    bake: ["1805", 100, 95, 75],
    "boil-drained": ["1851", 85, 95, 55],
    "boil-kept": ["1852", 100, 100, 100],
  },
  liver: {
    fry: ["1151", 100, 95, 85],
    "boil-drained": ["1152", 95, 60, 45],
    "boil-kept": ["1153", 100, 100, 100],
  },
  "organ-meat": {
    fry: ["1181", 100, 95, 85],
    "boil-drained": ["1182", 95, 60, 45],
    "boil-kept": ["1183", 100, 100, 100],
  },
  "lean-fish": {
    bake: ["2301", 100, 100, 100],
    grill: ["2305", 100, 100, 100],
    fry: ["2309", 100, 100, 100],
    "boil-drained": ["2401", 100, 100, 85],
  },
  "oily-fish": {
    bake: ["2451", 100, 100, 100],
    grill: ["2455", 100, 100, 100],
    fry: ["2459", 100, 100, 100],
    "boil-drained": ["2551", 100, 100, 85],
    "boil-kept": ["2552", 100, 100, 100],
  },
  shellfish: {
    bake: ["2750", 100, 100, 100],
    grill: ["2753", 100, 100, 100],
    fry: ["2755", 100, 100, 100],
    steam: ["2770", 100, 90, 90],
    "boil-drained": ["2761", 95, 90, 70],
    "boil-kept": ["2762", 100, 100, 100],
  },
  "shellfish-in-shell": {
    steam: ["2702", 100, 90, 90],
    "boil-drained": ["2701", 100, 90, 70],
  },
  greens: {
    bake: ["3001", 100, 100, 100],
    fry: ["3015", 100, 100, 100],
    "boil-drained": ["3005", 95, 95, 85],
    "boil-kept": ["3006", 100, 100, 100],
  },
  root: {
    bake: ["3451", 100, 100, 100],
    fry: ["3460", 100, 100, 100],
    steam: ["3464", 100, 100, 100],
    "boil-drained": ["3455", 95, 95, 90],
    "boil-kept": ["3456", 100, 100, 100],
  },
  potato: {
    bake: ["3301", 100, 100, 100],
    fry: ["3315", 100, 100, 100],
    "boil-drained": ["3308", 95, 95, 90],
    "boil-kept": ["3309", 100, 100, 100],
  },
  "sweet-potato": {
    bake: ["3701", 100, 100, 100],
    fry: ["3710", 100, 100, 100],
    "boil-drained": ["3708", 95, 95, 90],
    "boil-kept": ["3709", 100, 100, 100],
  },
  tomato: {
    bake: ["3751", 100, 100, 100],
    grill: ["3752", 100, 100, 100],
    fry: ["3752", 100, 100, 100],
    "boil-kept": ["3751", 100, 100, 100],
  },
  vegetable: {
    bake: ["3771", 100, 100, 100],
    fry: ["3780", 100, 100, 100],
    steam: ["3784", 100, 100, 100],
    "boil-drained": ["3775", 95, 95, 90],
    "boil-kept": ["3776", 100, 100, 100],
  },
};
