import { indexBook } from "../book/index-book.ts";
import type { Book } from "../book/schema.ts";
import type { Finding, Moment } from "../inspection/index.ts";
import { computeAmounts } from "../production/compute-amounts.ts";
import { type LiveAsk, type LiveBase, type LiveMade, liveBase, livePlan } from "../production/live.ts";
import { problemFor } from "../production/make-plan.ts";
import type { Plan } from "../production/plan-types.ts";
import { apartFor } from "../safety/apart.ts";
import { Foods } from "../safety/foods.ts";
import { targetFiller } from "./fill.ts";
import { unsaid } from "./judge.ts";
import { contentsFor, type RunOptions } from "./run.ts";
import { StepHeats } from "./step-heats.ts";

/** A service that is under way: its tasks stay open between events. */
export interface OpenLive {
  readonly base: LiveBase;
  /** The plan after what the log tells, at a minute of the run. The same log and minute give the same plan. */
  at(asked: LiveAsk): LiveMade;
  /** What the inspector, who works it out by himself, finds wrong with an answer that it does not say itself. */
  unsaid(made: LiveMade, now: number): readonly Finding[];
}

/**
 * Reads the documents of a service once and keeps its tasks, so that an event costs a repair alone (README, L9).
 * @param plan as it was when the work began, of the same book, covers and kitchen.
 * @throws RunRefusal when the documents cannot be computed with.
 */
export function openLive(
  book: Book,
  serviceId: string,
  plan: Plan,
  options: Pick<RunOptions, "covers" | "kitchen"> = {},
): OpenLive {
  const docs = indexBook(book);
  const { covers, kitchen } = options;
  const contents = contentsFor(docs, serviceId, kitchen);
  const amounts = computeAmounts(docs, serviceId, { covers, kitchen, meets: contents.meets.bind(contents) });
  const heats = new StepHeats(docs, amounts, new Foods(docs));
  const apart = apartFor(contents, amounts.plates);
  const fillTarget = targetFiller(heats);
  const { site, set } = problemFor(docs, amounts, { fillTarget, apart });
  const base = liveBase(site, set, plan);
  return {
    base,
    at: (asked) => livePlan(base, asked),
    unsaid: (made, now) => unsaid(docs, amounts, made.live.plan, fillTarget, momentOf(made, now)),
  };
}

/** What a live answer was told, in the inspector's words. */
function momentOf({ live, stands, problem, places, elsewhere }: LiveMade, now: number): Moment {
  const missing = ({ id, from, to }: LiveMade["live"]["away"][number]) => ({ id, fromMin: from, toMin: to });
  return {
    nowMin: now,
    known: [...stands].flatMap(([task, { status, start, end }]) => {
      if (status === "open") return [];
      const rest = problem.rests.has(task);
      const againMin = rest ? places.get(task)!.again!.at : undefined;
      return [{ task, status: rest ? "started" : status, startMin: start, endMin: end, againMin }];
    }),
    away: live.away.map(missing),
    out: live.closed.map(missing),
    elsewhere,
  };
}
