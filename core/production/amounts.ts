import type { Loss } from "../formula/balance.ts";
import type { Ledger } from "../ledger/ledger.ts";
import type { Problem } from "../pantry/refusal.ts";
import type { Need, Placement } from "../plating/schema.ts";
import type { AmountCells } from "./cells.ts";
import type { Kitchen, Menu, Service } from "./schema.ts";
import type { Meets } from "./variants.ts";

export type { Meets } from "./variants.ts";

/** Plates of one dish in one form, in one course. */
export interface PlateAmount {
  readonly course: string;
  readonly dish: string;
  /** `STANDARD`, or the needs of the variants merged, joined by "+": "vegetarian+coeliac". */
  readonly variant: string;
  /** Needs of the guests who get it, in the order of the closed list. */
  readonly needs: readonly Need[];
  /** Guests who get it; may be 0. */
  readonly count: number;
  /** Plates beyond the guests: one for a variant, the tasting plates for the standard form. */
  readonly spare: number;
  readonly seats: readonly string[];
  /** What is on the plate after the variant's drops, replacements and additions, in order of `n`. */
  readonly placements: readonly Placement[];
  /** Groups that no option of this course can feed (the same list on each row of the course). */
  readonly notFed: readonly string[];
}

/** One batch; the shares of a preparation's batches add to 1. */
export interface BatchAmount {
  /** From 1. */
  readonly index: number;
  readonly grams: number;
  readonly pieces?: number;
  /** Of the preparation's whole grams. */
  readonly share: number;
}

/** Mass through one step at the declared yield, g: inG + waterG = outG + lossG. */
export interface StepAmount {
  readonly step: string;
  readonly inG: number;
  readonly waterG: number;
  readonly outG: number;
  readonly lossG: number;
  readonly lost: readonly { readonly how: Loss; readonly g: number }[];
}

/** What asks for a preparation or an ingredient, and how much of it, g. */
export interface UseAmount {
  readonly course?: string | undefined;
  readonly dish?: string | undefined;
  readonly variant?: string | undefined;
  readonly preparation?: string | undefined;
  /** Line of that preparation. */
  readonly line?: string | undefined;
  /** Place in the menu's list of what goes with every cover. */
  readonly beside?: number | undefined;
  readonly grams: number;
}

/**
 * One preparation of the service. A step's mass in a batch is its nominal mass × factor × the batch's share.
 * Only preparations with grams above 0 are listed, parts before what is made of them.
 */
export interface PreparationAmount {
  readonly preparation: string;
  /** Declared yield, g. */
  readonly nominalG: number;
  /** What plates and other preparations ask for, with overage, g. */
  readonly askedG: number;
  /** Of it: overage, g. */
  readonly overageG: number;
  /** Taken from stock, g. */
  readonly stockG: number;
  /** To be made, g: whole pieces and whole batches where the preparation asks for them. */
  readonly grams: number;
  /** grams / nominalG. */
  readonly factor: number;
  readonly pieces?: number;
  readonly pieceG?: number;
  readonly batches: readonly BatchAmount[];
  readonly steps: ReadonlyMap<string, StepAmount>;
  readonly usedBy: readonly UseAmount[];
}

/** One ingredient in one cut over the whole service. */
export interface IngredientAmount {
  readonly ingredient: string;
  readonly cut?: string;
  /** Edible portion, g. */
  readonly epG: number;
  /** As purchased uncut, g. */
  readonly apG: number;
  /** By line of a preparation, by dish, or beside the plates (grams are EP). */
  readonly usedBy: readonly UseAmount[];
}

/** A doubt that does not stop the work; its path is a JSON Pointer into the book. */
export type AmountsWarning = Problem;

/** All amounts of one service at one number of covers: plain values, never changed after. */
export interface Amounts {
  readonly service: Service;
  readonly menu: Menu;
  readonly kitchen: Kitchen;
  readonly covers: number;
  readonly plates: readonly PlateAmount[];
  readonly preparations: ReadonlyMap<string, PreparationAmount>;
  readonly ingredients: readonly IngredientAmount[];
  readonly warnings: readonly AmountsWarning[];
  /** The cells behind the numbers; they follow the newest `update`. */
  readonly ledger: Ledger;
  readonly cells: AmountCells;
  /**
   * The same service at another number of covers: what depends on it is computed anew, the rest is kept.
   * @throws Refusal when the covers are fewer than the guests named, or no whole number above 0.
   */
  update(covers: number): Amounts;
}

export interface AmountsOptions {
  /** Instead of the service's own. */
  readonly covers?: number | undefined;
  /** Id of another kitchen. */
  readonly kitchen?: string | undefined;
  readonly meets: Meets;
}
