import type { Problem } from "../../core/book/problem.ts";
import type { Book } from "../../core/book/schema.ts";
import type { Finding } from "../../core/inspection/index.ts";
import type { LivePlan } from "../../core/production/live.ts";
import type { LiveEntry } from "../../core/production/live-entries.ts";
import type { LiveRemedy } from "../../core/production/live-remedies.ts";
import type { WrittenPlace } from "../../core/production/live-schema.ts";
import type { Plan } from "../../core/run/result.ts";
import type { ToldTasks } from "./live-changed.ts";
import type { Question } from "./protocol.ts";

/** A service under way: the book, what is asked, and the plan as it was made. */
export interface LiveOpen {
  readonly book: Book;
  readonly question: Question;
  readonly plan: Plan;
}

export interface LiveQuestion {
  readonly entries: readonly LiveEntry[];
  readonly now: number;
  readonly rehearsal: boolean;
}

/** The log goes over in parts: of what the worker was told last so many entries stand, and these follow. */
export interface LiveLog {
  readonly keep: number;
  readonly entries: readonly LiveEntry[];
}

export type ToLive =
  | ({ readonly type: "open" } & LiveOpen)
  | ({ readonly type: "ask" | "judge" | "remedies"; readonly id: number } & LiveLog &
      Omit<LiveQuestion, "entries">);

/** An answer of which a page is told those tasks alone that stand otherwise than in the answer before. */
export interface LiveTold extends Omit<LivePlan, "plan"> {
  readonly plan: Omit<Plan, "tasks"> & { readonly tasks: ToldTasks };
}

export type FromLive =
  | {
      readonly type: "live";
      readonly id: number;
      readonly live: LiveTold;
      /** For the log, if this page wrote what moved them. */
      readonly write: readonly WrittenPlace[];
      readonly ms: number;
    }
  /** What the inspector finds wrong that the mended plan does not say itself. */
  | { readonly type: "judged"; readonly id: number; readonly findings: readonly Finding[] }
  | { readonly type: "remedies"; readonly id: number; readonly remedies: readonly LiveRemedy[] }
  | { readonly type: "refused"; readonly id: number; readonly problems: readonly Problem[] };
