import type { Cell, Ledger } from "../ledger/ledger.ts";
import { minus, sum, sumOfProducts, times } from "../ledger/rules.ts";
import { nothing, stated } from "../ledger/stated.ts";
import { gramsCell, type Matter } from "../pantry/grams.ts";
import type { Problem } from "../pantry/refusal.ts";
import { orderOfSteps, type Pointer, takenFrom } from "./graph.ts";
import type { LineCells } from "./lines.ts";
import { keptByFactor, lostByFactor, shareLeft, takenUpByFactor } from "./rules.ts";
import type { Preparation, Step } from "./schema.ts";
import { yieldSpreadCell } from "./yield-spread.ts";

/** Names under which mass leaves a step. */
export const LOSSES = [
  "evaporated",
  "trimmed",
  "drained",
  "stuck",
  "strained",
  "fat",
  "rinsed",
  "rendered",
] as const;
export type Loss = (typeof LOSSES)[number];

export interface LossCell {
  readonly how: Loss;
  readonly g: Cell;
}

/** Mass through one step at the declared yield, g: in + water = out + all lost. */
export interface StepCells {
  readonly step: Step;
  readonly inG: Cell;
  readonly water: Cell;
  readonly outG: Cell;
  readonly lost: readonly LossCell[];
  /** All lost together. */
  readonly lossG: Cell;
}

/** Mass through the whole preparation at its declared yield, g. */
export interface Balance {
  /** In the order of making. */
  readonly steps: readonly StepCells[];
  readonly inG: Cell;
  readonly water: Cell;
  /** Output of the last steps: what the balance says the formula makes. */
  readonly outG: Cell;
  /** By name, each once. */
  readonly lost: readonly LossCell[];
  /** Standard deviation of the yield of one making, as a ratio of it; nothing where no step says how far it strays. */
  readonly spread: Cell;
}

const DISCARDED = { trim: "trimmed", strain: "strained", fat: "fat", rinse: "rinsed" } as const;

/** Follows the mass through the steps. What cannot be followed is added to `problems`. @throws Refusal on a circle. */
export function balanceCells(
  ledger: Ledger,
  preparation: Preparation,
  at: string,
  calc: string,
  lines: readonly LineCells[],
  matter: Matter,
  pointer: Pointer,
  problems: Problem[],
): Balance {
  const indexOf = new Map(preparation.steps.map((step, i) => [step.id, i]));
  const made = new Map<string, StepCells>();
  const takers = new Map<string, Cell[]>();
  for (const step of orderOfSteps(preparation, pointer)) {
    const place = `${at}/steps/${indexOf.get(step.id)}`;
    const path = `${calc}/steps/${step.id}`;
    const enter: Cell[] = [];
    for (const { line, ep, weighed } of lines) if (line.step === step.id && weighed) enter.push(ep);
    takenFrom(step).forEach((from, k) => {
      const outG = made.get(from.step)!.outG;
      if (typeof step.from[k] === "string") {
        takers.set(from.step, [...(takers.get(from.step) ?? []), one(ledger)]);
        enter.push(outG);
        return;
      }
      const share = stated(ledger, `book:${place}/from/${k}/share`, "ratio", from.share);
      takers.set(from.step, [...(takers.get(from.step) ?? []), share]);
      enter.push(ledger.derive(`${path}/from/${k}`, "g", times, [outG, share]));
    });
    made.set(step.id, stepCells(ledger, step, place, path, enter, matter, problems));
  }
  const steps = [...made.values()];
  const lost = LOSSES.flatMap((how): LossCell[] => {
    const parts = steps.flatMap((step) => step.lost.filter((loss) => loss.how === how).map((loss) => loss.g));
    if (parts.length === 0) return [];
    return [{ how, g: ledger.derive(`${calc}/lost/${how}`, "g", sum, parts) }];
  });
  // What no step takes further is the yield; what is left of a step that is taken in part belongs to it.
  const ends = steps.flatMap((step): Cell[] => {
    const shares = takers.get(step.step.id);
    if (!shares) return [step.outG, one(ledger)];
    const path = `${calc}/steps/${step.step.id}/left`;
    const left = ledger.derive(path, "ratio", shareLeft, shares);
    return ledger.value(left) > 0 ? [step.outG, left] : [];
  });
  const weighed = lines.filter((line) => line.weighed).map((line) => line.ep);
  const waters = steps.map((step) => step.water).filter((cell) => cell !== nothing(ledger));
  const outG = ledger.derive(`${calc}/out`, "g", sumOfProducts, ends);
  return {
    steps,
    inG: ledger.derive(`${calc}/in`, "g", sum, weighed),
    water: waters.length > 0 ? ledger.derive(`${calc}/water`, "g", sum, waters) : nothing(ledger),
    outG,
    lost,
    spread: yieldSpreadCell(ledger, preparation, at, calc, steps, outG),
  };
}

function stepCells(
  ledger: Ledger,
  step: Step,
  place: string,
  path: string,
  enter: readonly Cell[],
  matter: Matter,
  problems: Problem[],
): StepCells {
  const inG = enter.length === 1 ? enter[0]! : ledger.derive(`${path}/in`, "g", sum, enter);
  const lost: LossCell[] = [];
  let water = nothing(ledger);
  let outG = inG;
  const { change } = step;
  if (change !== undefined && change !== "none") {
    if ("addWaterFactor" in change) {
      const factor = stated(
        ledger,
        `book:${place}/change/addWaterFactor`,
        "ratio",
        change.addWaterFactor,
        change.source,
      );
      water = ledger.derive(`${path}/water`, "g", times, [inG, factor]);
      outG = ledger.derive(`${path}/changed`, "g", sum, [inG, water]);
    } else if ("toAmount" in change) {
      outG = gramsCell(
        ledger,
        `${path}/changed`,
        change.toAmount,
        `${place}/change/toAmount`,
        matter,
        problems,
      );
      if (ledger.value(outG) > ledger.value(inG) * (1 + 1e-9))
        problems.push({
          path: `${place}/change/toAmount`,
          what: `a reduction to ${round(ledger.value(outG))} g of only ${round(ledger.value(inG))} g`,
          mend: "lower toAmount, or add what goes in",
        });
      lost.push({ how: "evaporated", g: ledger.derive(`${path}/evaporated`, "g", minus, [inG, outG]) });
    } else {
      const key = "factor" in change ? "factor" : "toFactor";
      const value = "factor" in change ? change.factor : change.toFactor;
      const source = "factor" in change ? change.source : undefined;
      const factor = stated(ledger, `book:${place}/change/${key}`, "ratio", value, source);
      outG = ledger.derive(`${path}/changed`, "g", keptByFactor, [inG, factor]);
      // A factor above 1 is water taken up; below, what is lost has the name the step gives it.
      if (value > 1) water = ledger.derive(`${path}/water`, "g", takenUpByFactor, [inG, factor]);
      else if (value < 1) {
        const how: Loss = ("as" in change ? change.as : undefined) ?? "evaporated";
        lost.push({ how, g: ledger.derive(`${path}/${how}`, "g", lostByFactor, [inG, factor]) });
      }
    }
  }
  if (step.discard) {
    const how = DISCARDED[step.discard.as];
    const factor = stated(ledger, `book:${place}/discard/factor`, "ratio", step.discard.factor);
    const before = outG;
    lost.push({ how, g: ledger.derive(`${path}/discarded`, "g", times, [before, factor]) });
    outG = ledger.derive(`${path}/out`, "g", lostByFactor, [before, factor]);
  }
  const lossG =
    lost.length === 0
      ? nothing(ledger)
      : lost.length === 1
        ? lost[0]!.g
        : ledger.derive(
            `${path}/lost`,
            "g",
            sum,
            lost.map((loss) => loss.g),
          );
  return { step, inG, water, outG, lost, lossG };
}

function one(ledger: Ledger): Cell {
  return stated(ledger, "const:/one", "ratio", 1);
}

function round(grams: number): number {
  return Math.round(grams * 10) / 10;
}
