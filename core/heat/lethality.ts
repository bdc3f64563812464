import { fsisChicken, fsisMeat, fsisTurkey, type HoldRow } from "./fsis-tables.ts";
import type { DAndZ, LethalityTableRef } from "./schema.ts";
import type { KillRate } from "./stepper.ts";

/** log10 reductions a second at a temperature: 1 / D, with D = dMinutes × 10^((referenceC - T) / zC). */
export function killRateOf(organism: DAndZ): KillRate {
  const perSecond = 1 / (60 * organism.dMinutes);
  const steep = Math.LN10 / organism.zC;
  return (celsius) => perSecond * Math.exp(steep * (celsius - organism.referenceC));
}

/** Time of a D-value in minutes at a temperature in °C. */
export function dMinutesAt(organism: DAndZ, celsius: number): number {
  return 1 / (60 * killRateOf(organism)(celsius));
}

/** log10 reductions that each table's printed times stand for. */
export function tableLog10(ref: LethalityTableRef): number {
  return { "fsis-meat-6.5": 6.5, "fsis-meat-7": 7, "fsis-meat-5": 5 }[ref.table as string] ?? 7;
}

export type HoldPoint = { celsius: number; seconds: number };

/**
 * The printed column that applies, coldest first, rows of 0 left out. Fat is taken up to the next whole per
 * cent, unknown fat and fat above 12 % as 12 % (FSIS-GD-2021-14, p. 39). Other poultry and mixtures take the
 * longer of chicken and turkey row by row (same document).
 */
export function holdTable(ref: LethalityTableRef): HoldPoint[] {
  const fat = Math.min(12, Math.max(1, Math.ceil(ref.fatPercent ?? 12))) - 1;
  switch (ref.table) {
    case "fsis-meat-6.5":
      return column(fsisMeat, 0);
    case "fsis-meat-7":
      return column(fsisMeat, 1);
    case "fsis-meat-5":
      return column(fsisMeat, 2);
    case "fsis-chicken-7":
      return column(fsisChicken, fat);
    case "fsis-turkey-7":
      return column(fsisTurkey, fat);
    case "fsis-poultry-7": {
      const turkey = new Map(column(fsisTurkey, fat).map((p) => [p.celsius, p.seconds]));
      const chicken = new Map(column(fsisChicken, fat).map((p) => [p.celsius, p.seconds]));
      return [...turkey.keys()].map((celsius) => ({
        celsius,
        seconds: Math.max(turkey.get(celsius)!, chicken.get(celsius) ?? 0),
      }));
    }
  }
}

function column(rows: readonly HoldRow[], which: number): HoldPoint[] {
  return rows
    .map(([fahrenheit, seconds]) => ({ celsius: ((fahrenheit - 32) * 5) / 9, seconds: seconds[which]! }))
    .filter((point) => point.seconds > 0);
}

/**
 * Seconds to hold at a temperature by a table: log-linear between printed rows, for ever below the first row,
 * and never less than the last printed time above it.
 */
export function holdSecondsAt(table: readonly HoldPoint[], celsius: number): number {
  const first = table[0]!;
  const last = table[table.length - 1]!;
  // A Fahrenheit row converted and back may miss itself by a rounding.
  if (celsius < first.celsius - 1e-9) return Number.POSITIVE_INFINITY;
  if (celsius >= last.celsius) return last.seconds;
  let i = table.length - 2;
  while (i > 0 && table[i]!.celsius > celsius) i--;
  const a = table[i]!;
  const b = table[i + 1]!;
  const share = (celsius - a.celsius) / (b.celsius - a.celsius);
  return Math.exp(Math.log(a.seconds) + share * (Math.log(b.seconds) - Math.log(a.seconds)));
}

/** The table as a kill rate, so that come-up counts by integration of 1 / time and by nothing else. */
export function killRateOfTable(ref: LethalityTableRef): KillRate {
  const table = holdTable(ref);
  const log10 = tableLog10(ref);
  return (celsius) => log10 / holdSecondsAt(table, celsius);
}

export type Moment = { minute: number; celsius: number };

/**
 * log10 reductions over a logged or computed curve (minutes, °C; straight lines between points), by integrating
 * a kill rate. Each piece is cut until its temperature moves by less than 0.25 K.
 */
export function reductionOver(curve: readonly Moment[], rate: KillRate): number {
  let sum = 0;
  for (let i = 1; i < curve.length; i++) {
    const a = curve[i - 1]!;
    const b = curve[i]!;
    const pieces = Math.max(1, Math.ceil(Math.abs(b.celsius - a.celsius) / 0.25));
    const seconds = ((b.minute - a.minute) * 60) / pieces;
    for (let j = 0; j < pieces; j++) {
      const at = (x: number) => rate(a.celsius + ((b.celsius - a.celsius) * (j + x)) / pieces);
      sum += (seconds / 6) * (at(0) + 4 * at(0.5) + at(1));
    }
  }
  return sum;
}
