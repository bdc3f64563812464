import { takenFrom } from "../formula/graph.ts";
import type { Preparation, Step } from "../formula/schema.ts";
import { wholeDown } from "./plan-rules.ts";
import type { Site } from "./site.ts";
import type { LinkRule } from "./tasks.ts";
import { capacityOf, STORES } from "./units.ts";

/** How long what a step made may wait, and in what state. */
export interface WaitLimit {
  readonly most?: number;
  readonly rule: LinkRule;
  readonly state?: "hot" | "cold" | "frozen" | "ambient";
  /** Minutes within which it is at its best. */
  readonly best?: number;
}

/**
 * The limit on the output of a step (README, P7): its hold; at the end of a preparation also the preparation's
 * life in that state. Without a hold the longest life that is not frozen counts: freezing is a step that says so.
 */
export function waitLimit(prep: Preparation, step: Step, isLast: boolean): WaitLimit {
  const hold = step.hold;
  if (!isLast) {
    if (!hold) return { rule: "ready" };
    return { rule: "hold", most: wholeDown(hold.maxMin), state: hold.state };
  }
  const lives = prep.life.filter((life) => (hold ? life.state === hold.state : life.state !== "frozen"));
  const longest = lives.reduce<(typeof lives)[number] | undefined>(
    (best, life) => (best && best.maxMinutes >= life.maxMinutes ? best : life),
    undefined,
  );
  const fresh = prep.bestWithinMinutes === undefined ? {} : { best: wholeDown(prep.bestWithinMinutes) };
  if (hold && (!longest || hold.maxMin <= longest.maxMinutes))
    return { rule: "hold", most: wholeDown(hold.maxMin), state: hold.state, ...fresh };
  if (longest) return { rule: "life", most: wholeDown(longest.maxMinutes), state: longest.state, ...fresh };
  return { rule: "ready", ...fresh };
}

/**
 * Steps whose output no other step takes, or not all of it, with the share that is left: together they are what is made
 * (formula, F4).
 */
export function lastSteps(prep: Preparation): Map<Step, number> {
  const left = new Map(prep.steps.map((step) => [step.id, 1]));
  for (const { step, share } of prep.steps.flatMap(takenFrom)) left.set(step, left.get(step)! - share);
  return new Map(prep.steps.map((step) => [step, left.get(step.id)!] as const).filter(([, of]) => of > 1e-9));
}

/** Kilograms in one position of GN 1/1, 65 mm deep, filled to 50 mm. Common practice, no source. */
export const KG_PER_POSITION = 6;

/**
 * Storage positions of so much of a step's output: the GN pans it pulls, else by mass (README, P10).
 * A GN 1/2 is half a position, a GN 2/1 two.
 */
export function positionsOf(step: Step, outG: number, pieces: number): number {
  let positions = 0;
  for (const { smallware, count, per } of step.pull) {
    const size = /\bGN ?(\d)\/(\d)\b/i.exec(smallware);
    if (!size || size[2] === "0") continue;
    const times = per === "batch" ? 1 : per === "kg" ? outG / 1000 : pieces;
    positions += (Math.ceil(count * times - 1e-9) * Number(size[1])) / Number(size[2]);
  }
  return positions > 0 ? positions : outG / 1000 / KG_PER_POSITION;
}

/** Units in which food of a state waits by position; empty where the kitchen has none. */
export function storesFor(site: Site, state: WaitLimit["state"]): readonly string[] {
  if (state === undefined || state === "ambient") return [];
  const units = STORES[state].flatMap((kind) => site.units.byKind.get(kind) ?? []);
  return units.filter((unit) => capacityOf(unit, "position") !== undefined).map((unit) => unit.id);
}
