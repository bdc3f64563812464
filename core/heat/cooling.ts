import type { Moment } from "./lethality.ts";
import type { CookRule, CoolingRule } from "./limits-data.ts";
import { holding, reheating } from "./limits-data.ts";

/**
 * Judging temperature curves, computed or logged, against limits. A curve is minutes and °C of the worst point
 * (the core where it is slowest), straight lines between points, in order of time.
 */

/** First minute, at or after `from`, at which a curve is at or below a temperature; undefined if never. */
export function minuteAtOrBelow(curve: readonly Moment[], celsius: number, from = Number.NEGATIVE_INFINITY) {
  return crossing(curve, (t) => t <= celsius, celsius, from);
}

/** First minute, at or after `from`, at which a curve is at or above a temperature; undefined if never. */
export function minuteAtOrAbove(curve: readonly Moment[], celsius: number, from = Number.NEGATIVE_INFINITY) {
  return crossing(curve, (t) => t >= celsius, celsius, from);
}

function crossing(
  curve: readonly Moment[],
  there: (t: number) => boolean,
  celsius: number,
  from: number,
): number | undefined {
  for (const [i, point] of curve.entries()) {
    if (point.minute < from || !there(point.celsius)) continue;
    const before = curve[i - 1];
    if (!before || there(before.celsius)) return Math.max(from, point.minute);
    const share = (celsius - before.celsius) / (point.celsius - before.celsius);
    return Math.max(from, before.minute + share * (point.minute - before.minute));
  }
  return undefined;
}

/** Minutes a curve spends strictly between two temperatures. */
export function minutesBetween(curve: readonly Moment[], lowC: number, highC: number): number {
  let sum = 0;
  for (let i = 1; i < curve.length; i++) {
    const a = curve[i - 1]!;
    const b = curve[i]!;
    const low = Math.min(a.celsius, b.celsius);
    const high = Math.max(a.celsius, b.celsius);
    if (high === low) {
      if (low > lowC && low < highC) sum += b.minute - a.minute;
      continue;
    }
    const inside = Math.max(0, Math.min(high, highC) - Math.max(low, lowC));
    sum += ((b.minute - a.minute) * inside) / (high - low);
  }
  return sum;
}

export type CoolingState = "met" | "running" | "missed";
export type CoolingJudgement = {
  rule: string;
  stages: {
    fromC: number;
    toC: number;
    withinMin: number;
    /** Minutes it took; null when the curve does not get there. */
    minutes: number | null;
    /** Minutes left over; of a stage still running, what is left of its time. */
    spareMin: number;
    state: CoolingState;
  }[];
  state: CoolingState;
  /** What to do about a missed limit: reheat at once while the whole time has not run out, else discard. */
  remedy: "none" | "reheat at once" | "discard";
};

/**
 * Cooling against a rule, from the last moment at or above its first temperature. A curve that ends before the
 * limit's time is still running; one that ends later without getting there has missed it.
 */
export function judgeCooling(curve: readonly Moment[], rule: CoolingRule): CoolingJudgement {
  const start = startOf(curve, rule.stages[0]!.fromC);
  const now = curve[curve.length - 1]?.minute ?? 0;
  const stages = rule.stages.map(({ fromC, toC, withinMin, clock }) => {
    const from = clock === "start" ? start : startOf(curve, fromC);
    // Never as warm as the stage begins: there is nothing to cool.
    if (from === undefined)
      return { fromC, toC, withinMin, minutes: 0, spareMin: withinMin, state: "met" as const };
    const end = minuteAtOrBelow(curve, toC, from);
    const minutes = end === undefined ? null : end - from;
    const spareMin = withinMin - (minutes ?? now - from);
    const state: CoolingState = spareMin < 0 ? "missed" : minutes === null ? "running" : "met";
    return { fromC, toC, withinMin, minutes, spareMin, state };
  });
  const state = stages.some((stage) => stage.state === "missed")
    ? "missed"
    : stages.some((stage) => stage.state === "running")
      ? "running"
      : "met";
  const whole = rule.stages[rule.stages.length - 1]!.withinMin;
  const inTime =
    stages.length > 1 && stages[stages.length - 1]!.state !== "missed" && now - (start ?? now) < whole;
  return {
    rule: rule.id,
    stages,
    state,
    remedy: state !== "missed" ? "none" : inTime ? "reheat at once" : "discard",
  };
}

/** The last minute a curve is still at or above a temperature on its way down; undefined if it never was. */
function startOf(curve: readonly Moment[], celsius: number): number | undefined {
  if (curve.length === 0) return undefined;
  const first = curve[0]!;
  if (celsius === Number.POSITIVE_INFINITY) return first.minute;
  let last: number | undefined;
  for (let i = 0; i < curve.length; i++) {
    const point = curve[i]!;
    if (point.celsius < celsius) continue;
    const next = curve[i + 1];
    last = !next
      ? point.minute
      : next.celsius >= celsius
        ? next.minute
        : point.minute +
          ((point.celsius - celsius) / (point.celsius - next.celsius)) * (next.minute - point.minute);
  }
  return last;
}

export type CookJudgement = {
  met: boolean;
  /** The pair that is met, or the one that came nearest. */
  option: { celsius: number; seconds: number };
  heldSeconds: number;
  peakC: number;
};

/** Cooking against temperature and time pairs: the longest unbroken time at or above each temperature. */
export function judgeCooking(curve: readonly Moment[], rule: CookRule): CookJudgement {
  const peakC = Math.max(...curve.map((p) => p.celsius));
  let best: CookJudgement | undefined;
  for (const option of rule.options) {
    const heldSeconds = longestAbove(curve, option.celsius);
    const met = peakC >= option.celsius && heldSeconds >= option.seconds - rounding;
    const found = { met, option, heldSeconds, peakC };
    const nearness = (j: CookJudgement) => (j.option.seconds > 0 ? j.heldSeconds / j.option.seconds : 0);
    if (!best || (met && !best.met) || (met === best.met && nearness(found) > nearness(best))) best = found;
  }
  return best!;
}

/** Minutes made into seconds and back miss whole seconds by less than this. */
const rounding = 1e-6;

/** Longest unbroken stretch at or above a temperature, seconds. */
export function longestAbove(curve: readonly Moment[], celsius: number): number {
  let longest = 0;
  let now = 0;
  for (let i = 1; i < curve.length; i++) {
    const a = curve[i - 1]!;
    const b = curve[i]!;
    const span = (b.minute - a.minute) * 60;
    const above = (t: number) => t >= celsius;
    if (above(a.celsius) && above(b.celsius)) now += span;
    else if (above(b.celsius)) now = (span * (b.celsius - celsius)) / (b.celsius - a.celsius);
    else {
      if (above(a.celsius)) now += (span * (a.celsius - celsius)) / (a.celsius - b.celsius);
      longest = Math.max(longest, now);
      now = 0;
    }
    longest = Math.max(longest, now);
  }
  return longest;
}

/** Minutes of each curve between cold and hot holding, added over the whole life of a batch. */
export function outOfControlMinutes(
  curves: readonly (readonly Moment[])[],
  coldC: number = holding.coldC,
  hotC: number = holding.hotC,
): number {
  return curves.reduce((sum, curve) => sum + minutesBetween(curve, coldC, hotC), 0);
}

export type HoldJudgement = { met: boolean; worstC: number; minutesOut: number };

/** Hot holding at or above, or cold holding at or below, a temperature. */
export function judgeHolding(curve: readonly Moment[], kind: "hot" | "cold", limitC?: number): HoldJudgement {
  const temperatures = curve.map((p) => p.celsius);
  if (kind === "hot") {
    const limit = limitC ?? holding.hotC;
    const worstC = Math.min(...temperatures);
    const minutesOut = minutesBetween(curve, Number.NEGATIVE_INFINITY, limit);
    return { met: worstC >= limit, worstC, minutesOut };
  }
  const limit = limitC ?? holding.coldC;
  const worstC = Math.max(...temperatures);
  const minutesOut = minutesBetween(curve, limit, Number.POSITIVE_INFINITY);
  return { met: worstC <= limit, worstC, minutesOut };
}

/** Reheating for hot holding: 74 °C held 15 s, within two hours of leaving cold holding. */
export function judgeReheating(curve: readonly Moment[]): {
  met: boolean;
  minutes: number | null;
  heldSeconds: number;
} {
  const at = minuteAtOrAbove(curve, reheating.celsius);
  const heldSeconds = longestAbove(curve, reheating.celsius);
  const minutes = at === undefined ? null : at - (curve[0]?.minute ?? 0);
  const met =
    minutes !== null && minutes <= reheating.withinMin && heldSeconds >= reheating.seconds - rounding;
  return { met, minutes, heldSeconds };
}
