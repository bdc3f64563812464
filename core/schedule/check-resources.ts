import { momentOf, type Placed } from "./placed.ts";
import type { Problem, Resource, ResourceNeed, Schedule, Violation } from "./problem.ts";

/** One need on its resource from `from` to `to`. */
interface Held {
  readonly who: string;
  readonly need: ResourceNeed;
  readonly from: number;
  readonly to: number;
  /** Over and done with: only what it leaves behind is of matter. */
  readonly past: boolean;
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
    if (to <= from) return;
    const list = held.get(on) ?? [];
    list.push({ who, need, from, to, past });
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
    const there = list.some((h) => h.past) ? list.filter((h) => !h.past) : list;
    for (let d = 0; d < r.capacity.length; d++) checkCapacity(r, d, there, found);
    checkPairs(r, list, problem.horizon, found);
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
    const which = r.capacity.length > 1 ? { dimension: d } : {};
    found.push({ rule: "capacity", tasks, by, unit: "amount", on: r.id, at, ...which });
    worst = null;
  };
  for (const t of [...change.keys()].sort((a, b) => a - b)) {
    over += change.get(t)!;
    if (over <= 0) close();
    else if (!worst || over > worst.by) worst = { by: over, at: t };
  }
  close();
}

function checkPairs(r: Resource, list: readonly Held[], horizon: number, found: Violation[]): void {
  const cleaning = cleaningOf(r);
  const plain = ({ need }: Held) => !need.exclusive && need.batch === undefined && !need.state;
  if (cleaning.size === 0 && list.every(plain)) return;
  const idle = idleBefore(list);
  const longest = longestEmpty(r, cleaning, list);
  for (let i = 0; i < list.length; i++)
    for (let j = i + 1; j < list.length; j++) {
      const [a, b] = [list[i]!, list[j]!];
      const tasks = [a.who, b.who];
      const overlap = Math.min(a.to, b.to) - b.from;
      // Empty long enough for any two by now: whatever comes later is farther away still.
      if (overlap <= 0 && idle[j]! - idle[i]! >= longest) break;
      // Of what has happened only what comes after it can be at fault.
      if (b.past || (a.past && overlap > 0)) continue;
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
      const empty = overlap > 0 ? 0 : idle[j]! - idle[i]!;
      const asked = overlap > 0 ? Math.max(wanted, emptyMinutes(r, cleaning, b.need, a.need)) : wanted;
      // After what has happened nothing could come on the whole axis: that is not to be mended any more.
      if (a.past && asked > horizon) continue;
      if (empty < asked)
        found.push({ rule: "changeover", tasks, by: asked - empty, unit: "min", on: r.id, at: a.to });
    }
}

/**
 * Minutes, before each begins, in which the resource has held nothing since the first began. From the end of one to the
 * beginning of a later one it was empty for the difference: while the one is there nothing is added. Sorted by start.
 */
function idleBefore(list: readonly Held[]): number[] {
  let until = list[0]?.from ?? 0;
  let idle = 0;
  return list.map(({ from, to }) => {
    idle += Math.max(0, from - until);
    until = Math.max(until, to);
    return idle;
  });
}

/** Minutes by class before and class after. */
type Cleaning = ReadonlyMap<string, ReadonlyMap<string, number>>;

function cleaningOf(r: Resource): Cleaning {
  const cleaning = new Map<string, Map<string, number>>();
  for (const { from, to, minutes } of r.setups ?? []) {
    const after = cleaning.get(from) ?? new Map<string, number>();
    cleaning.set(from, after.set(to, minutes));
  }
  return cleaning;
}

/** No two of these want it empty for longer. */
function longestEmpty(r: Resource, cleaning: Cleaning, list: readonly Held[]): number {
  const minutes = [...cleaning.values()].flatMap((after) => [...after.values()]);
  const sets = list.flatMap(({ need }) => (need.state && r.state ? [need.state.set] : []));
  const range = sets.length > 0 ? Math.max(...sets) - Math.min(...sets) : 0;
  const heating = r.state ? Math.max(r.state.leastMinutes, Math.ceil(r.state.minutesPerUnit * range)) : 0;
  return Math.max(0, heating, ...minutes);
}

/** How far two states are apart beyond the smaller tolerance; 0 when they can be shared. */
function stateGap(r: Resource, a: ResourceNeed, b: ResourceNeed): number {
  if (!a.state || !b.state || !r.state) return 0;
  const tolerance = Math.min(a.state.tolerance ?? r.state.tolerance, b.state.tolerance ?? r.state.tolerance);
  const apart = Math.abs(a.state.set - b.state.set);
  return apart <= tolerance ? 0 : apart;
}

/** Minutes the resource must stand empty when b follows a. */
function emptyMinutes(r: Resource, cleaning: Cleaning, a: ResourceNeed, b: ResourceNeed): number {
  const apart = stateGap(r, a, b);
  const heating =
    apart === 0 ? 0 : Math.max(r.state!.leastMinutes, Math.ceil(r.state!.minutesPerUnit * apart - 1e-9));
  if (cleaning.size === 0 || a.class === undefined || b.class === undefined) return heating;
  return Math.max(heating, cleaning.get(a.class)?.get(b.class) ?? 0);
}
