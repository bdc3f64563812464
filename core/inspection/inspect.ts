import type { Book } from "../book/schema.ts";
import type { PlanTask } from "../run/result.ts";
import { judgeBalance } from "./balance.ts";
import { judgeBetter } from "./better.ts";
import { judgeContact } from "./contact.ts";
import { judgeEquipment } from "./equipment.ts";
import { judgeFeeding } from "./feeding.ts";
import { Unweighable } from "./grams.ts";
import { judgeMatrix } from "./matrix.ts";
import { judgeMoment, looksOfBrokenOff, type Moment, scopeAt, tasksAt } from "./moment.ts";
import { judgeMoments } from "./moments.ts";
import { named, namesIn } from "./named.ts";
import { judgeNeeds, type Made, madeOf } from "./needs.ts";
import { judgeOrder } from "./order.ts";
import { judgeOrders } from "./orders.ts";
import { type Parts, partsOf } from "./parts.ts";
import { judgePeople } from "./people.ts";
import { happened, judgePins } from "./pins.ts";
import { judgePlates } from "./plates.ts";
import { judgeSaid } from "./said.ts";
import { type Scope, scopeOf } from "./scope.ts";
import { isAdmitted, judgeStatus } from "./status.ts";
import { judgeStores } from "./stores.ts";
import { judgeThaws } from "./thaws.ts";
import type { Finding, InspectOptions, Judged, Report } from "./types.ts";
import { judgeWork } from "./work.ts";

/**
 * Judges a run from the documents alone, by sums of its own: plates, what must be made, and each rule of the plan.
 * It shares no code with what it judges. What follows from a stage that is wrong is not judged: plates come before
 * needs, needs before the plan (I2).
 *
 * @param book as read by `parseBook`. @param result of the run, or just the parts that are judged.
 * @returns what is wrong and not said by the plan (`ok` when nothing is), and what the plan says itself.
 * @throws RangeError when the book has no such service or kitchen.
 */
export function inspect(book: Book, result: Judged, options: InspectOptions): Report {
  const scope = scopeOf(book, options);
  try {
    return judge(scope, result, options);
  } catch (error) {
    if (!(error instanceof Unweighable)) throw error;
    return reportOf(scope, result, [
      { rule: "amount", tasks: [], by: 1, unit: "amount", what: error.message },
    ]);
  }
}

/**
 * Judges a plan as it stands in the middle of a service: what has begun or is over stands as it was told and is not
 * judged otherwise, what is to come keeps every rule with the people and the equipment that are there (I19).
 */
export function inspectAt(book: Book, result: Judged, options: InspectOptions, moment: Moment): Report {
  const scope = scopeAt(scopeOf(book, options), moment);
  const { plan } = result;
  const now = { ...result, plan: { ...plan, tasks: tasksAt(plan.tasks, scope, moment) } };
  try {
    return judge(scope, now, options, moment, judgeMoment(plan.tasks, moment));
  } catch (error) {
    if (!(error instanceof Unweighable)) throw error;
    return reportOf(scope, result, [
      { rule: "amount", tasks: [], by: 1, unit: "amount", what: error.message },
    ]);
  }
}

function judge(
  scope: Scope,
  result: Judged,
  options: InspectOptions,
  moment?: Moment,
  ofMoment?: readonly Finding[],
): Report {
  const { plates, plan, allergens, balance } = result;
  const wrongPlates = judgePlates(scope, plates);
  if (wrongPlates.length > 0) return reportOf(scope, result, wrongPlates);
  const made = madeOf(scope, plates);
  const wrongNeeds = judgeNeeds(made, result.needs);
  if (wrongNeeds.length > 0) return reportOf(scope, result, wrongNeeds);
  const parts = plan.status === "none" ? undefined : partsOf(scope, made, plan.tasks);
  const found = [
    ...(parts ? judgePlan(scope, result, options, made, parts) : []),
    ...judgeOrders(scope, made, parts, plates, result),
    ...(allergens ? judgeMatrix(scope, plates, allergens, parts) : []),
    ...(balance ? judgeBalance(scope, made, balance) : []),
    ...judgeStatus(plan),
    // What a day half over is worth is nobody's question.
    ...(ofMoment || !parts ? [] : judgeBetter(scope, made, parts, result)),
  ];
  // Said of a task is said of a plan: of one that is wrong nothing more is asked.
  if (found.length === 0 && parts && !ofMoment) found.push(...judgeSaid(scope, made, parts, result));
  const past = happened(scope);
  const { elsewhere } = moment ?? {};
  const unlooked = moment ? looksOfBrokenOff(moment) : () => false;
  return reportOf(scope, result, [
    ...(ofMoment ?? []),
    ...found.filter(
      (each) =>
        each.tasks.length === 0 ||
        !each.tasks.every(
          (task) =>
            past.has(task) ||
            (each.rule === "equipment" && elsewhere?.has(task)) ||
            (["look-in", "unknown"].includes(each.rule) && unlooked(task)),
        ),
    ),
  ]);
}

function judgePlan(
  scope: Scope,
  { plates, plan }: Judged,
  options: InspectOptions,
  made: ReadonlyMap<string, Made>,
  parts: Parts,
): Finding[] {
  return [
    ...parts.findings,
    ...plan.tasks.flatMap((task) => judgeClock(scope, task)),
    ...judgeWork(scope, parts.loads, options),
    ...judgeOrder(scope, parts),
    ...judgeFeeding(scope, made, parts, plates),
    ...judgeThaws(scope, parts),
    ...judgePeople(scope, parts, plan.tasks),
    ...judgeEquipment(scope, parts),
    ...judgeContact(scope, parts, plates),
    ...judgeStores(scope, parts, plates),
    ...judgeMoments(scope, made, parts, plates),
    ...judgePins(scope, plan.tasks),
  ];
}

/** Whole minutes in order, none before the horizon, written as the clock they are. */
function judgeClock(scope: Scope, task: PlanTask): Finding[] {
  const { id, startMin, endMin } = task;
  const say = (rule: string, by: number, what: string): Finding => ({
    ...{ rule, tasks: [id], by, unit: "min", what: `${named(id)} ${what}` },
  });
  if (![startMin, endMin].every(Number.isInteger) || endMin < startMin)
    return [say("clock", Math.abs(endMin - startMin), `runs from ${startMin} to ${endMin}`)];
  const found: Finding[] = [];
  if (startMin < 0)
    found.push(say("horizon", -startMin, `begins ${-startMin} min before the first moment of the plan`));
  const wrong = [
    [task.start, startMin],
    [task.end, endMin],
  ] as const;
  for (const [text, minute] of wrong)
    if (scope.textOf(minute) !== text)
      found.push(say("clock", 1, `writes ${text} where it is ${scope.textOf(minute)}`));
  return found;
}

function reportOf(scope: Scope, { plan }: Judged, found: readonly Finding[]): Report {
  const all = onceEach(found).map((each) => ({ ...each, what: namesIn(scope, each.what, plan.tasks) }));
  const findings = all.filter((finding) => !isAdmitted(plan, finding));
  return { ok: findings.length === 0, findings, admitted: all.filter((each) => !findings.includes(each)) };
}

/** A finding that is met on two ways is told once. */
function onceEach(found: readonly Finding[]): Finding[] {
  return [...new Map(found.map((each) => [JSON.stringify(each), each])).values()];
}
