import type { Step } from "../formula/schema.ts";
import type { PlateCount } from "../run/result.ts";
import { limitOf } from "./feeding.ts";
import { type Handed, handedOut } from "./handed.ts";
import { enteringOf, lastStepsOf } from "./masses.ts";
import { LINE_CHECK_MIN } from "./moments.ts";
import type { Made } from "./needs.ts";
import type { Load, Parts } from "./parts.ts";
import type { Scope } from "./scope.ts";
import { roundDown } from "./types.ts";

/** What a plan's waits come to, minutes. */
export interface Waits {
  /** Eaten of the slack the chef asked for. */
  readonly slack: number;
  /** That food is used later than its best. */
  readonly stale: number;
  /** That anything waits for its next use, where no best is known. */
  readonly waiting: number;
}

/**
 * Adds up slack eaten, food held beyond its best, and waits, load by load and taker by taker (production, P13 and P16), with
 * each batch meant for whom the queue gives it to.
 */
export function waitsOf(
  scope: Scope,
  made: ReadonlyMap<string, Made>,
  parts: Parts,
  plates: readonly PlateCount[],
): Waits {
  const handed = handedOut(scope, made, parts, plates);
  const beyond = handed.flatMap((each) => usedAfter(each));
  return {
    slack: eaten(scope, handed),
    stale: sumOf(beyond.flatMap(({ best, waits }) => (best === undefined ? [] : Math.max(0, waits - best)))),
    waiting:
      sumOf(beyond.flatMap(({ best, waits }) => (best === undefined ? Math.max(0, waits) : []))) +
      waitsInside(parts) +
      waitsThawed(parts),
  };
}

/** The loads of the steps that make up a batch. */
const lastLoads = ({ from }: Handed): Load[] =>
  lastStepsOf(from.preparation).flatMap((step) => from.loads.get(step.id) ?? []);

/** How long each load of a batch waits for each that takes of it, and within how long it is at its best. */
function usedAfter(handed: Handed): { readonly waits: number; readonly best: number | undefined }[] {
  const { bestWithinMinutes } = handed.from.preparation;
  const best = bestWithinMinutes === undefined ? undefined : roundDown(bestWithinMinutes);
  const begins = "plate" in handed.to ? [handed.to.plate.startMin] : handed.to.loads.map((l) => l.startMin);
  return lastLoads(handed).flatMap(({ endMin }) => begins.map((begin) => ({ waits: begin - endMin, best })));
}

/**
 * Minutes by which what is plated is made later than the chef's slack before its moment: the line check where it has to be
 * ready by then, else the begin of the plate-up's window; half of what it may wait there where that is less.
 */
function eaten(scope: Scope, handed: readonly Handed[]): number {
  const due = new Map<Load, number>();
  for (const each of handed) {
    if (!("plate" in each.to)) continue;
    const course = scope.menu.courses.find(({ id }) => "plate" in each.to && id === each.to.plate.step)!;
    const windowMin = roundDown(scope.dishes.get(each.to.plate.preparation)!.windowMin);
    for (const load of lastLoads(each)) {
      const wanted = wantedBy(scope, load, scope.serviceMin + roundDown(course.afterMin), windowMin);
      due.set(load, Math.min(due.get(load) ?? Infinity, wanted));
    }
  }
  return sumOf([...due].map(([{ endMin }, wanted]) => Math.max(0, endMin - wanted)));
}

function wantedBy(scope: Scope, { preparation, step }: Load, courseMin: number, windowMin: number): number {
  const mayWait = limitOf(preparation, step);
  const checkMin = scope.serviceMin - LINE_CHECK_MIN;
  const toldBy = checkMin >= 0 && mayWait < Infinity && !isHot(preparation.life, step, mayWait);
  const byCheck = toldBy && mayWait >= courseMin - checkMin;
  const [moment, before] = byCheck ? [checkMin, courseMin - checkMin] : [courseMin - windowMin, windowMin];
  const slack = Math.min(scope.service.slackMin, Math.max(0, mayWait - before) / 2);
  return Math.max(0, roundDown(moment - slack));
}

/** Whether what a step made waits hot: by its hold; without one by the life that lasts longest. */
function isHot(life: Load["preparation"]["life"], { hold }: Step, mayWait: number): boolean {
  if (hold) return hold.state === "hot";
  return (
    life.find((each) => roundDown(each.maxMinutes) === mayWait && each.state !== "frozen")?.state === "hot"
  );
}

/** From step to step of one batch: a load waits for those whose share of the batch it is. */
function waitsInside(parts: Parts): number {
  let sum = 0;
  for (const batch of [...parts.batches.values()].flat())
    for (const step of batch.preparation.steps)
      for (const { id } of enteringOf(step))
        for (const before of batch.loads.get(id) ?? [])
          for (const after of batch.loads.get(step.id) ?? [])
            if (sharesMeet(before, after)) sum += Math.max(0, after.startMin - before.endMin);
  return sum;
}

/** Whether two loads of one batch, each of its equal share of it, have food in common. */
export function sharesMeet(a: Load, b: Load): boolean {
  return (a.load - 1) * b.of < b.load * a.of && (b.load - 1) * a.of < a.load * b.of;
}

/** What has thawed waits for the step it enters. */
function waitsThawed(parts: Parts): number {
  let sum = 0;
  for (const [key, { endMin }] of parts.thaws) {
    const [id, lineId, batch] = key.split("/");
    const planned = parts.batches.get(id!)?.find((each) => String(each.batch) === batch);
    const line = planned?.preparation.lines.find((each) => each.id === lineId);
    for (const load of planned?.loads.get(line?.step ?? "") ?? []) sum += Math.max(0, load.startMin - endMin);
  }
  return sum;
}

const sumOf = (list: readonly number[]) => list.reduce((sum, each) => sum + each, 0);
