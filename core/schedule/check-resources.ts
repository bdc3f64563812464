import { momentOf, type Placed } from "./placed.ts";
import type { Problem, Resource, ResourceNeed, Schedule, Violation } from "./problem.ts";

/** One need on its resource from `from` to `to`. */
interface Held {
  readonly who: string;
  readonly need: ResourceNeed;
  readonly from: number;
  readonly to: number;
}

/** What is held where: choice, capacity by hour, states and changeovers, cleaning, loads, the same resource. */
export function checkResources(
  problem: Problem,
  schedule: Schedule,
  placed: Placed,
  found: Violation[],
): void {
  const resources = new Map((problem.resources ?? []).map((r) => [r.id, r]));
  const held = new Map<string, Held[]>();
  const same = new Map<string, { who: Set<string>; on: Set<string> }>();
  const hold = (
    who: string,
    need: ResourceNeed,
    on: string | undefined,
    from: number,
    to: number,
    past: boolean,
  ) => {
    if (on === undefined || !need.of.includes(on) || !resources.has(on)) {
      found.push({
        rule: "resource-choice",
        tasks: [who],
        by: 1,
        unit: "count",
        on: on ?? need.of.join(" | "),
      });
      return;
    }
    if (need.same !== undefined) {
      const group = same.get(need.same) ?? { who: new Set(), on: new Set() };
      group.who.add(who);
      group.on.add(on);
      same.set(need.same, group);
    }
    if (past || to <= from) return;
    const list = held.get(on) ?? [];
    list.push({ who, need, from, to });
    held.set(on, list);
  };
  problem.tasks.forEach((task, i) => {
    const p = schedule.placements[i]!;
    const needs = task.modes[p.mode]!.resources ?? [];
    if (p.resources.length > needs.length)
      found.push({
        rule: "resource-choice",
        tasks: [task.id],
        by: p.resources.length - needs.length,
        unit: "count",
      });
    needs.forEach((need, k) => {
      hold(task.id, need, p.resources[k], p.start, p.end, task.status === "done");
    });
  });
  problem.spans?.forEach((span, i) => {
    const past = placed.get(span.to.task)!.task.status === "done";
    hold(span.id, span.need, schedule.spans[i], momentOf(span.from, placed), momentOf(span.to, placed), past);
  });
  for (const [name, group] of same)
    if (group.on.size > 1)
      found.push({
        rule: "same-resource",
        tasks: [...group.who],
        by: group.on.size - 1,
        unit: "count",
        on: name,
      });
  for (const [id, list] of held) {
    list.sort((a, b) => a.from - b.from || a.to - b.to);
    const r = resources.get(id)!;
    for (let d = 0; d < r.capacity.length; d++) checkCapacity(r, d, list, found);
    checkPairs(r, list, found);
  }
}

/** Sweeps the minutes at which use or capacity changes; one violation for each unbroken stretch of excess. */
function checkCapacity(r: Resource, d: number, list: readonly Held[], found: Violation[]): void {
  const change = new Map<number, number>();
  const step = (t: number, by: number) => change.set(t, (change.get(t) ?? 0) + by);
  for (const h of list) {
    step(h.from, h.need.amount[d] ?? 0);
    step(h.to, -(h.need.amount[d] ?? 0));
  }
  for (const c of r.calendar ?? []) {
    step(c.from, -c.capacity[d]!);
    step(c.to, c.capacity[d]!);
  }
  // With a calendar, use is counted against it: a need of nothing still wants nothing.
  let over = r.calendar ? 0 : -r.capacity[d]!;
  let worst: { by: number; at: number } | null = null;
  const close = () => {
    if (!worst) return;
    const { by, at } = worst;
    const tasks = list
      .filter((h) => h.from <= at && at < h.to && (h.need.amount[d] ?? 0) > 0)
      .map((h) => h.who);
    found.push({ rule: "capacity", tasks, by, unit: "amount", on: r.id, at });
    worst = null;
  };
  for (const t of [...change.keys()].sort((a, b) => a - b)) {
    over += change.get(t)!;
    if (over <= 0) close();
    else if (!worst || over > worst.by) worst = { by: over, at: t };
  }
  close();
}

function checkPairs(r: Resource, list: readonly Held[], found: Violation[]): void {
  const cleaning = new Map((r.setups ?? []).map((s) => [classPair(s.from, s.to), s.minutes]));
  for (let i = 0; i < list.length; i++)
    for (let j = i + 1; j < list.length; j++) {
      const [a, b] = [list[i]!, list[j]!];
      const tasks = [a.who, b.who];
      const overlap = Math.min(a.to, b.to) - b.from;
      const kept = a.need.same !== undefined && a.need.same === b.need.same;
      if (overlap > 0) {
        if ((a.need.exclusive || b.need.exclusive) && !kept)
          found.push({ rule: "exclusive", tasks, by: overlap, unit: "min", on: r.id, at: b.from });
        if ((a.need.batch !== undefined || b.need.batch !== undefined) && !kept)
          if (a.need.batch !== b.need.batch || a.from !== b.from)
            found.push({ rule: "batch", tasks, by: overlap, unit: "min", on: r.id, at: b.from });
        const apart = stateGap(r, a.need, b.need);
        if (apart > 0) found.push({ rule: "state", tasks, by: apart, unit: "state", on: r.id, at: b.from });
      }
      const wanted = emptyMinutes(r, cleaning, a.need, b.need);
      if (wanted === 0 && (overlap <= 0 || emptyMinutes(r, cleaning, b.need, a.need) === 0)) continue;
      if (overlap > 0 && stateGap(r, a.need, b.need) > 0) continue;
      const empty = overlap > 0 ? 0 : b.from - a.to - occupied(list, a.to, b.from);
      const asked = overlap > 0 ? Math.max(wanted, emptyMinutes(r, cleaning, b.need, a.need)) : wanted;
      if (empty < asked)
        found.push({ rule: "changeover", tasks, by: asked - empty, unit: "min", on: r.id, at: a.to });
    }
}

/** How far two states are apart beyond the smaller tolerance; 0 when they can be shared. */
function stateGap(r: Resource, a: ResourceNeed, b: ResourceNeed): number {
  if (!a.state || !b.state || !r.state) return 0;
  const tolerance = Math.min(a.state.tolerance ?? r.state.tolerance, b.state.tolerance ?? r.state.tolerance);
  const apart = Math.abs(a.state.set - b.state.set);
  return apart <= tolerance ? 0 : apart;
}

/** Minutes the resource must stand empty when b follows a. */
function emptyMinutes(
  r: Resource,
  cleaning: ReadonlyMap<string, number>,
  a: ResourceNeed,
  b: ResourceNeed,
): number {
  const apart = stateGap(r, a, b);
  const heating =
    apart === 0 ? 0 : Math.max(r.state!.leastMinutes, Math.ceil(r.state!.minutesPerUnit * apart - 1e-9));
  if (cleaning.size === 0 || a.class === undefined || b.class === undefined) return heating;
  return Math.max(heating, cleaning.get(classPair(a.class, b.class)) ?? 0);
}

const classPair = (from: string, to: string) => JSON.stringify([from, to]);

/** Minutes of [from, to) in which the resource holds something. The list is sorted by start. */
function occupied(list: readonly Held[], from: number, to: number): number {
  let sum = 0;
  let until = from;
  for (const h of list) {
    const a = Math.max(h.from, until);
    const b = Math.min(h.to, to);
    if (b <= a) continue;
    sum += b - a;
    until = b;
  }
  return sum;
}
