/**
 * Time and temperature limits of the FDA Food Code 2022 (read through adoptions that print the same section
 * numbers) and of FSIS stabilization guidance. Temperatures as printed in °C, times in minutes or seconds as named.
 */
export type LimitSource = { doc: string; table: string; kind: "published" };
const code = (table: string): LimitSource => ({ doc: "FDA Food Code 2022", table, kind: "published" });

export type CookFood =
  | "poultry"
  | "ground-meat"
  | "whole-meat"
  | "roast"
  | "fish"
  | "egg"
  | "egg-for-one"
  | "plant";
export type CookRule = {
  /** Any one of these pairs, in every part: at least so hot for at least so long. */
  options: readonly { celsius: number; seconds: number }[];
  source: LimitSource;
};

/** Cooking by food. Roasts may count the rise after the oven. Plants cooked for hot holding: 3-401.13. */
export const cookRules: Readonly<Record<CookFood, CookRule>> = {
  poultry: { options: [{ celsius: 74, seconds: 0 }], source: code("3-401.11(A)(3)") },
  "ground-meat": {
    options: [
      { celsius: 63, seconds: 180 },
      { celsius: 66, seconds: 60 },
      { celsius: 68, seconds: 17 },
      { celsius: 70, seconds: 0 },
    ],
    source: code("3-401.11(A)(2)"),
  },
  "whole-meat": { options: [{ celsius: 63, seconds: 15 }], source: code("3-401.11(A)(1)") },
  roast: {
    options: [
      { celsius: 54.4, seconds: 6720 },
      { celsius: 55, seconds: 5340 },
      { celsius: 56.1, seconds: 3360 },
      { celsius: 57.2, seconds: 2160 },
      { celsius: 57.8, seconds: 1680 },
      { celsius: 58.9, seconds: 1080 },
      { celsius: 60, seconds: 720 },
      { celsius: 61.1, seconds: 480 },
      { celsius: 62.2, seconds: 300 },
      { celsius: 62.8, seconds: 240 },
      { celsius: 63.9, seconds: 134 },
      { celsius: 65, seconds: 85 },
      { celsius: 66.1, seconds: 54 },
      { celsius: 67.2, seconds: 34 },
      { celsius: 68.3, seconds: 22 },
      { celsius: 69.4, seconds: 14 },
      { celsius: 70, seconds: 0 },
    ],
    source: code("3-401.11(B)(2)"),
  },
  fish: { options: [{ celsius: 63, seconds: 15 }], source: code("3-401.11(A)(1)") },
  egg: {
    options: [
      { celsius: 63, seconds: 180 },
      { celsius: 66, seconds: 60 },
      { celsius: 68, seconds: 17 },
      { celsius: 70, seconds: 0 },
    ],
    source: code("3-401.11(A)(2), eggs not for immediate service"),
  },
  "egg-for-one": {
    options: [{ celsius: 63, seconds: 15 }],
    source: code("3-401.11(A)(1), eggs broken for immediate service"),
  },
  plant: { options: [{ celsius: 57, seconds: 0 }], source: code("3-401.13, plant foods for hot holding") },
};

export type CoolingStage = {
  fromC: number;
  toC: number;
  withinMin: number;
  /** The clock runs from this stage's own beginning, or from that of the first. */
  clock: "stage" | "start";
};
export type CoolingRule = { id: string; name: string; stages: readonly CoolingStage[]; source: LimitSource };

const appendixB: LimitSource = {
  doc: "FSIS Stabilization Guideline FSIS-GD-2021-13",
  table: "options",
  kind: "published",
};
export const coolingRules: readonly CoolingRule[] = [
  {
    id: "food-code",
    name: "Food Code two-stage cooling",
    stages: [
      { fromC: 57, toC: 21, withinMin: 120, clock: "start" },
      { fromC: 21, toC: 5, withinMin: 360, clock: "start" },
    ],
    source: code("3-501.14(A)"),
  },
  {
    id: "food-code-ambient",
    name: "Food Code cooling of food made from ingredients at room temperature",
    stages: [{ fromC: Number.POSITIVE_INFINITY, toC: 5, withinMin: 240, clock: "start" }],
    source: code("3-501.14(B)"),
  },
  {
    id: "fsis-1",
    name: "FSIS option 1, cooked meat and poultry",
    stages: [
      { fromC: 54.4, toC: 26.7, withinMin: 90, clock: "stage" },
      { fromC: 26.7, toC: 4.4, withinMin: 300, clock: "stage" },
    ],
    source: appendixB,
  },
  {
    id: "fsis-2",
    name: "FSIS option 2, uncured, chilled within 90 minutes of cooking",
    stages: [{ fromC: 48.9, toC: 12.8, withinMin: 360, clock: "stage" }],
    source: appendixB,
  },
  {
    id: "fsis-cured",
    name: "FSIS option for meat cured with at least 100 ppm nitrite",
    stages: [
      { fromC: 54.4, toC: 26.7, withinMin: 300, clock: "stage" },
      { fromC: 26.7, toC: 7.2, withinMin: 600, clock: "stage" },
    ],
    source: appendixB,
  },
];

/** Holding, reheating, thawing, time as the control. */
export const holding = {
  hotC: 57,
  roastHotC: 54,
  coldC: 5,
  source: code("3-501.16"),
} as const;
export const reheating = { celsius: 74, seconds: 15, withinMin: 120, source: code("3-403.11") } as const;
export const timeAsControl = {
  mostMin: 240,
  mostMinIfNeverAbove21: 360,
  neverAboveC: 21,
  source: code("3-501.19"),
} as const;
export const thawing = { refrigeratedC: 5, waterC: 21, source: code("3-501.13") } as const;
export const parasiteFreezing = {
  options: [
    { celsius: -20, hours: 168 },
    { celsius: -35, hours: 15 },
  ],
  source: code("3-402.11"),
} as const;
