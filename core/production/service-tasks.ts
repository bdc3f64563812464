import type { Preparation, Step } from "../formula/schema.ts";
import { type Feed, feedsOf } from "./feeds.ts";
import { lastSteps, positionsOf, storesFor, type WaitLimit, waitLimit } from "./holds.ts";
import { type CourseMoment, LINE_CHECK, LINE_CHECK_BEFORE_MIN, milestones } from "./milestones.ts";
import { pinned } from "./pins.ts";
import { wholeDown, wholeUp } from "./plan-rules.ts";
import type { Site } from "./site.ts";
import { type Draft, type StepInBatch, stepTasks } from "./step-tasks.ts";
import type { At, Link, Stay, TaskSet } from "./tasks.ts";
import { thaws } from "./thaw.ts";

/** Steps of a preparation by batch (index − 1) and id. */
type Made = ReadonlyMap<string, StepInBatch>[];

/** A service becomes tasks, links and stays (README, P2 to P13). Near linear in their number. */
export function serviceTasks(site: Site): TaskSet {
  const draft: Draft = { tasks: [], links: [] };
  const stays: Stay[] = [];
  const due = new Map<string, number>();
  const courses = milestones(site, draft);
  const made = new Map<string, Made>();
  const feeds = feedsOf(site.amounts, site.docs);
  for (const [id, amount] of site.amounts.preparations) {
    const prep = site.docs.preparations.get(id);
    if (!prep) continue;
    const batches: Map<string, StepInBatch>[] = [];
    for (const batch of amount.batches) {
      const steps = new Map<string, StepInBatch>();
      for (const i of orderOfSteps(prep))
        steps.set(prep.steps[i]!.id, stepTasks(site, draft, prep, amount, batch, i, steps));
      batches[batch.index - 1] = steps;
      insideLinks(site, draft, stays, prep, steps, batch.index);
    }
    made.set(id, batches);
  }
  const feeding = feedingBatches(feeds);
  for (const [id, batches] of made)
    afterLinks(draft, feeding, made, site.docs.preparations.get(id)!, batches);
  const last = new Map<string, ReadonlyMap<Step, number>>();
  for (const feed of feeds) {
    const prep = site.docs.preparations.get(feed.producer);
    if (!prep) continue;
    const steps = last.get(prep.id) ?? lastSteps(prep);
    last.set(prep.id, steps);
    for (const [step, left] of steps)
      feedLinks(site, draft, stays, due, made, courses, prep, step, left, feed);
  }
  thaws(site, draft, (id, batch, step) => starts(made.get(id)?.[batch - 1]?.get(step)));
  const tasks = pinned(site, draft.tasks).map((task) => {
    const wanted = due.get(task.id);
    return wanted === undefined ? task : { ...task, due: wanted };
  });
  return { tasks, links: draft.links, stays, lacks: site.lacks, doubts: site.doubts };
}

/** Steps after those that enter them; steps in a circle (refused elsewhere) come last. */
function orderOfSteps(prep: Preparation): number[] {
  const index = new Map(prep.steps.map((step, i) => [step.id, i]));
  const order: number[] = [];
  const done = new Set<number>();
  const visit = (i: number) => {
    if (done.has(i)) return;
    done.add(i);
    for (const from of prep.steps[i]!.from) visit(index.get(typeof from === "string" ? from : from.step)!);
    order.push(i);
  };
  prep.steps.forEach((_, i) => {
    visit(i);
  });
  return order;
}

function starts(step: StepInBatch | undefined): At[] {
  return step ? step.loads.map((load) => ({ task: load.first, at: "start" })) : [];
}

function ends(step: StepInBatch | undefined): At[] {
  return step ? step.loads.map((load) => ({ task: load.last, at: "end" })) : [];
}

/** Loads of a step after loads of the step that enters it, by their shares of the batch. */
function joinByShare(
  draft: Draft,
  from: readonly At[],
  to: readonly At[],
  link: Omit<Link, "from" | "to">,
): void {
  const [a, b] = [from.length, to.length];
  for (let i = 0; i < a; i++)
    for (let j = Math.floor((i * b) / a); j < b && j * a < (i + 1) * b; j++)
      draft.links.push({ ...link, from: from[i]!, to: to[j]! });
}

/** Every moment after every moment; equal numbers of loads pair off. */
function joinAll(
  draft: Draft,
  from: readonly At[],
  to: readonly At[],
  link: Omit<Link, "from" | "to">,
): void {
  if (from.length === to.length) joinByShare(draft, from, to, link);
  else for (const f of from) for (const t of to) draft.links.push({ ...link, from: f, to: t });
}

/** Inside one batch: each step after the steps that enter it, within their hold. */
function insideLinks(
  site: Site,
  draft: Draft,
  stays: Stay[],
  prep: Preparation,
  steps: ReadonlyMap<string, StepInBatch>,
  batch: number,
): void {
  for (const step of prep.steps)
    for (const entering of step.from) {
      const id = typeof entering === "string" ? entering : entering.step;
      const before = steps.get(id);
      const source = prep.steps.find((s) => s.id === id);
      if (!before || !source) continue;
      const limit = waitLimit(prep, source, false);
      const [from, to] = [ends(before), starts(steps.get(step.id))];
      joinByShare(draft, from, to, {
        rule: limit.rule,
        least: 0,
        ...mostOf(limit),
      });
      const share = typeof entering === "string" ? 1 : entering.share;
      stay(
        site,
        stays,
        source,
        limit,
        before.outG * share,
        0,
        from[0]!,
        to[0]!,
        `${prep.id}/${id}/${batch}>${step.id}`,
      );
    }
}

/** Batches of a producer that feed one batch of a consumer, by "producer>consumer/batch". */
function feedingBatches(feeds: readonly Feed[]): Map<string, Set<number>> {
  const feeding = new Map<string, Set<number>>();
  for (const { producer, batch, into } of feeds) {
    if (!("line" in into)) continue;
    const key = `${producer}>${into.preparation}/${into.batch}`;
    const known = feeding.get(key);
    if (known) known.add(batch);
    else feeding.set(key, new Set([batch]));
  }
  return feeding;
}

/** `after`: least and longest waits, inside a preparation or to one that enters it (all batches if it enters none). */
function afterLinks(
  draft: Draft,
  feeding: ReadonlyMap<string, ReadonlySet<number>>,
  made: ReadonlyMap<string, Made>,
  prep: Preparation,
  batches: Made,
): void {
  for (const step of prep.steps)
    for (const after of step.after) {
      const link = {
        rule: "after" as const,
        least: wholeUp(after.leastMin),
        ...(after.mostMin === undefined
          ? {}
          : { most: Math.max(wholeUp(after.leastMin), wholeDown(after.mostMin)) }),
      };
      const moments = after.from === "start" ? starts : ends;
      batches.forEach((steps, b) => {
        const to = starts(steps.get(step.id));
        if (typeof after.step === "string") {
          joinAll(draft, moments(steps.get(after.step)), to, link);
          return;
        }
        const { preparation, step: id } = after.step;
        const there = made.get(preparation) ?? [];
        const feeds = feeding.get(`${preparation}>${prep.id}/${b + 1}`);
        there.forEach((other, k) => {
          if (!feeds || feeds.has(k + 1)) joinAll(draft, moments(other.get(id)), to, link);
        });
      });
    }
}

/** A batch is ready before what it feeds begins, and is used or plated within its hold. */
function feedLinks(
  site: Site,
  draft: Draft,
  stays: Stay[],
  due: Map<string, number>,
  made: ReadonlyMap<string, Made>,
  courses: readonly CourseMoment[],
  prep: Preparation,
  step: Step,
  left: number,
  feed: Feed,
): void {
  const batch = made.get(prep.id)?.[feed.batch - 1]?.get(step.id);
  const amount = site.amounts.preparations.get(prep.id);
  const whole = amount?.batches[feed.batch - 1];
  if (!batch || !whole) return;
  const limit = waitLimit(prep, step, true);
  const from = ends(batch);
  const soft = limit.best === undefined ? {} : { best: limit.best };
  const share = whole.grams > 0 ? Math.min(1, feed.grams / whole.grams) : 1;
  const outG = batch.outG * left * share;
  const pieces = (whole.pieces ?? 0) * share;
  if ("line" in feed.into) {
    const { preparation, line: id, batch: b } = feed.into;
    const line = site.docs.preparations.get(preparation)?.lines.find((l) => l.id === id);
    const to = starts(line && made.get(preparation)?.[b - 1]?.get(line.step));
    if (to.length === 0) return;
    for (const f of from)
      for (const t of to)
        draft.links.push({ from: f, to: t, rule: limit.rule, least: 0, ...mostOf(limit), ...soft });
    stay(
      site,
      stays,
      step,
      limit,
      outG,
      pieces,
      from[0]!,
      to[0]!,
      `${prep.id}/${step.id}/${feed.batch}>${preparation}/${b}/${id}`,
    );
    return;
  }
  const { course, dish } = feed.into;
  const moment = courses.find((c) => c.course === course);
  const plating = moment?.dishes.get(dish);
  if (!moment || !plating) return;
  const [start, end]: At[] = [
    { task: plating.task, at: "start" },
    { task: plating.task, at: "end" },
  ];
  const check = site.clock.service - LINE_CHECK_BEFORE_MIN;
  const byCheck =
    hasLineCheck(draft) &&
    limit.most !== undefined &&
    limit.state !== "hot" &&
    limit.most >= moment.at - check;
  const most = limit.most ?? Number.POSITIVE_INFINITY;
  const wanted = byCheck
    ? dueOf(site, check, most - (moment.at - check))
    : dueOf(site, moment.at - plating.windowMin, most - plating.windowMin);
  for (const f of from) {
    draft.links.push({ from: f, to: start!, rule: "ready", least: 0, ...soft });
    if (limit.most !== undefined) draft.links.push({ from: f, to: end!, rule: limit.rule, ...mostOf(limit) });
    if (byCheck)
      draft.links.push({ from: f, to: { task: LINE_CHECK, at: "start" }, rule: "line-check", least: 0 });
    due.set(f.task, Math.min(due.get(f.task) ?? Number.POSITIVE_INFINITY, wanted));
  }
  stay(
    site,
    stays,
    step,
    limit,
    outG,
    pieces,
    from[0]!,
    end!,
    `${prep.id}/${step.id}/${feed.batch}>${course}/${dish}`,
  );
}

function mostOf(limit: WaitLimit): Pick<Link, "most" | "state"> {
  if (limit.most === undefined) return {};
  return { most: limit.most, ...(limit.state === undefined ? {} : { state: limit.state }) };
}

const hasLineCheck = (draft: Draft) => draft.tasks[0]?.id === LINE_CHECK;

/** P13: the chosen slack before the moment, or half of the minutes it may wait there when they are fewer. */
function dueOf(site: Site, moment: number, mayWait: number): number {
  const slack = Math.min(site.amounts.service.slackMin, Math.max(0, mayWait) / 2);
  return Math.max(0, wholeDown(moment - slack));
}

function stay(
  site: Site,
  stays: Stay[],
  step: Step,
  limit: WaitLimit,
  outG: number,
  pieces: number,
  from: At,
  to: At,
  id: string,
): void {
  const { state } = limit;
  if (state === undefined || state === "ambient") return;
  const units = storesFor(site, state);
  if (units.length === 0) return;
  stays.push({ id: `stay/${id}`, from, to, state, units, positions: positionsOf(step, outG, pieces) });
}
