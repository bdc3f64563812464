/** What planning gives back: the parts of a run's result that the plan side makes. Minutes count from the horizon. */

import type { Allergen } from "../pantry/schema.ts";
import type { WeightName } from "./weights.ts";

/** Something to clean before a task, and what no trace of may be left. */
export interface CleanFirst {
  /** Id of a unit; undefined for the bench. */
  readonly unit?: string;
  readonly name?: string;
  readonly noTraceOf: readonly Allergen[];
}

export type PlanStatus = "feasible" | "broken" | "none";

export interface Plan {
  readonly status: PlanStatus;
  readonly objective: readonly Term[];
  /** Hours in which hands work more than three quarters of the minutes they are there. */
  readonly peaks: readonly Peak[];
  readonly tasks: readonly PlanTask[];
  readonly broken: readonly Broken[];
  /** When it does not fit: the rules that cannot all be kept; without any one of them the rest can. */
  readonly conflict?: readonly ConflictRule[];
  /** When it breaks rules: whether that is the search's word or a proof. */
  readonly noPlan?: NoPlan;
  readonly remedies: readonly Remedy[];
  readonly load: readonly Load[];
  readonly seed: number;
  readonly schedules: number;
}

export interface Term {
  /** The weight's name in the service. */
  readonly key: WeightName;
  readonly term: string;
  readonly value: number;
  readonly unit: string;
  /** What one of the unit counts beside the other terms. */
  readonly weight: number;
  readonly bound?: number;
}

/** An hour of the clock that is too full; minutes of hands. */
export interface Peak {
  readonly from: string;
  readonly to: string;
  readonly workedMin: number;
  readonly thereMin: number;
  readonly overMin: number;
}

export interface PlanTask {
  readonly id: string;
  readonly preparation: string;
  readonly step: string;
  readonly batch: number;
  readonly kind: "work" | "passive" | "milestone" | "plate";
  readonly name: string;
  readonly start: string;
  readonly end: string;
  readonly startMin: number;
  readonly endMin: number;
  readonly hands: readonly string[];
  readonly station?: string;
  readonly equipment: readonly {
    readonly id: string;
    readonly space: number;
    readonly unit: string;
    readonly setC?: number;
  }[];
  /** Earliest start with everything else left as it is; latest start when it may push what comes after it. */
  readonly earliest: string;
  readonly latest: string;
  readonly slackMin: number;
  readonly after: readonly string[];
  /** The wait of what it made that is nearest to its limit. */
  readonly hold?: { readonly state: string; readonly maxMin: number; readonly usedMin: number };
}

export interface Broken {
  readonly rule: string;
  readonly tasks: readonly string[];
  /** Minutes of all it stands for together; of another unit the worst. */
  readonly by: number;
  readonly unit: string;
  /** How many breaches of one rule on one unit or person it stands for, where there are several. */
  readonly times?: number;
  readonly what: string;
}

/** One rule of a conflict, in words with the names of the documents. */
export interface ConflictRule {
  readonly rule: string;
  readonly tasks: readonly string[];
  readonly what: string;
}

/** That no plan keeps every rule: proved, or only not found in the schedules of the plan. */
export interface NoPlan {
  readonly proved: boolean;
  /** Rules that alone suffice for the proof; none named where it takes all of them. */
  readonly rules: readonly ConflictRule[];
}

/** One place in a document that a remedy changes. */
export interface Edit {
  readonly document: "kitchens" | "services" | "preparations";
  readonly id: string;
  /** JSON Pointer into the document; one past the end of a list adds to it. */
  readonly at: string;
  /** JSON. */
  readonly value: unknown;
}

/** How a remedy is made, for a page that tries it: other covers, another kitchen, edits of documents. */
export interface Apply {
  readonly covers?: number;
  readonly kitchen?: string;
  readonly edits?: readonly Edit[];
}

export interface Remedy {
  readonly change: string;
  readonly apply: Apply;
  readonly result: string;
  readonly status: PlanStatus;
  readonly spareMin?: number;
  readonly covers?: number;
  readonly proof: readonly { readonly id: string; readonly start: string }[];
}

export interface Load {
  readonly resource: string;
  readonly day: string;
  readonly busyMin: number;
  readonly openMin: number;
}

export interface PrepEntry {
  readonly task: string;
  readonly start: string;
  readonly end: string;
  readonly text: string;
  readonly amount: string;
  readonly hands: readonly string[];
  readonly equipment: readonly string[];
  readonly pull: readonly string[];
  /** What is cleaned before it begins, and from what. */
  readonly clean?: readonly CleanFirst[];
  readonly note?: string;
}

export interface PrepList {
  readonly station: string;
  readonly name: string;
  readonly day: string;
  readonly date: string;
  readonly entries: readonly PrepEntry[];
}

export interface PullItem {
  readonly day: string;
  readonly smallware: string;
  readonly station?: string;
  readonly count: number;
  readonly for: readonly string[];
}
