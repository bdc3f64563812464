import type { Broken } from "./plan-types.ts";

/**
 * What a plan breaks and did not break before, or breaks more than before. A line that stands for many (`times`) is
 * known when all its tasks were told under its rule and it comes to no more than they did: that one of many has gone is
 * nothing new.
 */
export function newBreaches(before: readonly Broken[], now: readonly Broken[]): Broken[] {
  return now.filter((broken) => !known(before, broken));
}

function known(before: readonly Broken[], { rule, unit, tasks, by, times }: Broken): boolean {
  const alike = before.filter((each) => each.rule === rule && each.unit === unit);
  const exact = alike.filter((each) => each.times === undefined && sameTasks(each.tasks, tasks));
  if (times === undefined && exact.length > 0) return exact.some((each) => by <= each.by);
  // One by one before and together now, or the other way about.
  const shared = alike.filter((each) => each.tasks.some((task) => tasks.includes(task)));
  const grouped = times !== undefined || shared.some((each) => each.times !== undefined);
  if (!grouped) return false;
  const told = new Set(shared.flatMap((each) => each.tasks));
  const sum = shared.reduce((total, each) => total + each.by, 0);
  return tasks.every((task) => told.has(task)) && by <= sum;
}

const sameTasks = (a: readonly string[], b: readonly string[]) =>
  a.length === b.length && a.every((task, i) => task === b[i]);
