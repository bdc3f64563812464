import type { Result } from "../run/result.ts";

/** The parts of a run's result that are judged. */
export type Judged = Pick<Result, "plates" | "needs" | "plan"> &
  Partial<Pick<Result, "orders" | "ordering" | "warnings" | "allergens" | "balance">>;

export interface InspectOptions {
  /** Id of the service. */
  readonly service: string;
  /** Instead of the service's own covers. */
  readonly covers?: number | undefined;
  /** Id of a kitchen instead of the service's own. */
  readonly kitchen?: string | undefined;
  /**
   * Minutes that a step with a heat target takes (the long end of its spread). The inspector knows no heat: without
   * this the plan's own minutes are taken for such steps.
   */
  readonly heatMinutes?: ((preparation: string, step: string) => number | undefined) | undefined;
}

/** One thing that is not as it must be. */
export interface Finding {
  /** Word of the rule, one of those in README. */
  readonly rule: string;
  /** Ids of the tasks of the plan concerned; empty where the finding is about amounts. */
  readonly tasks: readonly string[];
  readonly by: number;
  readonly unit: string;
  readonly what: string;
}

export interface Report {
  /** Nothing is wrong that the plan does not own up to. */
  readonly ok: boolean;
  /** What is wrong and is not said by the plan. */
  readonly findings: readonly Finding[];
  /** Rules that the plan breaks and says so in `plan.broken`. */
  readonly admitted: readonly Finding[];
}

/** Rules of what a plan says of single tasks (I20); each hangs on where all the others are. */
export const SAID_RULES: readonly string[] = ["slack", "comes-after", "waits", "station"];

/** Slack for sums of doubles: a billionth of the figure, or of a gram or a minute. */
export const CRUMB = 1e-9;

/** Whether two figures are the same but for the last digits of a double. */
export function same(a: number, b: number): boolean {
  return Math.abs(a - b) <= 1e-7 * Math.max(1, Math.abs(a), Math.abs(b));
}

/** Minutes that something takes in a plan of whole minutes: rounded up. */
export function roundUp(minutes: number): number {
  return Math.ceil(minutes - CRUMB * Math.max(1, minutes));
}

/** Minutes that something may last in a plan of whole minutes: rounded down. */
export function roundDown(minutes: number): number {
  return Math.floor(minutes + CRUMB * Math.max(1, minutes));
}
