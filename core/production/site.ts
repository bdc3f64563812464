import type { Preparation, Step } from "../formula/schema.ts";
import type { Amounts } from "./amounts.ts";
import type { Apart } from "./apart.ts";
import type { Clock } from "./clock.ts";
import type { Documents } from "./documents.ts";
import type { Kitchen } from "./schema.ts";
import type { Doubt, Lack } from "./tasks.ts";
import type { Units } from "./units.ts";

/**
 * Minutes of a step that gives a target instead of minutes, the long end of their spread (README, P3); or why
 * they cannot be computed. Injected, because the rooms of heat answer it. A target without `untilMass` and
 * without a loaded oven does not depend on the mass.
 */
export type FillTarget = (
  preparation: Preparation,
  step: Step,
  load: Masses,
) => /** `path`: where a trace says how the minutes came. */
{ readonly minutes: number; readonly path?: string } | { readonly doubt: string; readonly mend: string };

/** What goes through a step in one batch or load: g in, g out, pieces (0 when the yield names none). */
export interface Masses {
  readonly inG: number;
  readonly outG: number;
  readonly pieces: number;
}

/** A person of the crew on the time axis: shifts in order, breaks inside them. */
export interface Cook {
  readonly id: string;
  readonly name: string;
  readonly skills: readonly string[];
  readonly shifts: readonly {
    readonly from: number;
    readonly to: number;
    readonly breaks: readonly { readonly from: number; readonly to: number }[];
  }[];
}

/** What the task builders share: the documents, the kitchen planned in, and where they write what is amiss. */
export interface Site {
  readonly docs: Documents;
  readonly amounts: Amounts;
  readonly kitchen: Kitchen;
  readonly clock: Clock;
  /** Persons with work between the horizon and the end of the service, in minutes. */
  readonly crew: readonly Cook[];
  readonly units: Units;
  readonly fillTarget: FillTarget;
  /** Not before, by ingredient: deliveries. */
  readonly earliest: ReadonlyMap<string, number>;
  /** What must be kept apart for a guest; nothing where nobody answers it. */
  readonly apart?: Apart | undefined;
  readonly lacks: Lack[];
  readonly doubts: Doubt[];
}
