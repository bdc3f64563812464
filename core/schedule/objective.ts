import { stretchesOf } from "./peaks.ts";
import type {
  Lag,
  Objective,
  Placement,
  Problem,
  ResourceNeed,
  Schedule,
  Task,
  Term,
  Valued,
} from "./problem.ts";

/** The weights in force: what the problem says, else the defaults of problem.ts. */
export function weightsOf(problem: Problem): Required<Omit<Objective, "peak">> & Pick<Objective, "peak"> {
  return {
    makespan: 0,
    late: 1000,
    early: 1,
    hold: 10,
    changes: 0,
    pauses: 0,
    walk: 0,
    modes: 1,
    ...problem.objective,
  };
}

/** Wanted end of a task. */
export function dueOf(problem: Problem, task: Task): number {
  return task.due ?? task.deadline ?? problem.horizon;
}

/** The objective of a schedule, term by term, weighted; terms of weight 0 are left out. */
export function objectiveOf(problem: Problem, schedule: Schedule): Valued[] {
  const w = weightsOf(problem);
  const terms: Valued[] = [];
  const add = (term: Term, weight: number, sum: () => number) => {
    if (weight > 0) terms.push({ term, value: weight * sum() });
  };
  const live = problem.tasks.map((task, i) => ({ task, p: schedule.placements[i]! }));
  const open = live.filter(({ task }) => task.status !== "done");
  add("makespan", w.makespan, () => live.reduce((most, { p }) => Math.max(most, p.end), 0));
  add("late", w.late, () =>
    open.reduce((sum, { task, p }) => sum + (task.late ?? 1) * Math.max(0, p.end - dueOf(problem, task)), 0),
  );
  add("early", w.early, () =>
    open.reduce((sum, { task, p }) => sum + (task.early ?? 0) * Math.max(0, dueOf(problem, task) - p.end), 0),
  );
  add("hold", w.hold, () => holds(problem, schedule));
  add("changes", w.changes, () => changes(problem, schedule));
  const { peak } = w;
  if (peak)
    add("peak", peak.weight, () =>
      stretchesOf(problem, schedule.placements, peak).reduce((sum, { over }) => sum + over, 0),
    );
  add("pauses", w.pauses, () => live.filter(({ task, p }) => interrupted(task, p)).length);
  add("walk", w.walk, () => walked(problem, schedule));
  add("modes", w.modes, () => open.reduce((sum, { task, p }) => sum + (task.modes[p.mode]!.cost ?? 0), 0));
  return terms;
}

/** Sum of the terms. */
export function totalOf(terms: readonly Valued[]): number {
  return terms.reduce((sum, t) => sum + t.value, 0);
}

function holds(problem: Problem, schedule: Schedule): number {
  const at = new Map(schedule.placements.map((p) => [p.task, p]));
  const over = (lag: Lag) =>
    lag.best === undefined
      ? 0
      : Math.max(0, at.get(lag.to.task)![lag.to.at] - at.get(lag.from.task)![lag.from.at] - lag.best);
  return (problem.lags ?? []).reduce((sum, lag) => sum + (lag.cost ?? 1) * over(lag), 0);
}

/** For each resource: the first state, and each next one that its neighbour before could not share; spans hold one too. */
function changes(problem: Problem, schedule: Schedule): number {
  const use = new Map<string, { from: number; set: number; tolerance: number }[]>();
  const rules = new Map((problem.resources ?? []).map((r) => [r.id, r.state]));
  const add = (need: ResourceNeed, id: string, from: number) => {
    if (!need.state) return;
    const rule = rules.get(id);
    const list = use.get(id) ?? [];
    list.push({ from, set: need.state.set, tolerance: need.state.tolerance ?? rule?.tolerance ?? 0 });
    use.set(id, list);
  };
  problem.tasks.forEach((task, i) => {
    const p = schedule.placements[i]!;
    if (task.status === "done") return;
    task.modes[p.mode]!.resources?.forEach((need, k) => {
      add(need, p.resources[k]!, p.start);
    });
  });
  const spans = (problem.spans ?? []).map((span, k) => ({ span, on: schedule.spans[k]! }));
  if (spans.some(({ span }) => span.need.state)) {
    const at = new Map(schedule.placements.map((p) => [p.task, p]));
    const done = new Set(problem.tasks.filter((task) => task.status === "done").map((task) => task.id));
    for (const { span, on } of spans) {
      const [from, to] = [at.get(span.from.task)![span.from.at], at.get(span.to.task)![span.to.at]];
      if (to > from && !done.has(span.from.task)) add(span.need, on, from);
    }
  }
  let count = 0;
  for (const list of use.values()) {
    list.sort((a, b) => a.from - b.from || a.set - b.set);
    count++;
    for (let i = 1; i < list.length; i++) {
      const [a, b] = [list[i - 1]!, list[i]!];
      if (Math.abs(a.set - b.set) > Math.min(a.tolerance, b.tolerance)) count++;
    }
  }
  return count;
}

/** Whether a break or the end of a shift lies inside the work. */
function interrupted(task: Task, p: Placement): boolean {
  const mode = task.modes[p.mode]!;
  const pauses = (mode.interrupt ?? "no") !== "no" && task.pin?.end === undefined && p.persons.length > 0;
  return pauses && p.end - p.start > mode.duration;
}

/** Minutes walked between consecutive tasks of each person. */
function walked(problem: Problem, schedule: Schedule): number {
  const minutes = new Map<string, number>();
  const key = (from: string, to: string) => JSON.stringify([from, to]);
  for (const w of problem.walks ?? []) minutes.set(key(w.to, w.from), w.minutes);
  for (const w of problem.walks ?? []) minutes.set(key(w.from, w.to), w.minutes);
  const routes = new Map<string, { start: number; place: string }[]>();
  problem.tasks.forEach((task, i) => {
    const p = schedule.placements[i]!;
    if (task.place === undefined || task.status === "done") return;
    for (const id of p.persons) {
      const route = routes.get(id) ?? [];
      route.push({ start: p.start, place: task.place });
      routes.set(id, route);
    }
  });
  let sum = 0;
  for (const route of routes.values()) {
    route.sort((a, b) => a.start - b.start);
    for (let i = 1; i < route.length; i++) sum += minutes.get(key(route[i - 1]!.place, route[i]!.place)) ?? 0;
  }
  return sum;
}
