import type { Cell, Ledger } from "../ledger/ledger.ts";
import { sum } from "../ledger/rules.ts";
import { nothing, stated } from "../ledger/stated.ts";
import { takenFrom } from "./graph.ts";
import { throughStep, yieldSpread } from "./rules.ts";
import type { Preparation, Step } from "./schema.ts";

/** What enters and leaves one step, g. */
interface StepMass {
  readonly step: Step;
  readonly inG: Cell;
  readonly outG: Cell;
}

/** Standard deviation of mass out over mass in of one lot, where a step's change says it. */
export function changeSpread({ change }: Step): number | undefined {
  if (change === undefined || change === "none") return undefined;
  return "factor" in change || "addWaterFactor" in change ? change.spread : undefined;
}

/**
 * How far the yield of one making strays, as a ratio of it (README, F9): of each step that says how far its change strays, times the
 * share of the yield that came through it. What is reduced to a mass has that mass: what strayed before it is evened out.
 * @param calc path of the preparation's sums.
 */
export function yieldSpreadCell(
  ledger: Ledger,
  { steps: written }: Preparation,
  at: string,
  calc: string,
  steps: readonly StepMass[],
  outG: Cell,
): Cell {
  if (!written.some((step) => (changeSpread(step) ?? 0) > 0)) return nothing(ledger);
  const one = stated(ledger, "const:/one", "ratio", 1);
  const through = new Map<string, Cell>();
  const placeOf = (id: string) => `${at}/steps/${written.findIndex((step) => step.id === id)}`;
  const strays: Cell[] = [];
  for (const { step, outG: stepG } of [...steps].reverse()) {
    const path = `${calc}/steps/${step.id}`;
    const takers = steps.flatMap((taker) =>
      takenFrom(taker.step).flatMap((from, k): Cell[] => {
        const { change } = taker.step;
        const toMass = change !== undefined && change !== "none" && "toAmount" in change;
        if (from.step !== step.id || toMass) return [];
        const said = typeof taker.step.from[k] !== "string";
        const share = said
          ? stated(ledger, `book:${placeOf(taker.step.id)}/from/${k}/share`, "ratio", from.share)
          : one;
        return [share, taker.inG, through.get(taker.step.id)!];
      }),
    );
    const taken = steps.some((taker) => takenFrom(taker.step).some((from) => from.step === step.id));
    const left = taken ? ledger.find(`${path}/left`)! : one;
    const g = ledger.derive(`${path}/through`, "g", throughStep, [stepG, left, ...takers]);
    through.set(step.id, g);
    const spread = changeSpread(step);
    if (!spread) continue;
    const place = `book:${placeOf(step.id)}/change`;
    const change = step.change as { readonly factor?: number; readonly addWaterFactor?: number };
    const mean =
      change.factor === undefined
        ? ledger.derive(`${path}/grows`, "ratio", sum, [
            one,
            stated(ledger, `${place}/addWaterFactor`, "ratio", change.addWaterFactor!),
          ])
        : stated(ledger, `${place}/factor`, "ratio", change.factor);
    strays.push(g, stated(ledger, `${place}/spread`, "ratio", spread), mean);
  }
  return ledger.derive(`${calc}/spread`, "ratio", yieldSpread, [outG, ...strays]);
}
