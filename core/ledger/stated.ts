import type { Cell, CellSource, Ledger } from "./ledger.ts";

/**
 * The cell of a number that is read or stated once and used often: found by its path, or written down now.
 * @throws as `Ledger.give` when the value is not finite.
 */
export function stated(ledger: Ledger, path: string, unit: string, value: number, source?: CellSource): Cell {
  return ledger.find(path) ?? ledger.give(path, unit, value, source);
}

/** The cell of nothing: a sum that has no terms, in any unit. */
export function nothing(ledger: Ledger): Cell {
  return stated(ledger, "const:/nothing", "", 0);
}
