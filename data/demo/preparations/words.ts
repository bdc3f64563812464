import type { z } from "zod";
import type { PreparationSchema } from "../../../core/formula/schema.ts";

/** A preparation as it is written by hand: what a schema fills in by default may be left out. */
export type PreparationInput = z.input<typeof PreparationSchema>;
export type StepInput = PreparationInput["steps"][number];
export type LineInput = PreparationInput["lines"][number];
type WorkInput = NonNullable<StepInput["work"]>;
type UseInput = NonNullable<StepInput["uses"]>[number];
type PullInput = NonNullable<StepInput["pull"]>[number];

export const g = (value: number) => ({ value, unit: "g" }) as const;

interface LineOptions {
  /** Only when the same item enters twice. */
  readonly id?: string;
  readonly cut?: string;
  readonly note?: string;
}

/** A line of an ingredient, in grams of the edible portion after the cut. */
export function of(ingredient: string, grams: number, step: string, options: LineOptions = {}): LineInput {
  const { id = ingredient, cut, note } = options;
  return {
    id,
    item: cut === undefined ? { ingredient } : { ingredient, cut },
    amount: g(grams),
    step,
    ...(note === undefined ? {} : { note }),
  };
}

/** A line of another preparation, in grams. */
export function made(preparation: string, grams: number, step: string, id = preparation): LineInput {
  return { id, item: { preparation }, amount: g(grams), step };
}

interface Minutes {
  readonly fixed: number;
  readonly perKg?: number;
  readonly perPiece?: number;
  /** Fewest and most hands at once; the variable minutes are shared among them. */
  readonly least?: number;
  readonly most?: number;
  /** A break may fall into it. */
  readonly breaks?: boolean;
}

/** Hands at a station: minutes for one pair of hands. */
export function work(station: string, skill: string, minutes: Minutes): WorkInput {
  const { fixed, perKg, perPiece, least = 1, most = least, breaks = false } = minutes;
  return {
    fixedMin: fixed,
    ...(perKg === undefined ? {} : { perKgMin: perKg }),
    ...(perPiece === undefined ? {} : { perPieceMin: perPiece }),
    hands: { least, most, split: "divides" },
    skill,
    station,
    interruptible: breaks,
  };
}

type During = UseInput["during"];
interface UseOptions {
  readonly during?: During;
  readonly per?: "batch" | "kg" | "piece";
  readonly setC?: number;
  readonly toleranceC?: number;
  readonly depthMm?: number;
}

/** Room on a kind of equipment; while hands work and while it waits unless told. */
export function on(
  kind: string,
  value: number,
  unit: UseInput["space"]["unit"],
  options: UseOptions = {},
): UseInput {
  const { during = "both", per, setC, toleranceC, depthMm } = options;
  return {
    kind,
    during,
    space: { value, unit },
    ...(per === undefined ? {} : { per }),
    ...(setC === undefined ? {} : { setC }),
    ...(toleranceC === undefined ? {} : { toleranceC }),
    ...(depthMm === undefined ? {} : { depthMm }),
  };
}

/** A blast chiller at -12 °C by its kilograms and its positions; how deep the food lies in the trays, mm. */
export const blast = (positionsPerKg: number, depthMm: number): UseInput[] => [
  on("chiller", 1, "kg", { per: "kg", setC: -12, depthMm }),
  on("chiller", positionsPerKg, "position", { per: "kg", setC: -12, depthMm }),
];

/** Smallware to have ready. */
export function pull(smallware: string, count: number, per?: "kg" | "piece"): PullInput {
  return { smallware, count, ...(per === undefined ? {} : { per }) };
}

export const HOUR = 60;
export const DAY = 24 * HOUR;

export const cold = (maxMin: number) => ({ state: "cold", maxMin, atMostC: 4 }) as const;
export const frozen = (maxMin: number) => ({ state: "frozen", maxMin, atMostC: -18 }) as const;
export const ambient = (maxMin: number) => ({ state: "ambient", maxMin }) as const;
/** 57 °C is the Food Code's least (3-501.16); this kitchen holds at 63 °C. */
export const hot = (maxMin: number) => ({ state: "hot", maxMin, atLeastC: 63 }) as const;

/** Days in the cold room at 4 °C or below, the making day counted. */
export const coldLife = (days: number) => ({ state: "cold", maxMinutes: days * DAY, atMostC: 4 }) as const;
export const frozenLife = (days: number) =>
  ({ state: "frozen", maxMinutes: days * DAY, atMostC: -18 }) as const;
export const ambientLife = (minutes: number) => ({ state: "ambient", maxMinutes: minutes }) as const;
export const hotLife = (minutes: number) => ({ state: "hot", maxMinutes: minutes, atLeastC: 63 }) as const;

export const invented = { doc: "own trial, invented for the demo", kind: "invented" } as const;
export const foodCode = (table: string) => ({ doc: "FDA Food Code 2022", table, kind: "published" }) as const;

/** Two stages of cooling: 57 to 21 °C within two hours, to 5 °C within six in all (Food Code 3-501.14). */
export const cooling = (what: string, level: "critical" | "practice") =>
  ({
    hazard: `spores that grow out while ${what} cools (C. perfringens, B. cereus)`,
    limit: { what: "coreC", op: "<=", value: 5 },
    and: [
      { what: "coreC", op: "<=", value: 21, withinMin: 120 },
      { what: "coreC", op: "<=", value: 5, withinMin: 360 },
    ],
    level,
    monitor: "Probe the middle of the deepest tray on going in, at 2 h and at the end.",
    corrective:
      "Above 21 °C at 2 h: reheat to 74 °C at once and cool again in shallower trays, once only. Above 5 °C at 6 h: discard.",
    record: "Cooling log: tray, three temperatures, three times, initials.",
    source: foodCode("3-501.14"),
  }) satisfies StepInput["control"];
