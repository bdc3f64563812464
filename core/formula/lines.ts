import type { Cell, Ledger } from "../ledger/ledger.ts";
import { stated } from "../ledger/stated.ts";
import { gramsCell, type Matter } from "../pantry/grams.ts";
import type { Problem } from "../pantry/refusal.ts";
import { edibleOf, purchasedFor } from "../pantry/rules.ts";
import { allowedToTaste } from "./rules.ts";
import type { Line } from "./schema.ts";

/**
 * Share of a preparation's yield that is bought and paid for when an item is added to taste. Such a line has no
 * amount, so a small one is counted; it never enters the mass.
 */
export const TO_TASTE_SHARE = 0.005;

/** A line at the declared yield, g. */
export interface LineCells {
  readonly line: Line;
  /** JSON Pointer of the line in the book. */
  readonly at: string;
  /** Edible portion. */
  readonly ep: Cell;
  /** As purchased; the same cell when nothing is trimmed. */
  readonly ap: Cell;
  readonly trim: Cell | undefined;
  /** False for a line to taste, which is counted but not weighed in. */
  readonly weighed: boolean;
}

/** What a line needs to know of its item. */
export interface LineSource {
  readonly ledger: Ledger;
  readonly problems: Problem[];
  matterOf(item: Line["item"]): Matter;
  trim(ingredient: string, cut: string | undefined): Cell | undefined;
}

/**
 * The cells of a line: EP and AP grams at the declared yield. An amount is EP after the named cut unless it is
 * marked AP; the line's own trim yield overrides the cut's.
 * @param at JSON Pointer of the line. @param calc path of the preparation's sums.
 */
export function lineCells(source: LineSource, line: Line, at: string, calc: string, yieldG: Cell): LineCells {
  const { ledger } = source;
  const { item } = line;
  const path = `${calc}/lines/${line.id}`;
  const grams = line.amount
    ? gramsCell(ledger, `${path}/g`, line.amount, `${at}/amount`, source.matterOf(item), source.problems)
    : ledger.derive(`${path}/g`, "g", allowedToTaste, [yieldG, toTasteShare(ledger)]);
  const weighed = line.amount !== null;
  const trim =
    "preparation" in item
      ? undefined
      : line.trimYield === undefined
        ? source.trim(item.ingredient, item.cut)
        : stated(ledger, `book:${at}/trimYield`, "ratio", line.trimYield);
  if (trim === undefined) return { line, at, ep: grams, ap: grams, trim, weighed };
  if (line.as === "AP") {
    const ep = ledger.derive(`${path}/ep`, "g", edibleOf, [grams, trim]);
    return { line, at, ep, ap: grams, trim, weighed };
  }
  const ap = ledger.derive(`${path}/ap`, "g", purchasedFor, [grams, trim]);
  return { line, at, ep: grams, ap, trim, weighed };
}

function toTasteShare(ledger: Ledger): Cell {
  return stated(ledger, "const:/to-taste-share", "ratio", TO_TASTE_SHARE, {
    doc: "common practice, no source",
    kind: "memory",
  });
}
