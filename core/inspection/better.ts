import type { PlanTask } from "../run/result.ts";
import type { Made } from "./needs.ts";
import type { Parts } from "./parts.ts";
import { happened } from "./pins.ts";
import type { Scope } from "./scope.ts";
import { covered, type Span } from "./spans.ts";
import { handsBeyond, heatUps } from "./spent.ts";
import { type Finding, type Judged, roundUp, same } from "./types.ts";
import { waitsOf } from "./waits.ts";

/** From there on an hour is called full: this share of the minutes that hands are there. */
const FULL = 0.75;
const HOUR = 60;

/**
 * Judges what a plan that keeps every rule says it is good at: slack eaten, food held beyond its best, waits, heat-ups,
 * hands beyond the fewest, peaks of work, walking and work interrupted by a break, each summed again. What has happened is
 * not the plan's, so then nothing is judged.
 */
export function judgeBetter(
  scope: Scope,
  made: ReadonlyMap<string, Made>,
  parts: Parts,
  { plan, plates }: Judged,
): Finding[] {
  if (plan.status !== "feasible" || happened(scope).size > 0) return [];
  const waits = waitsOf(scope, made, parts, plates);
  const sums: Readonly<Record<string, () => number | undefined>> = {
    slack: () => waits.slack,
    stale: () => waits.stale,
    waiting: () => waits.waiting,
    heatUps: () => heatUps(scope, parts),
    hands: () => handsBeyond(scope, parts, plates),
    peaks: () => peaks(scope, plan.tasks),
    walking: () => walked(scope, plan.tasks),
    breaks: () => interrupted(scope, plan.tasks),
  };
  return plan.objective.flatMap(({ key, term, value, unit }): Finding[] => {
    const sum = sums[key]?.();
    if (sum === undefined || same(sum, value)) return [];
    const what = `${term}: the plan says ${value} ${unit}, it is ${sum}`;
    return [{ rule: "term", tasks: [], by: Math.abs(sum - value), unit, what }];
  });
}

const spanOf = (scope: Scope, span: { readonly from: string; readonly to: string }): Span => [
  scope.minuteOf(span.from),
  scope.minuteOf(span.to),
];

/** Minutes of hands at work beyond three quarters of those there, hour of the clock by hour of the clock. */
function peaks(scope: Scope, tasks: readonly PlanTask[]): number {
  const [worked, there] = [new Map<number, number>(), new Map<number, number>()];
  const past = pastHour(scope);
  const count = (hours: Map<number, number>, minute: number) => {
    const hour = Math.floor((minute + past) / HOUR);
    hours.set(hour, (hours.get(hour) ?? 0) + 1);
  };
  for (const person of scope.kitchen.crew) {
    const shifts = person.shifts.map((shift) => spanOf(scope, shift));
    const rests = person.shifts.flatMap((shift) => shift.breaks.map((rest) => spanOf(scope, rest)));
    const here = new Set<number>();
    for (const [from, to] of shifts)
      for (let minute = Math.max(0, from); minute < to; minute++) here.add(minute);
    for (const [from, to] of rests) for (let minute = from; minute < to; minute++) here.delete(minute);
    for (const minute of here) count(there, minute);
    for (const task of tasks)
      if (task.hands.includes(person.id))
        for (let minute = task.startMin; minute < task.endMin; minute++)
          if (here.has(minute)) count(worked, minute);
  }
  let sum = 0;
  for (const [hour, minutes] of worked) sum += Math.max(0, minutes - FULL * (there.get(hour) ?? 0));
  return sum;
}

/** Minutes since the full hour at minute 0. */
function pastHour(scope: Scope): number {
  return Number(scope.textOf(0).split(":")[1]);
}

/** Minutes between the stations at which each person works one after the other, whole ones. */
function walked(scope: Scope, tasks: readonly PlanTask[]): number {
  const between = (from: string, to: string) => {
    const there = scope.kitchen.walk.filter((walk) => walk.from === from && walk.to === to).at(-1);
    const back = scope.kitchen.walk.filter((walk) => walk.from === to && walk.to === from).at(-1);
    return roundUp((there ?? back)?.min ?? 0);
  };
  let sum = 0;
  for (const person of scope.kitchen.crew) {
    const stations = tasks
      .filter((task) => task.hands.includes(person.id) && task.station !== undefined)
      .sort((a, b) => a.startMin - b.startMin)
      .map((task) => task.station!);
    for (let i = 1; i < stations.length; i++) sum += between(stations[i - 1]!, stations[i]!);
  }
  return sum;
}

/** How often a break of somebody on it lies inside work. */
function interrupted(scope: Scope, tasks: readonly PlanTask[]): number {
  const breaks = new Map(
    scope.kitchen.crew.map((person) => [
      person.id,
      person.shifts.flatMap((shift) => shift.breaks.map((rest) => spanOf(scope, rest))),
    ]),
  );
  return tasks.filter(({ hands, startMin, endMin }) =>
    hands.some((id) => covered(breaks.get(id) ?? [], startMin, endMin) > 0),
  ).length;
}
