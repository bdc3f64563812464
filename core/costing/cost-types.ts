import type { PriceOutcome } from "./pricing.ts";
import type { Sensitivity } from "./sensitivity.ts";

/** What plates and menu cost, in the kitchen's currency; hands apart from food. */
export interface PlateCosts {
  readonly currency: string;
  readonly perPlate: readonly {
    readonly dish: string;
    readonly variant: string;
    readonly plate: number;
    readonly share?: number;
  }[];
  /** Plates of all courses, per cover. */
  readonly menu: number;
  readonly menuShare?: number;
  /** What goes with every cover and stands on no plate. */
  readonly qFactor?: {
    readonly by: "amount" | "ratio" | "items";
    readonly perCover: number;
    readonly items: readonly { readonly item: string; readonly g: number; readonly cost: number }[];
  };
  /** Plates with what surrounds them; its share of what a cover pays without tax and service charge. */
  readonly food?: { readonly perCover: number; readonly earned?: number; readonly share?: number };
  readonly labour?: Labour;
  /** Prices for a wanted share. */
  readonly price?: PriceOutcome;
}

/** Hands at standard; `planned` is what the plan's own hands cost. */
export interface Labour {
  /** Plates of the guests alone. */
  readonly perCover: number;
  /** Everything made and plated. */
  readonly total: number;
  readonly minutes: number;
  /** In the order of `perPlate`. */
  readonly perPlate: readonly number[];
  readonly preparations: readonly {
    readonly preparation: string;
    readonly minutes: number;
    readonly cost: number;
  }[];
  /** Skills without a rate: their work is not in the figures. */
  readonly unrated: readonly string[];
  readonly planned?: number;
}

export interface Cost extends PlateCosts {
  /** Value of what is used, at the usable-gram price. */
  readonly used: number;
  /** Value of what is bought beyond the need, at the price paid. */
  readonly leftover: number;
  readonly preparations: readonly {
    readonly preparation: string;
    readonly perKg: number;
    readonly total: number;
  }[];
  readonly sensitivity?: Sensitivity;
}
