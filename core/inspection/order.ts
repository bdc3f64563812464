import type { Preparation, Step } from "../formula/schema.ts";
import { lineG, yieldG } from "./grams.ts";
import { enteringOf } from "./masses.ts";
import { named } from "./named.ts";
import type { Load, Parts, PlannedBatch } from "./parts.ts";
import type { Scope } from "./scope.ts";
import { judgeSupply, type Lot, type Take } from "./supply.ts";
import { type Finding, roundDown, roundUp } from "./types.ts";
import { holdMinutes } from "./work.ts";

/** Judges the order of the steps in each batch: what enters is done and not held too long, waits are kept. */
export function judgeOrder(scope: Scope, parts: Parts): Finding[] {
  const found: Finding[] = [];
  for (const batches of parts.batches.values())
    for (const batch of batches) {
      for (const step of batch.preparation.steps) found.push(...judgeOutput(batch, step));
      for (const step of batch.preparation.steps)
        for (const after of step.after) found.push(...judgeAfter(scope, parts, batch, step, after));
    }
  return found;
}

/** The output of one step, load by load, and the steps of the same batch that take it. */
function judgeOutput(batch: PlannedBatch, step: Step): Finding[] {
  const loads = batch.loads.get(step.id) ?? [];
  const takes: Take[] = [];
  for (const next of batch.preparation.steps)
    for (const from of enteringOf(next))
      if (from.id === step.id)
        for (const taker of batch.loads.get(next.id) ?? []) {
          const [takenMin, usedMin] = [taker.startMin, taker.startMin];
          takes.push({ task: firstTask(taker), amount: from.share / taker.of, takenMin, usedMin });
        }
  const lots = loads.map((load): Lot => {
    const useByMin = step.hold && load.endMin + holdMinutes(step.hold);
    return { task: lastTask(load), amount: 1 / load.of, readyMin: load.endMin, useByMin };
  });
  if (lots.length === 0) return [];
  return judgeSupply(lots, takes, {
    ready: "ready",
    hold: "hold",
    what: `what comes of ${named(`${batch.preparation.id}/${step.id}/${batch.batch}`)}`,
  });
}

type After = Step["after"][number];

/** Least and longest wait from a moment of another step to the first moment of this one. */
function judgeAfter(scope: Scope, parts: Parts, batch: PlannedBatch, step: Step, after: After): Finding[] {
  const own = batch.loads.get(step.id) ?? [];
  const found: Finding[] = [];
  const least = roundUp(after.leastMin);
  const most = after.mostMin === undefined ? undefined : roundDown(after.mostMin);
  const begun = (load: Load) => scope.begun?.get(firstTask(load)) ?? load.startMin;
  const momentOf = (load: Load) => (after.from === "start" ? begun(load) : load.endMin);
  const tell = (a: Load, b: Load, by: number, what: string) =>
    found.push({
      ...{
        rule: "after",
        tasks: [after.from === "start" ? firstTask(a) : lastTask(a), firstTask(b)],
        by,
        unit: "min",
      },
      what: `${named(b.id)} begins ${by} min too ${what} after ${named(a.id)}`,
    });
  const compare = (a: Load, b: Load) => {
    const waits = b.startMin - momentOf(a);
    if (waits < least) tell(a, b, least - waits, "soon");
    if (most !== undefined && waits > most) tell(a, b, waits - most, "late");
  };
  if (typeof after.step === "string") {
    const others = batch.loads.get(after.step) ?? [];
    if (others.length === own.length) for (const [i, other] of others.entries()) compare(other, own[i]!);
    else for (const other of others) for (const load of own) compare(other, load);
    return found;
  }
  const { preparation: otherId, step: otherStep } = after.step;
  const others = parts.batches.get(otherId) ?? [];
  const taken = takenG(scope, batch.preparation, otherId);
  if (taken === 0 || others.length === 1) {
    for (const other of others)
      for (const load of other.loads.get(otherStep) ?? []) for (const mine of own) compare(load, mine);
    return found;
  }
  // Of several batches, each must keep the wait with those that can feed it: that is judged over all of them at once.
  if (batch.batch > 1) return found;
  const all = parts.batches.get(batch.preparation.id) ?? [];
  return judgeSupply(
    others.flatMap((other) =>
      (other.loads.get(otherStep) ?? []).map((load): Lot => {
        const useByMin = most === undefined ? undefined : momentOf(load) + most;
        return {
          task: lastTask(load),
          amount: other.grams / load.of,
          readyMin: momentOf(load) + least,
          useByMin,
        };
      }),
    ),
    all.flatMap((taker) =>
      (taker.loads.get(step.id) ?? []).map((load): Take => {
        const amount = (taken * taker.grams) / load.of;
        return { task: firstTask(load), amount, takenMin: load.startMin, usedMin: load.startMin };
      }),
    ),
    { ready: "after", hold: "after", what: named(otherId, "preparation") },
  );
}

/** Grams of another preparation in a gram of this one. */
function takenG(scope: Scope, preparation: Preparation, other: string): number {
  const made = [...preparation.lines].filter(
    (line) => "preparation" in line.item && line.item.preparation === other,
  );
  const sum = made.reduce((total, line) => total + lineG(scope, line), 0);
  return sum / yieldG(preparation);
}

export const firstTask = (load: Load) => (load.work ?? load.wait)!.id;
export const lastTask = (load: Load) => (load.wait ?? load.work)!.id;
