import type { Lag, Moment, Placement, Problem, ResourceNeed, Schedule, Task } from "./problem.ts";

/** What of a problem is still to be settled, with its plan before, and the way back to the whole. */
export interface Remains {
  readonly problem: Problem;
  readonly old: Schedule;
  /** A plan of what remains together with what is over. */
  whole(schedule: Schedule): Schedule;
}

/**
 * A problem without what is over and touches nothing that is not: late in a service that is most of it. Left out are
 * done tasks with no lag, span or shared name to one that is open or under way, but for the last that left a state or a
 * class behind on its resource, and lags of which both moments are fixed: nothing that could be done would keep or break
 * them. What is judged is the whole.
 */
export function remainsOf(problem: Problem, old: Schedule): Remains {
  const before = new Map(old.placements.map((p) => [p.task, p]));
  const byId = new Map(problem.tasks.map((task) => [task.id, task]));
  const over = overOf(problem, before);
  const kept = (id: string) => !over.has(id);
  const spans = problem.spans ?? [];
  const spanKept = spans.map(({ from, to }) => kept(from.task) && kept(to.task));
  const ofKept = <T>(list: readonly T[]) => list.filter((_, k) => spanKept[k]);
  const free = ({ from, to }: Lag) =>
    kept(from.task) && kept(to.task) && !(fixed(byId, from) && fixed(byId, to));
  const left: Problem = {
    ...problem,
    tasks: problem.tasks.filter((task) => kept(task.id)),
    ...(problem.lags ? { lags: problem.lags.filter(free) } : {}),
    ...(problem.spans ? { spans: ofKept(spans) } : {}),
  };
  const placements = old.placements.filter((p) => kept(p.task));
  return {
    problem: left,
    old: { placements, spans: ofKept(spans.map((span, k) => old.spans[k] ?? span.need.of[0]!)) },
    whole(schedule) {
      const now = new Map(schedule.placements.map((p) => [p.task, p]));
      let next = 0;
      return {
        placements: problem.tasks.map(({ id }) => over.get(id) ?? now.get(id)!),
        spans: spans.map((span, k) =>
          spanKept[k] ? schedule.spans[next++]! : (old.spans[k] ?? span.need.of[0]!),
        ),
      };
    },
  };
}

/** Where a task stands that has happened: as decided, and for the rest as before; undefined where that is no place. */
export function happenedAt(problem: Problem, task: Task, was: Placement | undefined): Placement | undefined {
  if (!was) return undefined;
  const { start, end, mode, persons, resources } = task.status === undefined ? was : { ...was, ...task.pin };
  const way = task.modes[mode];
  const heads = (way?.people ?? []).reduce((sum, need) => sum + need.count, 0);
  if (!way || persons.length !== heads || resources.length !== (way.resources ?? []).length) return undefined;
  const there = (id: string) => problem.persons?.some((person) => person.id === id);
  return persons.every(there) ? { task: task.id, start, end, mode, persons, resources } : undefined;
}

/** Done tasks that nothing open hangs on, with their places. */
function overOf(problem: Problem, before: ReadonlyMap<string, Placement>): Map<string, Placement> {
  const done = new Set(problem.tasks.flatMap((task) => (task.status === "done" ? [task.id] : [])));
  // What hangs on something done is as far as a tie goes: behind it all is fixed.
  const held = new Set<string>();
  const names = new Set<string>();
  for (const { from, to } of [...(problem.lags ?? []), ...(problem.spans ?? [])])
    if (done.has(from.task) !== done.has(to.task)) held.add(done.has(from.task) ? from.task : to.task);
  for (const task of problem.tasks) if (!done.has(task.id)) for (const name of namesOf(task)) names.add(name);
  for (const { from, to, need } of problem.spans ?? [])
    if (need.same !== undefined && !(done.has(from.task) && done.has(to.task))) names.add(need.same);
  for (const id of leaving(problem, done, before)) held.add(id);
  const over = new Map<string, Placement>();
  for (const task of problem.tasks) {
    if (!done.has(task.id) || held.has(task.id) || namesOf(task).some((name) => names.has(name))) continue;
    const place = happenedAt(problem, task, before.get(task.id));
    if (place) over.set(task.id, place);
  }
  return over;
}

/**
 * Done tasks that what comes next on their resource may have to stand apart from: by resource, state and class the last.
 */
function leaving(
  problem: Problem,
  done: ReadonlySet<string>,
  before: ReadonlyMap<string, Placement>,
): Set<string> {
  const resources = new Map((problem.resources ?? []).map((r) => [r.id, r]));
  const last = new Map<string, { end: number; tasks: readonly string[] }>();
  const leave = (need: ResourceNeed, on: string | undefined, end: number, tasks: readonly string[]) => {
    const r = resources.get(on ?? "");
    const apart = (r?.state && need.state) || (r?.setups && need.class !== undefined);
    if (!apart) return;
    const key = JSON.stringify([on, need.class, need.state?.set, need.state?.tolerance]);
    if (end > (last.get(key)?.end ?? Number.NEGATIVE_INFINITY)) last.set(key, { end, tasks });
  };
  const places = new Map<string, Placement>();
  for (const task of problem.tasks) {
    const place = done.has(task.id) ? happenedAt(problem, task, before.get(task.id)) : undefined;
    if (!place) continue;
    places.set(task.id, place);
    task.modes[place.mode]!.resources?.forEach((need, k) => {
      leave(need, place.resources[k], place.end, [task.id]);
    });
  }
  problem.spans?.forEach(({ from, to, need }) => {
    const end = places.get(to.task)?.[to.at];
    if (end !== undefined && places.has(from.task))
      for (const on of need.of) leave(need, on, end, [from.task, to.task]);
  });
  return new Set([...last.values()].flatMap(({ tasks }) => tasks));
}

/** Names by which a task shares people or resources with others. */
function namesOf(task: Task): string[] {
  return task.modes.flatMap(({ people = [], resources = [] }) =>
    [...people, ...resources].flatMap(({ same }) => (same === undefined ? [] : [same])),
  );
}

function fixed(byId: ReadonlyMap<string, Task>, { task: id, at }: Moment): boolean {
  const { status, pin } = byId.get(id)!;
  if (status === undefined || status === "open") return false;
  return (at === "start" ? pin?.start : pin?.end) !== undefined;
}
