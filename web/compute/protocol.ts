import type { Problem } from "../../core/book/problem.ts";
import type { Book } from "../../core/book/schema.ts";
import type { PlateCosts } from "../../core/costing/cost-types.ts";
import type { Trial } from "../../core/costing/what-if.ts";
import type { TraceNode } from "../../core/ledger/ledger.ts";
import type { AmountAsked, AnotherAmount } from "../../core/production/another-amount.ts";
import type { Explained } from "../../core/production/explain.ts";
import type { Remedy } from "../../core/production/plan-types.ts";
import type { Result } from "../../core/run/result.ts";
import type { TaskPin, TriedMove } from "../../core/run/try-move.ts";

/** A result on its way to the page: the trace stays in the worker and is asked for figure by figure. */
export type Told = Omit<Result, "trace">;

/** What is computed: a service, with the covers or kitchen tried in place of its own. */
export interface Question {
  readonly service: string;
  readonly covers?: number | undefined;
  readonly kitchen?: string | undefined;
}

export type ToWorker =
  | { readonly type: "book"; readonly version: number; readonly book: Book }
  | {
      readonly type: "ask";
      readonly id: number;
      readonly part: "amounts" | "plan";
      readonly question: Question;
    }
  | { readonly type: "trace"; readonly id: number; readonly path: string }
  | { readonly type: "cost"; readonly id: number; readonly question: Question; readonly trial: Trial }
  | {
      readonly type: "another";
      readonly id: number;
      readonly preparation: string;
      readonly asked: AmountAsked;
      readonly portionG: number | undefined;
      readonly scaleStepG: readonly number[];
    }
  | { readonly type: "explain"; readonly id: number; readonly task: string }
  | { readonly type: "move"; readonly id: number; readonly pin: TaskPin };

/** What plates and menu cost as tried, or why it cannot be. */
export type Tried =
  | { readonly cost: PlateCosts; readonly refused?: undefined }
  | { readonly cost?: undefined; readonly refused: string };

/** A formula at another amount, or why it cannot be. */
export type Another =
  | { readonly made: AnotherAmount; readonly refused?: undefined }
  | { readonly made?: undefined; readonly refused: string };

/** A figure and the figures it came from, one step deep. */
export interface Traced {
  readonly node: TraceNode;
  readonly inputs: readonly { readonly path: string; readonly node: TraceNode | undefined }[];
}

/** What is computed after what was told. */
export type Stage = "first" | "improving" | "remedies";

export type FromWorker =
  | {
      readonly type: "told";
      readonly id: number;
      readonly told: Told;
      readonly last: boolean;
      readonly next?: Stage | undefined;
      readonly ms: number;
    }
  | { readonly type: "progress"; readonly id: number; readonly done: number; readonly of: number }
  | { readonly type: "remedies"; readonly id: number; readonly remedies: readonly Remedy[] }
  | { readonly type: "refused"; readonly id: number; readonly problems: readonly Problem[] }
  | { readonly type: "tried"; readonly id: number; readonly tried: Tried }
  | { readonly type: "another"; readonly id: number; readonly another: Another }
  | { readonly type: "traced"; readonly id: number; readonly traced: Traced | undefined }
  | { readonly type: "explained"; readonly id: number; readonly explained: Explained | undefined }
  | { readonly type: "moved"; readonly id: number; readonly moved: TriedMove | undefined };
