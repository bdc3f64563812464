import type { Moment, Placement, Problem, Resource } from "./problem.ts";

interface Taken {
  readonly from: number;
  readonly to: number;
  readonly amount: readonly number[];
}

/**
 * A resource for every span of a plan whose tasks have their places: the one it had where that has room, else the first
 * that has. Room alone is looked at, as the checker judges the rest; where none has room it keeps its own.
 */
export function seated(problem: Problem, placements: readonly Placement[], had: readonly string[]): string[] {
  const spans = problem.spans ?? [];
  const resources = new Map((problem.resources ?? []).map((r) => [r.id, r]));
  const taken = new Map<string, Taken[]>();
  const take = (on: string, one: Taken) => {
    const list = taken.get(on);
    if (list) list.push(one);
    else taken.set(on, [one]);
  };
  const index = new Map(placements.map((p) => [p.task, p]));
  problem.tasks.forEach((task, i) => {
    const { start: from, end: to, mode, resources: on } = placements[i]!;
    if (task.status === "done") return;
    task.modes[mode]!.resources?.forEach(({ amount }, k) => {
      take(on[k]!, { from, to, amount });
    });
  });
  const at = (m: Moment) => index.get(m.task)![m.at];
  const chosen = spans.map(({ need }, k) => {
    const own = had[k];
    return own !== undefined && need.of.includes(own) ? own : need.of[0]!;
  });
  const order = spans
    .map(({ from, to, need }, k) => ({ k, from: at(from), to: at(to), need }))
    .sort((a, b) => a.from - b.from || a.k - b.k);
  for (const { k, from, to, need } of order) {
    if (to <= from) continue;
    const one = { from, to, amount: need.amount };
    const fits = (on: string) => hasRoom(resources.get(on), taken.get(on) ?? [], one);
    const on = need.of.length === 1 || fits(chosen[k]!) ? chosen[k]! : (need.of.find(fits) ?? chosen[k]!);
    chosen[k] = on;
    take(on, one);
  }
  return chosen;
}

/** Whether what is there leaves room: use is highest where something begins. */
function hasRoom(resource: Resource | undefined, there: readonly Taken[], one: Taken): boolean {
  if (!resource) return false;
  const beside = there.filter((t) => t.from < one.to && t.to > one.from);
  const moments = [one.from, ...beside.map((t) => t.from).filter((t) => t > one.from)];
  return resource.capacity.every((most, d) =>
    moments.every(
      (t) =>
        beside.reduce((sum, b) => (b.from <= t && t < b.to ? sum + (b.amount[d] ?? 0) : sum), 0) +
          (one.amount[d] ?? 0) <=
        most,
    ),
  );
}
