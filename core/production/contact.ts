import type { Preparation, Step } from "../formula/schema.ts";
import type { Kitchen } from "./schema.ts";

type Equipment = Kitchen["equipment"][number];

/**
 * How traces pass from one food to another on a unit: by touch (the same surface, water or oil, at once or one after
 * the other until it is cleaned), by air (inside at the same time), or not at all.
 * Common practice, no source; a kind that is not known here counts as touch.
 */
export type Passing = "touch" | "air" | "none";

/** Food stands there in its own pan, bag or plate. */
const OWN_PAN: ReadonlySet<string> = new Set([
  "burner",
  "induction",
  "sealer",
  "scale",
  "plate-warmer",
  "plate-bench",
]);
/** Food is covered there, as it must be kept. */
const COVERED: ReadonlySet<string> = new Set([
  "chiller",
  "blast-chiller",
  "blast-freezer",
  "cold-room",
  "walk-in",
  "fridge",
  "freezer",
  "freezer-room",
  "hot-cabinet",
  "hot-cupboard",
]);
/** Food stands open on trays of its own, in one air. */
const OPEN_TRAYS: ReadonlySet<string> = new Set([
  "combi",
  "deck",
  "oven",
  "range-oven",
  "steamer",
  "smoker",
  "salamander",
  "prover",
  "proofer",
  "dehydrator",
]);
/** Water that a sealed bag keeps out. */
const WATER: ReadonlySet<string> = new Set(["bath", "ice-sink", "ice-bath"]);

/** How traces pass on this equipment; an oven of which nobody has said whether its shelves share air shares it. */
export function passingOf({ kind, sharedAir }: Equipment, packed: boolean): Passing {
  if (OPEN_TRAYS.has(kind)) return sharedAir === false ? "none" : "air";
  if (COVERED.has(kind)) return sharedAir === true ? "air" : "none";
  if (OWN_PAN.has(kind)) return "none";
  return packed && WATER.has(kind) ? "none" : "touch";
}

/** Minutes in which nothing lies on a bench, where no share of the hands' time is given to cleaning. From memory. */
export const BENCH_WIPE_MIN = 5;

/** Minutes a bench stands empty between two foods that must be kept apart: cleaning is part of `around` (P2). */
export function benchGap(kitchen: Pick<Kitchen, "around">): number {
  return kitchen.around > 0 ? 0 : BENCH_WIPE_MIN;
}

const packing = new WeakMap<Preparation, ReadonlySet<string>>();

/** Whether the food of a step is in a sealed bag: sealed there or in a step that enters it, in this preparation. */
export function isPacked(preparation: Preparation, step: string): boolean {
  let packed = packing.get(preparation);
  if (!packed) {
    packed = packedSteps(preparation);
    packing.set(preparation, packed);
  }
  return packed.has(step);
}

const seals = (step: Step) => step.uses.some((use) => use.kind === "sealer");

function packedSteps(preparation: Preparation): Set<string> {
  const packed = new Set(preparation.steps.filter(seals).map((step) => step.id));
  // A step is packed when all that enters it is, and nothing new comes in.
  const opened = new Set(preparation.lines.map((line) => line.step));
  for (let grown = true; grown; ) {
    grown = false;
    for (const step of preparation.steps) {
      if (packed.has(step.id) || opened.has(step.id) || step.from.length === 0) continue;
      if (!step.from.every((from) => packed.has(typeof from === "string" ? from : from.step))) continue;
      packed.add(step.id);
      grown = true;
    }
  }
  return packed;
}
