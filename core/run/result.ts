import type { Cost } from "../costing/cost-types.ts";
import type { TraceNode } from "../ledger/ledger.ts";
import type { Need } from "../plating/schema.ts";
import type { Plan, PlanStatus, PlanTask, PrepList, PullItem } from "../production/plan-types.ts";
import type { ControlPoint } from "../safety/control.ts";
import type { EveryCover } from "../safety/every-cover.ts";
import type { FrontOfHouseLine } from "../safety/front-of-house.ts";
import type { Label } from "../safety/labels.ts";
import type { AllergenCell } from "../safety/matrix.ts";
import type { NutritionLabel } from "../safety/nutrition-types.ts";
import type { SeatingSheet } from "../safety/seating.ts";
import type { HeatOutcome } from "./heat-outcome.ts";

export type { AllergenState } from "../safety/contents.ts";
export type {
  AllergenCell,
  ControlPoint,
  Cost,
  FrontOfHouseLine,
  HeatOutcome,
  Label,
  NutritionLabel,
  Plan,
  PlanStatus,
  PlanTask,
  PrepList,
  PullItem,
};

/**
 * What `run` gives back. Every number in it has a node in `trace` under its JSON Pointer (RFC 6901) into this
 * result; inputs are pointers into the result, `book:` and a pointer into the book, or `calc:` and a name for a
 * sum on the way.
 */
export interface Result {
  readonly summary: Summary;
  readonly needs: readonly PreparationNeed[];
  readonly balance: readonly Balance[];
  /** One order a supplier and delivery, those that must be placed first foremost. */
  readonly orders: readonly SupplierOrder[];
  readonly ordering: Ordering;
  readonly cost: Cost;
  readonly allergens: readonly AllergenCell[];
  readonly plan: Plan;
  readonly plates: readonly PlateCount[];
  /** Who sits where and gets what at each course. */
  readonly seating: SeatingSheet;
  readonly batchSheets: readonly BatchSheet[];
  readonly prepLists: readonly PrepList[];
  readonly pull: readonly PullItem[];
  readonly labels: readonly Label[];
  readonly control: readonly ControlPoint[];
  /** What was computed of the heat in steps with a target, and in those that chill what was hot. */
  readonly heat: readonly HeatOutcome[];
  readonly frontOfHouse: readonly FrontOfHouseLine[];
  /** What stands on the table for everyone, for the floor. */
  readonly everyCover: readonly EveryCover[];
  /** Nutrition and ingredients of every plate served and preparation made. */
  readonly nutrition: readonly NutritionLabel[];
  readonly warnings: readonly Warning[];
  readonly trace: Readonly<Record<string, TraceNode>>;
}

export interface Quantity {
  readonly value: number;
  readonly unit: string;
}

export interface Warning {
  readonly path: string;
  readonly what: string;
  readonly mend: string;
}

export interface Summary {
  readonly service: string;
  readonly serviceName: string;
  readonly kitchen: string;
  /** ISO instant with zone of the first course. */
  readonly at: string;
  readonly covers: number;
  /** One plain sentence: whether it fits, the spare time, what is tight. */
  readonly sentence: string;
  readonly status: PlanStatus;
  readonly preparations: number;
  readonly platesTotal: number;
  readonly handsMinutes: number;
  readonly orderTotal: string;
  readonly costPerCover: number;
  readonly costShare?: number;
  /** Smallest slack of any task, whole minutes. */
  readonly spareMin?: number;
  /** Most pairs of hands at work at once; with a plan. */
  readonly peakHands?: number;
  /** Holds with less than a tenth left when what is held is used; with a plan. */
  readonly holdsNearlyUsed?: number;
  readonly rulesBroken?: number;
}

export interface PreparationNeed {
  readonly preparation: string;
  readonly name: string;
  readonly amount: Quantity;
  /** Need as multiple of the written yield. */
  readonly factor: number;
  readonly pieces?: number;
  readonly overage: Quantity;
  readonly batches: readonly {
    readonly index: number;
    readonly amount: Quantity;
    readonly pieces?: number;
  }[];
  /** Who asks for it: a dish (per plate), another preparation, or every cover beside the plates. */
  readonly usedBy: readonly {
    readonly dish?: string;
    readonly preparation?: string;
    readonly everyCover?: true;
    readonly amount: Quantity;
  }[];
}

export interface Balance {
  readonly preparation: string;
  readonly inG: number;
  readonly outG: number;
  readonly lost: readonly { readonly how: string; readonly g: number }[];
  /** Water taken from the tap and absorbed. */
  readonly waterG: number;
  readonly declaredG: number;
}

export interface OrderLine {
  readonly offer: string;
  readonly ingredient: string;
  readonly name: string;
  /** Where the goods stand in for what was asked for. */
  readonly insteadOf?: {
    readonly ingredient: string;
    readonly name: string;
    readonly when: "missing" | "cheaper";
    /** The lines in which alone it stands in; wherever the food is used unless said. */
    readonly lines?: readonly { readonly preparation: string; readonly line: string }[];
  };
  readonly packs: number;
  readonly pack: string;
  /** Sold by weight: the price is that of the nominal pack. */
  readonly byWeight?: boolean;
  /** AP mass or count needed net of stock, g (or pieces). */
  readonly need: Quantity;
  readonly bought: Quantity;
  readonly price: string;
  readonly total: string;
  /** Why so much: grams as purchased of what was asked for, for all its uses, and the trade-off of the chance. */
  readonly why: {
    readonly mean: Quantity;
    /** More than the mean, for the chance wanted. */
    readonly surer: Quantity;
    readonly store: Quantity;
    /** How far what cooking makes of it strays, as a ratio, all its uses together; absent where nothing says so. */
    readonly cooking?: number;
    /** Lost on one pack too many, and what one too few costs where the chance wanted is the right one, in the currency. */
    readonly left: number;
    readonly short: number;
  };
  /** Other offers that could cover the ingredient alone, and how much dearer the whole order would be. */
  readonly alternatives: readonly OtherWay[];
}

export interface OtherWay {
  readonly offer: string;
  readonly supplier: string;
  readonly packs: number;
  readonly pack: string;
  /** In the kitchen's currency; 0 when it costs the same. */
  readonly dearer: number;
}

/** How good the orders are, how sure it is that there is enough, and what is left. */
export interface Ordering {
  /** What was made as small as possible: orders, what is missing to minimums, less the worth of what is left. */
  readonly value: number;
  /** No orders come to less than this. */
  readonly bound: number;
  readonly gap: number;
  /** The gap is less than half of a hundredth of the currency. */
  readonly proved: boolean;
  /** Wanted chance of having enough of each ingredient in each cut. */
  readonly chance: number;
  /** Whether anything is known to vary; without it the chance adds nothing. */
  readonly varies: boolean;
  /** What all orders come to at other chances; empty where nothing is known to vary, or before there is a plan. */
  readonly surer: readonly { readonly chance: number; readonly total: string; readonly proved: boolean }[];
  /** What keeps so many days is worth this share of its price when it is left over, up to as much as was needed. */
  readonly worthShare: number;
  readonly keepsDays: number;
  readonly left: readonly {
    readonly ingredient: string;
    readonly name: string;
    /** As purchased. */
    readonly amount: Quantity;
    readonly worth: number;
    readonly keeps: boolean;
  }[];
}

export interface SupplierOrder {
  readonly supplier: string;
  readonly name: string;
  /** Latest moment to order, clock. */
  readonly orderBy: string;
  /** Date and clock of the delivery. */
  readonly deliver: string;
  readonly lines: readonly OrderLine[];
  readonly charge: string;
  readonly goods: string;
  readonly total: string;
  /** Missing to the supplier's minimum order, "0" when met. */
  readonly belowMinimum: string;
}

export interface PlateCount {
  readonly course: string;
  readonly dish: string;
  readonly variant: string;
  readonly needs: readonly Need[];
  readonly count: number;
  /** Spare and tasting plates beyond the guests. */
  readonly spare: number;
  readonly seats: readonly string[];
  /** Guests nobody could place, by group; empty when everyone is fed. */
  readonly notFed: readonly string[];
  readonly plateG: number;
  readonly platingSeconds: number;
}

export interface BatchSheet {
  readonly preparation: string;
  readonly name: string;
  readonly batch: number;
  readonly of: number;
  readonly yield: Quantity;
  readonly pieces?: number;
  readonly lines: readonly {
    readonly line: string;
    readonly step: string;
    readonly item: string;
    readonly name: string;
    /** Exact amount and what the scale shows; the difference is the rounding error. */
    readonly exactG: number;
    readonly weighG: number;
    readonly errorG: number;
    /** As a cook reads it: "1.25 kg", "¾ tsp", "12 pieces". */
    readonly text: string;
    readonly apG?: number;
    readonly toTaste?: boolean;
  }[];
  readonly steps: readonly {
    readonly step: string;
    readonly text: string;
    readonly inG: number;
    readonly outG: number;
    readonly start?: string;
    readonly minutes?: number;
  }[];
}
