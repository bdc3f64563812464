import type { CookJudgement, CoolingJudgement } from "../../core/heat/cooling.ts";
import type { TargetLimit } from "../../core/heat/fill-target.ts";
import type { HeatResult } from "../../core/heat/heat.ts";
import type { Found } from "../../core/heat/inverse.ts";
import type { CookFood, LimitSource } from "../../core/heat/limits-data.ts";
import type { Problem } from "../../core/heat/problem.ts";
import type { HeatInput } from "../../core/heat/schema.ts";

/** A core temperature along time: minutes and °C. */
export type Line = readonly (readonly [minute: number, celsius: number])[];

/** A trial as it was typed: an input of the `heat` command, right or wrong. */
export interface HeatTrial {
  readonly input: unknown;
  /** What it is in the words of the code, when someone said. */
  readonly food?: CookFood | undefined;
}

export type LimitLine =
  | { readonly kind: "asked"; readonly limit: TargetLimit }
  | {
      readonly kind: "cook";
      readonly food: CookFood;
      readonly judged: CookJudgement;
      readonly source: LimitSource;
    }
  | { readonly kind: "cool"; readonly judged: CoolingJudgement; readonly source: LimitSource };

/** What follows the trial itself: both ends of the tolerances, the rest that comes after, the limits. */
export interface HeatMore {
  /** Core of the slow and of the quick piece; the slow one is missing where its target is never reached. */
  readonly slow?: Line | undefined;
  readonly quick?: Line | undefined;
  /** Where the core goes in still air after the last stage, when it goes on rising. */
  readonly leftAlone?: { readonly peakC: number; readonly minute: number } | undefined;
  readonly limits: readonly LimitLine[];
  /** Whole minutes the plan would give it, the long end of each stage. */
  readonly planMinutes: number;
}

export interface HeatTold {
  /** The trial as it was read. */
  readonly input: HeatInput;
  readonly result: HeatResult;
  readonly more?: HeatMore | undefined;
}

export type Inverse =
  | { readonly find: "thickness"; readonly minutes: number }
  | { readonly find: "medium"; readonly stage: number; readonly minutes: number }
  | { readonly find: "start"; readonly readyAtMinute: number };

export type ToHeat =
  | { readonly type: "trial"; readonly id: number; readonly trial: HeatTrial }
  | { readonly type: "find"; readonly id: number; readonly trial: HeatTrial; readonly inverse: Inverse };

export type FromHeat =
  | { readonly type: "told"; readonly id: number; readonly told: HeatTold; readonly last: false }
  | { readonly type: "done"; readonly id: number; readonly last: true }
  | { readonly type: "found"; readonly id: number; readonly found: Found; readonly last: true }
  | {
      readonly type: "refused";
      readonly id: number;
      readonly problems: readonly Problem[];
      readonly last: true;
    };
