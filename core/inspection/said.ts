import type { PlanTask } from "../run/result.ts";
import { latestOf } from "./latest.ts";
import { named } from "./named.ts";
import type { Made } from "./needs.ts";
import type { Parts } from "./parts.ts";
import { happened } from "./pins.ts";
import type { Scope } from "./scope.ts";
import { grouped, type Tie, tiesOf } from "./ties.ts";
import type { Finding, Judged } from "./types.ts";

/**
 * Judges what a plan that keeps every rule says of each of its tasks: how far it may slip, what it comes after, and the wait of
 * what it made that is nearest to its limit. What has happened is not the plan's, so then nothing is judged.
 */
export function judgeSaid(
  scope: Scope,
  made: ReadonlyMap<string, Made>,
  parts: Parts,
  { plan, plates }: Judged,
): Finding[] {
  if (plan.status !== "feasible" || happened(scope).size > 0) return [];
  const ties = tiesOf(scope, made, parts, plates);
  const latest = latestOf(scope, parts, plates, plan.tasks, ties);
  const [before, behind] = [grouped(ties, "to"), grouped(ties, "from")];
  const byId = new Map(plan.tasks.map((task) => [task.id, task]));
  return plan.tasks.flatMap((task) => [
    ...judgeSlack(scope, task, latest.get(task.id)!),
    ...judgeAfters(task, before.get(task.id) ?? [], byId),
    ...judgeHold(task, behind.get(task.id) ?? [], byId),
    ...judgeStation(scope, task),
  ]);
}

const about = (rule: string, { id }: PlanTask, by: number, unit: string, what: string): Finding => ({
  ...{ rule, tasks: [id], by, unit, what: `${named(id)} ${what}` },
});

function judgeSlack(scope: Scope, task: PlanTask, latest: number): Finding[] {
  const slack = latest - task.startMin;
  if (task.slackMin !== slack) {
    const what = `is said to have ${task.slackMin} min of slack, it has ${slack} min`;
    return [about("slack", task, Math.abs(task.slackMin - slack), "min", what)];
  }
  const text = scope.textOf(latest);
  return task.latest === text
    ? []
    : [about("slack", task, 1, "min", `is said to begin by ${task.latest}, with its slack that is ${text}`)];
}

function judgeAfters(task: PlanTask, ties: readonly Tie[], byId: ReadonlyMap<string, PlanTask>): Finding[] {
  const wanted = new Set(
    ties.flatMap(({ from, least }) => (least !== undefined && byId.has(from.task) ? [from.task] : [])),
  );
  const said = new Set(task.after);
  const say = (id: string, what: string) => about("comes-after", task, 1, "task", `${what} ${named(id)}`);
  return [
    ...[...wanted].filter((id) => !said.has(id)).map((id) => say(id, "does not say that it comes after")),
    ...[...said].filter((id) => !wanted.has(id)).map((id) => say(id, "is said to come after")),
  ];
}

function judgeHold(task: PlanTask, ties: readonly Tie[], byId: ReadonlyMap<string, PlanTask>): Finding[] {
  const waits = ties.flatMap(({ to, most, state }) => {
    const taker = byId.get(to.task);
    if (most === undefined || state === undefined || !taker) return [];
    const usedMin = (to.at === "end" ? taker.endMin : taker.startMin) - task.endMin;
    return [{ state, maxMin: most, usedMin }];
  });
  const left = Math.min(...waits.map(({ maxMin, usedMin }) => maxMin - usedMin));
  const nearest = waits.filter(({ maxMin, usedMin }) => maxMin - usedMin === left);
  const { hold } = task;
  if (hold ? nearest.some((wait) => same(wait, hold)) : waits.length === 0) return [];
  const [found] = nearest;
  const text = (wait: typeof hold) =>
    wait ? `${wait.usedMin} min of ${wait.maxMin} min ${wait.state}` : "no wait with a limit";
  const by = Math.abs((hold?.usedMin ?? 0) - (found?.usedMin ?? 0)) || 1;
  return [about("waits", task, by, "min", `is said to be kept ${text(hold)}, it is ${text(found)}`)];
}

const same = (a: NonNullable<PlanTask["hold"]>, b: NonNullable<PlanTask["hold"]>) =>
  a.state === b.state && a.maxMin === b.maxMin && a.usedMin === b.usedMin;

/** At the station of its step; plates and the line check at the pass, where there is one. */
function judgeStation(scope: Scope, task: PlanTask): Finding[] {
  const pass = scope.kitchen.stations.some(({ id }) => id === "pass") ? "pass" : undefined;
  const step = scope.preparations.get(task.preparation)?.steps.find(({ id }) => id === task.step);
  const wanted = task.kind === "plate" || task.id === "line-check" ? pass : step?.work?.station;
  if (task.station === wanted) return [];
  const text = (id: string | undefined) => (id === undefined ? "no station" : named(id, "station"));
  return [
    about("station", task, 1, "station", `is said to be at ${text(task.station)}, it is at ${text(wanted)}`),
  ];
}
