import { HyperFormula } from "hyperformula";
import { type Cell, given, type Ledger } from "../core/ledger/ledger.ts";

/**
 * The sums of a ledger as a spreadsheet, one cell for one cell, to measure against: HyperFormula (GPL-3.0, used by
 * this bench alone).
 */
export interface Spreadsheet {
  /** Writes a number into a given cell; the engine computes what depends on it before it returns. */
  set(cell: Cell, value: number): void;
  value(cell: Cell): number;
}

/** Formula of a rule from the addresses of its inputs. Operators where they do: functions are slower there. */
const FORMULAS: Readonly<Record<string, (...at: string[]) => string>> = {
  sum: (...at) => (at.length === 0 ? "0" : at.join("+")),
  minus: (a, b) => `${a}-${b}`,
  times: (a, b) => `${a}*${b}`,
  over: (a, b) => `IF(${b}=0,0,${a}/${b})`,
  sumOfProducts: (...at) => pairs(at) || "0",
  smallest: (...at) => `MIN(${at.join(",")})`,
  shortOf: (a, b) => `MAX(0,${a}-${b})`,
  gramsOfVolume: (a, b, c) => `${a}*${b}*${c}`,
  gramsOfPieces: (a, b, c) => `${a}*${b}*${c}`,
  edibleOf: (a, b) => `${a}*${b}`,
  purchasedFor: (a, b) => `${a}/${b}`,
  keptByFactor: (a, b) => `${a}*${b}`,
  lostByFactor: (a, b) => `${a}*(1-${b})`,
  takenUpByFactor: (a, b) => `${a}*(${b}-1)`,
  shareLeft: (...at) => `IF(1-${at.join("-")}<0.000000001,0,1-${at.join("-")})`,
  allowedToTaste: (a, b) => `${a}*${b}`,
  wholePieces: (a, b) => `IF(${a}>0,${up(`${a}/${b}`)},0)`,
  piecesWithin: (a, b) => `INT(${a}/${b}*1.000000001)`,
  batchCount: (a, b) => `IF(${a}>0,${up(`${a}/${b}`)},0)`,
  evenBatch: (a, n) => `IF(${n}=0,0,${a}/${n})`,
  largerBatch: (a, n) => `IF(${n}=0,0,ROUNDUP(${a}/${n},0))`,
  smallerBatch: (a, n) => `IF(${n}=0,0,INT(${a}/${n}))`,
  largerBatches: (a, n) => `IF(${n}=0,0,IF(MOD(${a},${n})=0,${n},MOD(${a},${n})))`,
  fullBatches: (n) => `MAX(0,${n}-1)`,
  restBatch: (a, n, most) => `IF(${n}=0,0,${a}-(${n}-1)*${most})`,
  restOfCovers: (...at) => at.join("-"),
  shareByLargestRemainder: (place, total, ...weights) => largestRemainder(place!, total!, weights),
  spareOfVariant: (count) => `IF(${count}>0,1,0)`,
  spareForTasting: (count, tasting) => `IF(${count}>0,${tasting},0)`,
  weighedOn: (exact, ...steps) => weighed(exact!, steps),
  preparedPrice: (yieldG, ...at) => `(${pairs(at)})/${yieldG}`,
  usablePrice: (a, b) => `${a}/${b}`,
  usablePriceWithTrim: (price, trim, share, value) => `MAX(0,${price}-${share}*${value}/1000)/${trim}`,
  perKilogram: (a) => `${a}*1000`,
  meanTrim: (ep, ap) => `IF(${ap}>0,${ep}/${ap},1)`,
};

function pairs(at: readonly string[]): string {
  return at.flatMap((cell, i) => (i % 2 === 0 ? [`${cell}*${at[i + 1]}`] : [])).join("+");
}

function up(quotient: string): string {
  return `ROUNDUP(${quotient}-0.000000001*MAX(1,${quotient}),0)`;
}

/** Whole share, and one more if fewer options have a larger remainder than there are guests left. */
function largestRemainder(place: string, total: string, weights: readonly string[]): string {
  const shares = weights.map((weight) => `${total}*${weight}/(${weights.join("+")})`);
  const rests = shares.map((share) => `(${share}-INT(${share}))`);
  const left = `(${total}-${shares.map((share) => `INT(${share})`).join("-")})`;
  const mine = (i: number) => {
    const before = rests.map((rest, j) => `IF(${rest}${j < i ? ">=" : ">"}${rests[i]},1,0)`);
    return `INT(${shares[i]})+IF(${before.filter((_, j) => j !== i).join("+") || "0"}<${left},1,0)`;
  };
  return `CHOOSE(${place}+1,${weights.map((_, i) => mine(i)).join(",")})`;
}

/** The coarsest step that moves the amount by no more than 1 %, else the finest; steps in rising order. */
function weighed(exact: string, steps: readonly string[]): string {
  const step = steps.reduce((other, each) => `IF(${each}/2<=0.01*${exact},${each},${other})`, steps[0]!);
  return `IF(${exact}<=0,0,IF(${exact}<${steps[0]}/2,${exact},ROUND(${exact}/${step},0)*(${step})))`;
}

/**
 * Builds the spreadsheet of a ledger, or of the cells that `of` rest on.
 * @throws when a rule has no formula: then the two would not be compared on the same sums.
 */
export function spreadsheetOf(ledger: Ledger, of?: readonly Cell[]): Spreadsheet {
  const wanted = of ? restingOn(ledger, of) : Array.from({ length: ledger.size }, (_, i) => i as Cell);
  const rowOf = new Map(wanted.map((cell, row) => [cell, row]));
  const rows = wanted.map((cell): (number | string)[] => {
    const rule = ledger.ruleOf(cell);
    if (rule === given) return [ledger.value(cell)];
    const formula = FORMULAS[rule.name];
    if (!formula) throw new Error(`bench: the rule ${rule.name} has no formula`);
    return [`=${formula(...ledger.inputsOf(cell).map((input) => `A${rowOf.get(input)! + 1}`))}`];
  });
  // Its own rounding to 10 digits would hide differences (and cost it time): as many digits as a double has.
  const options = {
    licenseKey: "gpl-v3",
    precisionRounding: 15,
    smartRounding: false,
    maxRows: rows.length + 1,
  };
  const engine = HyperFormula.buildFromArray(rows, options);
  const at = (cell: Cell) => ({ sheet: 0, col: 0, row: rowOf.get(cell)! });
  return {
    set: (cell, value) => void engine.setCellContents(at(cell), value),
    value: (cell) => engine.getCellValue(at(cell)) as number,
  };
}

function restingOn(ledger: Ledger, of: readonly Cell[]): Cell[] {
  const found = new Set<Cell>(of);
  for (const cell of found) for (const input of ledger.inputsOf(cell)) found.add(input);
  return [...found].sort((a, b) => a - b);
}

/** Cells whose values differ by more than `tolerance` relative. */
export function differences(
  ledger: Ledger,
  sheet: Spreadsheet,
  cells: readonly Cell[],
  tolerance = 1e-9,
): Cell[] {
  return cells.filter((cell) => {
    const [mine, other] = [ledger.value(cell), sheet.value(cell)];
    return !(Math.abs(mine - other) <= tolerance * Math.max(1, Math.abs(mine)));
  });
}
