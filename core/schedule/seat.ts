import type { Moment, Placement, Problem, Resource, ResourceNeed } from "./problem.ts";

/** A need where it stands. */
interface Taken {
  readonly from: number;
  readonly to: number;
  readonly need: ResourceNeed;
}

/**
 * A resource for every span of a plan whose tasks have their places: the one it had where it can stand there, else the
 * first where it can; where it can nowhere it keeps its own. The checker judges what comes of it.
 * @param now where they stand now: taken before any other where the one it had is not to be had
 */
export function seated(
  problem: Problem,
  placements: readonly Placement[],
  had: readonly string[],
  now: readonly string[] = had,
): string[] {
  let first: readonly number[] = [];
  for (let round = 1; ; round++) {
    const { chosen, left } = seatedFrom(problem, placements, had, now, first);
    if (left.length === 0 || round === ROUNDS) return chosen;
    // Who found no room stays where it stands now, and the others choose around it.
    first = [...first, ...left];
  }
}

const ROUNDS = 8;

/** @param first who stays where it stands now */
function seatedFrom(
  problem: Problem,
  placements: readonly Placement[],
  had: readonly string[],
  now: readonly string[],
  first: readonly number[],
): { readonly chosen: string[]; readonly left: readonly number[] } {
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
    task.modes[mode]!.resources?.forEach((need, k) => {
      take(on[k]!, { from, to, need });
    });
  });
  const at = (m: Moment) => index.get(m.task)![m.at];
  const chosen = spans.map(({ need }, k) => {
    const own = had[k];
    return own !== undefined && need.of.includes(own) ? own : need.of[0]!;
  });
  const left: number[] = [];
  const stays = new Set(first);
  const turn = (k: number) => (stays.has(k) ? 0 : 1);
  const order = spans
    .map(({ from, to, need }, k) => ({ k, one: { from: at(from), to: at(to), need } }))
    .sort((a, b) => turn(a.k) - turn(b.k) || a.one.from - b.one.from || a.k - b.k);
  for (const { k, one } of order) {
    if (one.to <= one.from) continue;
    const { of } = one.need;
    const fits = (on: string) => {
      const r = resources.get(on);
      return r !== undefined && hasRoom(r, taken.get(on) ?? [], one);
    };
    const own = stays.has(k)
      ? now[k]
      : [chosen[k]!, now[k]!, ...of].find((on) => of.length === 1 || fits(on));
    if (own === undefined) left.push(k);
    chosen[k] = own ?? chosen[k]!;
    take(chosen[k]!, one);
  }
  return { chosen, left };
}

/** Whether it can stand there with what is there: use is highest where something begins. */
function hasRoom(r: Resource, there: readonly Taken[], one: Taken): boolean {
  if (there.some((t) => !beside(r, t, one))) return false;
  const here = there.filter((t) => t.from < one.to && t.to > one.from);
  const moments = [one.from, ...here.map((t) => t.from).filter((t) => t > one.from)];
  return leastOf(r, one).every((most, d) =>
    moments.every(
      (t) =>
        here.reduce((sum, b) => (b.from <= t && t < b.to ? sum + (b.need.amount[d] ?? 0) : sum), 0) +
          (one.need.amount[d] ?? 0) <=
        most,
    ),
  );
}

/** What there is of it all the time it is asked for. */
function leastOf(r: Resource, { from, to }: Taken): readonly number[] {
  if (!r.calendar) return r.capacity;
  const within = r.calendar.find((c) => c.from <= from && to <= c.to);
  return within?.capacity ?? r.capacity.map(() => -1);
}

/** Whether two may be on it when they are: alone, at one state, apart by the minutes between two states or classes. */
function beside(r: Resource, a: Taken, b: Taken): boolean {
  const [first, second] = a.from <= b.from ? [a, b] : [b, a];
  const kept = a.need.same !== undefined && a.need.same === b.need.same;
  const overlap = second.from < first.to;
  if (overlap && !kept && (a.need.exclusive || b.need.exclusive)) return false;
  const gap = gapBetween(r, first.need, second.need);
  return gap === 0 || second.from >= first.to + gap;
}

function gapBetween(r: Resource, a: ResourceNeed, b: ResourceNeed): number {
  const cleaning =
    a.class === undefined || b.class === undefined
      ? 0
      : (r.setups?.find((s) => s.from === a.class && s.to === b.class)?.minutes ?? 0);
  if (!r.state || !a.state || !b.state) return cleaning;
  const { tolerance, leastMinutes, minutesPerUnit } = r.state;
  const apart = Math.abs(a.state.set - b.state.set);
  if (apart <= Math.min(a.state.tolerance ?? tolerance, b.state.tolerance ?? tolerance)) return cleaning;
  return Math.max(cleaning, 1, leastMinutes, Math.ceil(minutesPerUnit * apart));
}
