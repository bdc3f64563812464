import type { Preparation, Step } from "../formula/schema.ts";
import type { PlateCount } from "../run/result.ts";
import { namedForm } from "./forms.ts";
import { lineG, placementG, yieldG } from "./grams.ts";
import { lastStepsOf } from "./masses.ts";
import { named } from "./named.ts";
import { type Made, preparedWithEveryCover } from "./needs.ts";
import { firstTask, lastTask } from "./order.ts";
import { madeMin, type Parts, type PlannedBatch } from "./parts.ts";
import type { Scope } from "./scope.ts";
import { judgeSupply, type Lot, type Take } from "./supply.ts";
import { type Finding, roundDown } from "./types.ts";
import { holdMinutes } from "./work.ts";

/** Everybody who takes of each preparation, and when: steps of other preparations, and plate-ups. */
export function takesOf(scope: Scope, parts: Parts, plates: readonly PlateCount[]): Map<string, Take[]> {
  const all = new Map<string, Take[]>();
  const add = (id: string, take: Take) => all.set(id, [...(all.get(id) ?? []), take]);
  for (const batches of parts.batches.values())
    for (const batch of batches)
      for (const line of batch.preparation.lines) {
        if (!("preparation" in line.item)) continue;
        const grams = (lineG(scope, line) * batch.grams) / yieldG(batch.preparation);
        if (grams === 0) continue;
        for (const load of batch.loads.get(line.step) ?? []) {
          const [takenMin, usedMin] = [load.startMin, load.startMin];
          add(line.item.preparation, { task: firstTask(load), amount: grams / load.of, takenMin, usedMin });
        }
      }
  for (const task of parts.plates)
    for (const row of plates.filter((each) => each.dish === task.preparation && each.course === task.step))
      for (const placement of namedForm(scope.dishes.get(row.dish)!, row.variant)!) {
        if (placement.preparation === undefined) continue;
        const amount = (row.count + row.spare) * placementG(scope, placement);
        if (amount === 0) continue;
        add(placement.preparation, { task: task.id, amount, takenMin: task.startMin, usedMin: task.endMin });
      }
  // What goes with every cover goes out with the first plates of the first course.
  const first = firstPlateUp(scope, parts, plates);
  if (first)
    for (const { preparation, grams } of preparedWithEveryCover(scope))
      if (grams > 0)
        add(preparation, {
          ...{ task: first.id, amount: grams, takenMin: first.startMin, usedMin: first.endMin },
        });
  return all;
}

/** The plate-up of the first dish, in the order of the menu, of the earliest course of which anything is plated. */
export function firstPlateUp(scope: Scope, parts: Parts, plates: readonly PlateCount[]) {
  let earliest: { readonly afterMin: number; readonly id: string; readonly dish: string } | undefined;
  for (const { id, afterMin, options } of scope.menu.courses) {
    if (earliest && earliest.afterMin <= afterMin) continue;
    const served = options.find(({ dish }) =>
      plates.some((row) => row.course === id && row.dish === dish && row.count + row.spare > 0),
    );
    if (served) earliest = { afterMin, id, dish: served.dish };
  }
  return parts.plates.find((task) => task.step === earliest?.id && task.preparation === earliest.dish);
}

/** Judges what passes from one preparation to another and to the plates: made before it is used, and held no longer. */
export function judgeFeeding(
  scope: Scope,
  made: ReadonlyMap<string, Made>,
  parts: Parts,
  plates: readonly PlateCount[],
): Finding[] {
  const found: Finding[] = [];
  const takes = takesOf(scope, parts, plates);
  for (const [id, batches] of parts.batches) {
    const lots = batches.flatMap(lotOf);
    if (lots.length < batches.length) continue;
    const { stockG } = made.get(id)!;
    if (stockG > 0) lots.push({ task: "stock", amount: stockG, readyMin: -Infinity });
    found.push(
      ...judgeSupply(lots, takes.get(id) ?? [], {
        ready: "ready",
        hold: "hold",
        what: named(id, "preparation"),
      }),
    );
  }
  return found;
}

/** A batch as food that others take: there when its last steps are done, good as long as the shortest of their limits. */
function lotOf(batch: PlannedBatch): Lot[] {
  const readyMin = madeMin(batch);
  if (readyMin === undefined) return [];
  const last = lastStepsOf(batch.preparation).flatMap((step) => batch.loads.get(step.id) ?? []);
  const task = lastTask(last.find((load) => load.endMin === readyMin)!);
  const limits = last.map((load) => load.endMin + limitOf(batch.preparation, load.step));
  const useByMin = Math.min(...limits);
  return [{ task, amount: batch.grams, readyMin, ...(useByMin === Infinity ? {} : { useByMin }) }];
}

/** Its hold, within the life in that state; without a hold the longest life that is not frozen. Whole minutes. */
export function limitOf(preparation: Preparation, step: Step): number {
  const { hold } = step;
  const lives = preparation.life.filter((life) =>
    hold ? life.state === hold.state : life.state !== "frozen",
  );
  const life = lives.length === 0 ? Infinity : Math.max(...lives.map((each) => each.maxMinutes));
  return Math.min(hold ? holdMinutes(hold) : Infinity, roundDown(life));
}
