import type { Preparation, Step } from "../formula/schema.ts";
import { gramsOfPreparation, lineG } from "./grams.ts";
import type { Scope } from "./scope.ts";

/** Mass through a step at the declared yield, g. */
export interface StepMass {
  readonly inG: number;
  readonly outG: number;
}

/** Mass that enters and leaves each step, followed from step to step by what the document says. */
export function massesOf(scope: Scope, preparation: Preparation): ReadonlyMap<string, StepMass> {
  const done = new Map<string, StepMass>();
  const follow = (step: Step): StepMass => {
    const before = done.get(step.id);
    if (before) return before;
    let inG = 0;
    for (const line of preparation.lines) if (line.step === step.id) inG += lineG(scope, line);
    for (const { id, share } of enteringOf(step))
      inG += share * follow(preparation.steps.find((each) => each.id === id)!).outG;
    const mass = { inG, outG: changed(preparation, step, inG) * (1 - (step.discard?.factor ?? 0)) };
    done.set(step.id, mass);
    return mass;
  };
  preparation.steps.forEach(follow);
  return done;
}

function changed(preparation: Preparation, step: Step, inG: number): number {
  const { change } = step;
  if (change === undefined || change === "none") return inG;
  if ("factor" in change) return inG * change.factor;
  if ("addWaterFactor" in change) return inG * (1 + change.addWaterFactor);
  if ("toFactor" in change) return inG * change.toFactor;
  return gramsOfPreparation(change.toAmount, preparation);
}

/** Steps whose output enters a step, with the share of it. */
export function enteringOf(step: Step): { readonly id: string; readonly share: number }[] {
  return step.from.map((from) =>
    typeof from === "string" ? { id: from, share: 1 } : { id: from.step, share: from.share },
  );
}

/** Steps whose output nothing takes, or not all of it: together they are the preparation. */
export function lastStepsOf(preparation: Preparation): Step[] {
  return preparation.steps.filter((step) => {
    const taken = preparation.steps.flatMap(enteringOf).filter((from) => from.id === step.id);
    return taken.reduce((sum, from) => sum + from.share, 0) < 1 - 1e-9;
  });
}
