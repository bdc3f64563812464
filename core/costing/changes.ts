import type { Cell } from "../ledger/ledger.ts";
import type { Amounts } from "../production/amounts.ts";

/** Where the figures of a trial stand in its trace. */
export const TRIED = "/tried";

/** A number of the book to be tried at another value. */
export interface Change {
  /** JSON Pointer into the book: a price, a trim yield, an amount. */
  readonly path: string;
  readonly value: number;
}

/** What may be tried, by the end of its pointer, and what it must be. */
const TRIABLE: readonly {
  readonly end: RegExp;
  readonly fits: (value: number) => boolean;
  readonly must: string;
}[] = [
  { end: /\/offers\/\d+\/price$/, fits: (value) => value >= 0, must: "a price is 0 or more" },
  {
    end: /\/trimYield$/,
    fits: (value) => value > 0 && value <= 1,
    must: "a trim yield is above 0, at most 1",
  },
  { end: /\/amount\/value$/, fits: (value) => value > 0, must: "an amount is above 0" },
];

/** A number that cannot be tried, and why. */
export class NotTriable extends RangeError {}

/** The cell of a number that can be tried. @throws NotTriable saying why it cannot. */
export function triable(amounts: Amounts, { path, value }: Change): Cell {
  const kind = TRIABLE.find((each) => each.end.test(path));
  if (!kind)
    throw new NotTriable(`${path} is not tried here: try a price, a trim yield, a portion or a yield`);
  if (!Number.isFinite(value) || !kind.fits(value)) throw new NotTriable(`${value}: ${kind.must}`);
  const cell = amounts.ledger.find(`book:${path}`);
  if (cell === undefined) throw new NotTriable(`nothing of this service rests on ${path}`);
  return cell;
}

/**
 * Reads something with some numbers of the ledger changed, then puts them back: after it every cell has its value
 * again, to the bit (ledger, L2).
 */
export function withChanged<T>(
  { ledger }: Amounts,
  changes: readonly (readonly [cell: Cell, value: number])[],
  read: () => T,
): T {
  const before = changes.map(([cell]) => [cell, ledger.value(cell)] as const);
  try {
    for (const [cell, value] of changes) ledger.change(cell, value);
    ledger.settle();
    return read();
  } finally {
    for (const [cell, value] of before.toReversed()) ledger.change(cell, value);
    ledger.settle();
  }
}
