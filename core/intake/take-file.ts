import type { Ingredient } from "../pantry/schema.ts";
import type { Offer } from "../purchasing/schema.ts";
import { type Compared, compareRow } from "./compare.ts";
import type { Doubt } from "./doubt.ts";
import { type PantryIndex, SURE } from "./link.ts";
import type { PriceRow } from "./price-list.ts";
import { type Tie, tieRows } from "./tie.ts";

/** A row of a list, what it is tied to and what it changes. */
export interface ListLine {
  readonly row: PriceRow;
  readonly tie: Tie | null;
  /** Missing while the row is tied to nothing. */
  readonly compared?: Compared;
}

/** All that stands beside a list once it is tied to a pantry and a supplier's offers. */
export interface TiedList {
  readonly lines: readonly ListLine[];
  /** One list of what a person should settle. */
  readonly doubts: readonly Doubt[];
}

/** What a list is read beside. */
export interface ListSide {
  readonly index: PantryIndex;
  readonly pantry: ReadonlyMap<string, Ingredient>;
  /** The supplier's offers until now. */
  readonly offers: readonly Offer[];
  /** ISO date on which the list begins. */
  readonly from: string;
  readonly cutOf: (ingredient: string) => string | undefined;
  /** Currency of the kitchens that buy here, to tell when the list names another. */
  readonly currency?: string;
}

/**
 * Ties the rows of a list and sets them beside the offers until now; gathers what is to be asked.
 * @param said what a person said a row is tied to: null for nothing, on purpose.
 */
export function tieList(
  rows: readonly PriceRow[],
  side: ListSide,
  said: (row: number) => Tie | null | undefined = () => undefined,
): TiedList {
  const guessed = tieRows(rows, side.index, side.offers);
  const ties = guessed.map((tie, i) => {
    const own = said(i);
    return own === undefined ? tie : own;
  });
  const lines = rows.map((row, i): ListLine => {
    const tie = ties[i] ?? null;
    const of = tie && side.pantry.get(tie.ingredient);
    if (!tie || !of) return { row, tie: null };
    const tied = { row, ingredient: tie.ingredient, ...(tie.cut ? { cut: tie.cut } : {}) };
    return { row, tie, compared: compareRow(tied, side.offers, side.from, of, side.cutOf) };
  });
  const doubts: Doubt[] = [];
  const strange =
    side.currency && rows.find(({ currency }) => currency !== "" && !isCurrency(currency, side.currency!));
  if (strange)
    doubts.push({
      ...{ path: "", at: strange.at },
      ask: `the list is in ${strange.currency}, the kitchen counts in ${side.currency}: are these the right prices?`,
    });
  lines.forEach(({ row, tie, compared }, i) => {
    const path = `/rows/${i}`;
    const ask = (text: string) => doubts.push({ path, at: row.at, ask: `${row.description}: ${text}` });
    if (row.doubt) ask(row.doubt);
    if (!tie) {
      if (said(i) === undefined) ask("not in the pantry: tie it, or leave it out");
    } else if (tie.confidence < SURE) ask(`is it the pantry's ${side.pantry.get(tie.ingredient)!.name}?`);
    if (tie && tie.confidence >= SURE && compared?.doubt) ask(compared.doubt);
  });
  return { lines, doubts };
}

const SIGNS: Readonly<Record<string, string>> = { "€": "EUR", "£": "GBP", $: "USD" };
const isCurrency = (said: string, wanted: string) => (SIGNS[said] ?? said.toUpperCase()) === wanted;
