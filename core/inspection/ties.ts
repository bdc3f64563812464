import type { Step } from "../formula/schema.ts";
import type { PlateCount } from "../run/result.ts";
import { limitOf } from "./feeding.ts";
import { handedOut } from "./handed.ts";
import { enteringOf, lastStepsOf } from "./masses.ts";
import { LINE_CHECK_MIN } from "./moments.ts";
import type { Made } from "./needs.ts";
import { firstTask, lastTask } from "./order.ts";
import type { Load, Parts, PlannedBatch } from "./parts.ts";
import type { Scope } from "./scope.ts";
import { roundDown, roundUp } from "./types.ts";
import { sharesMeet } from "./waits.ts";
import { holdMinutes } from "./work.ts";

interface At {
  readonly task: string;
  readonly at: "start" | "end";
}

/** One moment of the plan that waits for another, minutes between them: as long at the least, so long at the most. */
export interface Tie {
  readonly from: At;
  readonly to: At;
  readonly least?: number;
  readonly most?: number;
  /** How food waits meanwhile, where `most` is its limit. */
  readonly state?: string;
  /** A waiting that goes with its work, or a look-in with the waiting. */
  readonly goesWith?: true;
}

/** By the task they are to, or from. */
export function grouped(ties: readonly Tie[], by: "from" | "to"): ReadonlyMap<string, readonly Tie[]> {
  const found = new Map<string, Tie[]>();
  for (const tie of ties) {
    const list = found.get(tie[by].task);
    if (list) list.push(tie);
    else found.set(tie[by].task, [tie]);
  }
  return found;
}

const beginOf = (load: Load): At => ({ task: firstTask(load), at: "start" });
const endOf = (load: Load): At => ({ task: lastTask(load), at: "end" });

/**
 * What waits for what in a plan, load by load, with each batch meant for whom the queue gives it to (production, P4 to P7,
 * P11, P12): read from the documents.
 */
export function tiesOf(
  scope: Scope,
  made: ReadonlyMap<string, Made>,
  parts: Parts,
  plates: readonly PlateCount[],
): Tie[] {
  const handed = handedOut(scope, made, parts, plates);
  const ties: Tie[] = parts.loads.flatMap(insideLoad);
  const feeding = new Map<string, Set<PlannedBatch>>();
  for (const { from, to } of handed) {
    const last = lastStepsOf(from.preparation).flatMap((step) => from.loads.get(step.id) ?? []);
    for (const load of last) {
      const limit = limited(limitOf(from.preparation, load.step), stateOf(load));
      if ("plate" in to) {
        ties.push({ from: endOf(load), to: { task: to.plate.id, at: "start" }, least: 0 });
        if (limit.most !== undefined)
          ties.push({ from: endOf(load), to: { task: to.plate.id, at: "end" }, ...limit });
        if (byLineCheck(scope, load, to.plate.step))
          ties.push({ from: endOf(load), to: { task: "line-check", at: "start" }, least: 0 });
      } else
        for (const taker of to.loads)
          ties.push({ from: endOf(load), to: beginOf(taker), least: 0, ...limit });
    }
    for (const { preparation, batch } of "loads" in to ? to.loads.slice(0, 1) : []) {
      const key = `${from.preparation.id}>${preparation.id}/${batch}`;
      feeding.set(key, (feeding.get(key) ?? new Set()).add(from));
    }
  }
  for (const batch of [...parts.batches.values()].flat())
    for (const step of batch.preparation.steps)
      ties.push(...insideBatch(batch, step), ...afterOthers(parts, feeding, batch, step));
  for (const [key, thaw] of parts.thaws)
    for (const load of thawedFor(parts, key))
      ties.push({ from: { task: thaw.id, at: "end" }, to: beginOf(load), least: 0 });
  for (const plate of parts.plates)
    ties.push({
      from: { task: plate.id, at: "end" },
      to: { task: `course/${plate.step}`, at: "start" },
      least: 0,
    });
  return ties;
}

const limited = (most: number, state: string | undefined): Pick<Tie, "most" | "state"> =>
  most === Infinity ? {} : { most, ...(state === undefined ? {} : { state }) };

/** By its hold; without one by the life that lasts longest and is not frozen. */
function stateOf({ preparation, step }: Load): string | undefined {
  if (step.hold) return step.hold.state;
  const lives = preparation.life.filter((life) => life.state !== "frozen");
  const longest = Math.max(...lives.map((life) => life.maxMinutes));
  return lives.find((life) => life.maxMinutes === longest)?.state;
}

/** Whether what a load made is to be there for the line check: it may wait from then until its course, and not hot. */
function byLineCheck(scope: Scope, load: Load, courseId: string): boolean {
  const check = scope.serviceMin - LINE_CHECK_MIN;
  const course = scope.menu.courses.find(({ id }) => id === courseId)!;
  const most = limitOf(load.preparation, load.step);
  const at = scope.serviceMin + roundDown(course.afterMin);
  return check >= 0 && most < Infinity && stateOf(load) !== "hot" && most >= at - check;
}

/** The waiting after its work, and look-ins a quarter of their time to either side. */
function insideLoad({ step, work, wait, looks }: Load): Tie[] {
  if (!wait) return [];
  const ties: Tie[] = [];
  const goesWith = true as const;
  const begins: At = { task: wait.id, at: "start" };
  if (work) ties.push({ from: { task: work.id, at: "end" }, to: begins, least: 0, most: 0, goesWith });
  const lasts = roundUp(step.attended?.min ?? 0);
  const every = Math.max(step.attended?.every ?? 1, lasts, 1);
  for (const { id } of looks) {
    const at = Number(id.split("-").at(-1)) * every;
    const most = Math.min(Math.floor(at + every / 4), wait.endMin - wait.startMin - lasts);
    const to: At = { task: id, at: "start" };
    ties.push({ from: begins, to, least: Math.ceil(at - every / 4), most, goesWith });
  }
  return ties;
}

/** From the steps of the same batch that enter a step, within their hold. */
function insideBatch(batch: PlannedBatch, step: Step): Tie[] {
  const ties: Tie[] = [];
  for (const { id } of enteringOf(step))
    for (const before of batch.loads.get(id) ?? [])
      for (const load of batch.loads.get(step.id) ?? [])
        if (sharesMeet(before, load)) {
          const { hold } = before.step;
          const limit = hold ? limited(holdMinutes(hold), hold.state) : {};
          ties.push({ from: endOf(before), to: beginOf(load), least: 0, ...limit });
        }
  return ties;
}

/** Waits that a step asks for after another: of the same batch, or of the batches of another preparation that feed it. */
function afterOthers(
  parts: Parts,
  feeding: ReadonlyMap<string, ReadonlySet<PlannedBatch>>,
  batch: PlannedBatch,
  step: Step,
): Tie[] {
  const ties: Tie[] = [];
  const own = batch.loads.get(step.id) ?? [];
  for (const after of step.after) {
    const least = roundUp(after.leastMin);
    const most = after.mostMin === undefined ? Infinity : Math.max(least, roundDown(after.mostMin));
    const join = (others: readonly Load[]) => {
      const pairs = others.length === own.length;
      for (const [i, other] of others.entries())
        for (const load of pairs ? [own[i]!] : own)
          ties.push({
            ...{ from: after.from === "start" ? beginOf(other) : endOf(other), to: beginOf(load), least },
            ...limited(most, undefined),
          });
    };
    if (typeof after.step === "string") {
      join(batch.loads.get(after.step) ?? []);
      continue;
    }
    const { preparation, step: id } = after.step;
    const feeds = feeding.get(`${preparation}>${batch.preparation.id}/${batch.batch}`);
    for (const other of parts.batches.get(preparation) ?? [])
      if (!feeds || feeds.has(other)) join(other.loads.get(id) ?? []);
  }
  return ties;
}

/** The loads that a thawed line enters, by "preparation/line/batch". */
function thawedFor(parts: Parts, key: string): readonly Load[] {
  const [id = "", lineId, number] = key.split("/");
  const batch = parts.batches.get(id)?.find((each) => String(each.batch) === number);
  const line = batch?.preparation.lines.find((each) => each.id === lineId);
  return batch?.loads.get(line?.step ?? "") ?? [];
}
