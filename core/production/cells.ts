import type { FormulaCells } from "../formula/cells.ts";
import type { Cell } from "../ledger/ledger.ts";
import type { IngredientCells, NeedCells } from "./needs.ts";
import type { PlateCells } from "./plates.ts";
import type { ServiceBalance, SheetCells } from "./sheet-cells.ts";

/** The cells behind the amounts of a service, for the rooms that build on them and for the trace. */
export interface AmountCells {
  readonly covers: Cell;
  readonly formula: FormulaCells;
  readonly plates: readonly PlateCells[];
  /** Parts before what is made of them; all that the menu can ask for, also at 0 g. */
  readonly preparations: readonly NeedCells[];
  readonly ingredients: readonly IngredientCells[];
  /** By preparation. */
  readonly balances: ReadonlyMap<string, ServiceBalance>;
  readonly sheets: ReadonlyMap<string, { readonly first: SheetCells; readonly rest: SheetCells }>;
}
