import type { Source } from "./media-data.ts";
import type { DAndZ } from "./schema.ts";

/** Heat resistance as published: what organism, in what, at what temperatures it was measured. */
export type Organism = DAndZ & {
  id: string;
  name: string;
  food: string;
  /** Temperatures the figures rest on, °C. */
  rangeC: readonly [number, number];
  /** Reduction usually asked for, log10. */
  usualLog10: number;
  source: Source;
};

const osaili2006: Source = { doc: "Osaili et al. 2006, J. Food Prot. 69:1080, abstract", kind: "published" };
const osaili2007: Source = { doc: "Osaili et al. 2007, J. Food Sci., abstract", kind: "published" };
const fsis = (what: string): Source => ({
  doc: `fitted to FSIS-GD-2021-14, ${what}`,
  kind: "published",
});

/**
 * The fitted FSIS rows are straight lines through tables that are not quite straight: to judge by FSIS, use the
 * tables themselves. The published studies give D at both ends of their range; D is taken at the end nearer the
 * use, z as printed.
 */
export const organisms: readonly Organism[] = [
  {
    id: "salmonella-poultry",
    name: "Salmonella",
    food: "chicken of 12 % fat, the slowest printed",
    dMinutes: 5.4,
    referenceC: 60,
    zC: 5.3,
    rangeC: [57.8, 71.7],
    usualLog10: 7,
    source: fsis("table 3, 12 % fat"),
  },
  {
    id: "salmonella-meat",
    name: "Salmonella",
    food: "meat",
    dMinutes: 1.77,
    referenceC: 60,
    zC: 5.56,
    rangeC: [54.4, 69.4],
    usualLog10: 6.5,
    source: fsis("table 2"),
  },
  {
    id: "salmonella-beef-patties",
    name: "Salmonella",
    food: "beef patties",
    dMinutes: 67.68,
    referenceC: 55,
    zC: 6,
    rangeC: [55, 70],
    usualLog10: 6.5,
    source: osaili2006,
  },
  {
    id: "listeria-beef-patties",
    name: "Listeria monocytogenes",
    food: "beef patties",
    dMinutes: 81.37,
    referenceC: 55,
    zC: 6.1,
    rangeC: [55, 70],
    usualLog10: 6,
    source: osaili2006,
  },
  {
    id: "listeria-pork-patties",
    name: "Listeria monocytogenes",
    food: "pork patties",
    dMinutes: 150.46,
    referenceC: 55,
    zC: 5.9,
    rangeC: [55, 70],
    usualLog10: 6,
    source: osaili2007,
  },
  {
    id: "stec-beef-patties",
    name: "E. coli O157:H7",
    food: "beef patties",
    dMinutes: 27.62,
    referenceC: 55,
    zC: 5.2,
    rangeC: [55, 70],
    usualLog10: 5,
    source: osaili2006,
  },
  {
    id: "listeria-2-min-70",
    name: "Listeria monocytogenes",
    food: "any, the 2 minutes at 70 °C benchmark for 6 log",
    dMinutes: 2 / 6,
    referenceC: 70,
    zC: 7.5,
    rangeC: [60, 85],
    usualLog10: 6,
    source: {
      doc: "NZ Ministry for Primary Industries Technical Paper 2016/05; z 7.5 from memory",
      kind: "published",
    },
  },
];

export function organismNamed(id: string): Organism | undefined {
  return organisms.find((o) => o.id === id);
}
