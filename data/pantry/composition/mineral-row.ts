/** Trans fat g, vitamin D µg, calcium, iron and potassium mg in 100 g; null where nothing is recorded. */
export type MineralRow = readonly [number | null, number | null, number | null, number | null, number | null];

/** The columns of a row, in order. */
export const MINERAL_COLUMNS = ["trans", "vitaminDUg", "calciumMg", "ironMg", "potassiumMg"] as const;
