import type { Preparation } from "../formula/schema.ts";

export type LifeState = "hot" | "cold" | "frozen" | "ambient";

/**
 * Minutes a day of date marking is worth: the making day is day 1, so seven days end with the sixth date after it
 * (FDA Food Code 2022, 3-501.17(A)).
 */
const DAY_MIN = 1440;
/** FDA Food Code 2022, 3-501.17(A): ready-to-eat food kept cold at 5 °C or below, seven days at most. */
export const COLD_DAYS_MOST = 7;

/** A moment until which something may be used, and whose clock says so. */
export interface UseBy {
  /** Minutes on the run's axis. */
  readonly atMin: number;
  /** Id of the preparation or ingredient whose clock runs out first. */
  readonly from: string;
}

/** The state in which a preparation is kept: its last step's hold, else its first stated life, else cold. */
export function keptAs(preparation: Preparation): LifeState {
  return preparation.steps.findLast((step) => step.hold)?.hold?.state ?? preparation.life[0]?.state ?? "cold";
}

/**
 * End of a preparation's own clock, on the run's axis (minutes).
 * Counted in days where the life is a day or more: the making day is day 1; cold food never beyond seven days.
 * @param dayEnd end of the day of a moment, on the same axis
 */
export function ownUseBy(
  preparation: Preparation,
  state: LifeState,
  madeMin: number,
  dayEnd: (min: number) => number,
): number | undefined {
  const minutes = ownLifeMin(preparation, state);
  if (minutes === undefined)
    return state === "cold" ? dayEnd(madeMin) + (COLD_DAYS_MOST - 1) * DAY_MIN : undefined;
  if (minutes < DAY_MIN) return madeMin + minutes;
  const days = Math.floor(minutes / DAY_MIN);
  return dayEnd(madeMin) + ((state === "cold" ? Math.min(days, COLD_DAYS_MOST) : days) - 1) * DAY_MIN;
}

/** Stated life in a state, minutes; hot or at room temperature, where none is stated, the wait that is allowed. */
function ownLifeMin(preparation: Preparation, state: LifeState): number | undefined {
  const stated = preparation.life.find((entry) => entry.state === state)?.maxMinutes;
  if (stated !== undefined || state === "cold" || state === "frozen") return stated;
  return preparation.steps.findLast((step) => step.hold?.state === state)?.hold?.maxMin;
}

/** Whether a state's clock runs in days: minutes of waiting hot end when the food goes into something else. */
export function livesDays(preparation: Preparation, state: LifeState): boolean {
  return (ownLifeMin(preparation, state) ?? (state === "cold" ? DAY_MIN : 0)) >= DAY_MIN;
}

/**
 * Use-by of a batch: the least of its own clock and of every part's. Freezing pauses the parts' clocks while it
 * lasts and never resets them, so frozen food carries its own clock; the parts' run on after thawing.
 * @param parts use-by of what went in
 */
export function inheritedUseBy(
  own: number | undefined,
  ownId: string,
  state: LifeState,
  parts: readonly UseBy[],
): UseBy | undefined {
  const candidates = [
    ...(own === undefined ? [] : [{ atMin: own, from: ownId }]),
    ...(state === "frozen" ? [] : parts),
  ];
  return candidates.reduce<UseBy | undefined>(
    (least, one) => (!least || one.atMin < least.atMin ? one : least),
    undefined,
  );
}
