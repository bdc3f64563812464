import type { Drying } from "./evaporation.ts";

export type Source = { doc: string; table?: string; kind: "published" | "memory" };

/** What a piece can stand in: its coefficient with range and source, and where its temperature comes from. */
export type Medium = {
  id: string;
  also: readonly string[];
  /** "boiling": by the kitchen's boiling point, less so many degrees; "usual": this unless mediumC says else;
   *  "asked": mediumC must be given. */
  celsius: { by: "boiling"; below: number } | { by: "usual"; usual: number } | { by: "asked"; like: number };
  /** Liquid water or steam at the kitchen's pressure: never above boiling. */
  watery: boolean;
  coefficient: number;
  range: readonly [number, number];
  source: Source;
  drying?: Drying;
};

const incropera: Source = {
  doc: "Incropera and DeWitt, Fundamentals of Heat and Mass Transfer",
  table: "1.1",
  kind: "published",
};
const eggs: Source = {
  doc: "Cengel, Heat Transfer: A Practical Approach; Incropera and DeWitt",
  table: "problems of eggs and hot dogs in boiling water (100 to 1400)",
  kind: "published",
};
const baking: Source = {
  doc: "Baik et al. 1999, J. Food Sci. 64:688",
  table: "cake baking 186 to 225 °C, 20 to 48, three quarters of it radiation",
  kind: "published",
};
const cold: Source = {
  doc: "Cengel, Heat Transfer: A Practical Approach",
  table: "problems of apples and steaks in refrigerated air (8 to 9), carcass at 1.2 m/s (22)",
  kind: "published",
};
const memory = (doc: string): Source => ({ doc, kind: "memory" });

/**
 * The media. A value chosen within a range is ours: where the range is wide the low side is taken, so that
 * heating and cooling are rather thought too slow than too quick.
 */
export const media: readonly Medium[] = [
  {
    id: "boiling-water",
    also: ["boiling", "boil"],
    celsius: { by: "boiling", below: 0 },
    watery: true,
    coefficient: 1000,
    range: [600, 1400],
    source: eggs,
  },
  {
    id: "simmering-water",
    also: ["simmering", "simmer"],
    celsius: { by: "boiling", below: 6 },
    watery: true,
    coefficient: 500,
    range: [200, 1000],
    source: { ...incropera, table: "1.1, liquid, natural convection 50 to 1000" },
  },
  {
    id: "poaching-water",
    also: ["poaching", "poach"],
    celsius: { by: "usual", usual: 78 },
    watery: true,
    coefficient: 300,
    range: [100, 1000],
    source: { ...incropera, table: "1.1, liquid, natural convection 50 to 1000" },
  },
  {
    id: "water-bath",
    also: ["water", "bath", "sous-vide"],
    celsius: { by: "asked", like: 60 },
    watery: true,
    coefficient: 95,
    range: [70, 400],
    source: memory("Baldwin, A Practical Guide to Sous Vide Cooking: 95; reproduces its printed tables"),
  },
  {
    id: "steam",
    also: ["steamer", "combi-steam"],
    celsius: { by: "boiling", below: 0 },
    watery: true,
    coefficient: 1000,
    range: [500, 5000],
    source: memory("condensing steam with air in it, far below the textbook range for pure steam"),
  },
  {
    id: "still-oven",
    also: ["oven", "range-oven", "deck-oven"],
    celsius: { by: "asked", like: 180 },
    watery: false,
    coefficient: 20,
    range: [12, 30],
    source: baking,
    drying: { kind: "air", convectiveShare: 0.3, vapourShare: 0.03, halvedAtKgPerM2: 0.2 },
  },
  {
    id: "fan-oven",
    also: ["convection-oven", "combi-oven", "combi-dry"],
    celsius: { by: "asked", like: 160 },
    watery: false,
    coefficient: 32,
    range: [22, 50],
    source: { ...baking, table: `${baking.table}; Incropera table 1.1, gas, forced convection 25 to 250` },
    drying: { kind: "air", convectiveShare: 0.6, vapourShare: 0.03, halvedAtKgPerM2: 0.2 },
  },
  {
    id: "humid-oven",
    also: ["combi-mixed"],
    celsius: { by: "asked", like: 120 },
    watery: false,
    coefficient: 32,
    range: [22, 60],
    source: memory("a fan oven with steam let in; half the air is vapour"),
    drying: { kind: "air", convectiveShare: 0.6, vapourShare: 0.5, halvedAtKgPerM2: 0.2 },
  },
  {
    id: "frying-fat",
    also: ["fat", "oil", "hot-fat", "deep-fryer", "fryer", "deep-fat"],
    celsius: { by: "usual", usual: 175 },
    watery: false,
    coefficient: 300,
    range: [250, 800],
    source: memory("deep frying without bubbles about 250 to 300, higher while water boils off"),
    drying: { kind: "boil", convectiveShare: 1, vapourShare: 0, halvedAtKgPerM2: 0.3 },
  },
  {
    id: "griddle",
    also: ["plancha", "pan", "hot-pan"],
    celsius: { by: "asked", like: 200 },
    watery: false,
    coefficient: 400,
    range: [200, 1000],
    source: memory("contact of meat patties with a hot plate"),
    drying: { kind: "boil", convectiveShare: 1, vapourShare: 0, halvedAtKgPerM2: 0.3 },
  },
  {
    id: "ice-bath",
    also: ["ice-water"],
    celsius: { by: "usual", usual: 1 },
    watery: true,
    coefficient: 150,
    range: [50, 1000],
    source: { ...incropera, table: "1.1, liquid, natural convection 50 to 1000; none measured for ice" },
  },
  {
    id: "walk-in",
    also: ["walk-in-cooler", "cooler", "cold-room", "refrigerator", "fridge"],
    celsius: { by: "usual", usual: 4 },
    watery: false,
    coefficient: 8,
    range: [5, 22],
    source: cold,
  },
  {
    id: "blast-chiller",
    also: ["chiller", "blast-chill"],
    celsius: { by: "usual", usual: 1 },
    watery: false,
    coefficient: 25,
    range: [20, 50],
    source: { ...incropera, table: "1.1, gas, forced convection 25 to 250; none measured for a chiller" },
  },
  {
    id: "freezer",
    also: [],
    celsius: { by: "usual", usual: -18 },
    watery: false,
    coefficient: 8,
    range: [5, 22],
    source: cold,
  },
  {
    id: "blast-freezer",
    also: ["shock-freezer"],
    celsius: { by: "usual", usual: -35 },
    watery: false,
    coefficient: 25,
    range: [20, 50],
    source: { ...incropera, table: "1.1, gas, forced convection 25 to 250; none measured for a freezer" },
  },
  {
    id: "still-air",
    also: ["rest", "air", "room", "air-at-rest"],
    celsius: { by: "usual", usual: 22 },
    watery: false,
    coefficient: 8,
    range: [4, 12],
    source: { ...incropera, table: "1.1, gas, natural convection 2 to 25; radiation included" },
  },
  {
    id: "covered-rest",
    also: ["foil-rest"],
    celsius: { by: "usual", usual: 22 },
    watery: false,
    coefficient: 4,
    range: [2, 8],
    source: { ...incropera, table: "1.1, gas, natural convection 2 to 25, the low end under a cover" },
  },
  {
    id: "hot-cabinet",
    also: ["hot-hold", "hot-box"],
    celsius: { by: "usual", usual: 65 },
    watery: false,
    coefficient: 10,
    range: [5, 20],
    source: { ...incropera, table: "1.1, gas, natural convection 2 to 25; radiation included" },
  },
  {
    id: "running-water",
    also: ["cold-water", "thawing-water"],
    celsius: { by: "usual", usual: 18 },
    watery: true,
    coefficient: 150,
    range: [50, 1000],
    source: { ...incropera, table: "1.1, liquid, natural convection 50 to 1000" },
  },
];
