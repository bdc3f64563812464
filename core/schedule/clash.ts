import { type Arc, positiveCircle } from "./circle.ts";
import { leastCycle } from "./cycle.ts";
import type { Conflict, ConflictPart, Moment, Problem } from "./problem.ts";

/** Dates, pins and lags that ask for more time than there is: a circle of positive length in their graph. */
export function clashOfDates(problem: Problem): Conflict | null {
  // Least lags in a circle are refused before; what is left needs a date or a longest wait.
  if (leastCycle(problem)) return null;
  const circle = positiveCircle(2 * problem.tasks.length + 1, dateArcs(problem));
  if (!circle) return null;
  const tasks = new Set<string>();
  for (const arc of circle)
    for (const m of [arc.from, arc.to]) if (m > 0) tasks.add(problem.tasks[(m - 1) >> 1]!.id);
  const needed = withoutIdle(problem, circle);
  return {
    tasks: [...tasks],
    rules: needed.map((arc) => arc.rule),
    parts: needed.map((arc) => arc.part),
    by: circle.reduce((sum, arc) => sum + arc.length, 0),
    irreducible: true,
  };
}

/**
 * The rules of a circle that are needed for it: what clashes even without one of them, because no task lies outside the axis
 * or ends before it begins, does so without naming it. Durations go first, the shortest first.
 */
function withoutIdle(problem: Problem, circle: readonly DateArc[]): DateArc[] {
  const moments = [...new Set(circle.flatMap(({ from, to }) => [from, to]))].filter((m) => m > 0);
  const axis = [...new Set(moments.map((m) => (m - 1) >> 1))].flatMap((i): DateArc[] => {
    const [start, end, tasks] = [1 + 2 * i, 2 + 2 * i, [problem.tasks[i]!.id]];
    const arc = (from: number, to: number, length: number, kind: "now" | "horizon" | "duration") => ({
      ...{ from, to, length, rule: kind, part: { kind, tasks } },
    });
    return [
      arc(0, start, problem.now ?? 0, "now"),
      arc(end, 0, -problem.horizon, "horizon"),
      arc(start, end, 0, "duration"),
    ];
  });
  const isAxis = ({ part: { kind } }: DateArc) => kind === "now" || kind === "horizon";
  const light = ({ part: { kind }, length }: DateArc) => (kind === "duration" ? Math.abs(length) : Infinity);
  const clashes = (arcs: readonly DateArc[]) => positiveCircle(2 * problem.tasks.length + 1, arcs) !== null;
  let kept = circle.filter((arc) => !isAxis(arc));
  for (const arc of kept.toSorted((a, b) => (light(a) === light(b) ? 0 : light(a) - light(b)))) {
    const rest = kept.filter((each) => each !== arc);
    if (clashes([...rest, ...axis])) kept = rest;
  }
  const ends = (["now", "horizon"] as const).filter(
    (kind) => !clashes([...kept, ...axis.filter(({ part }) => part.kind !== kind)]),
  );
  const named = ends.map((kind) => axis.find(({ part }) => part.kind === kind)!);
  return [...kept, ...named];
}

/** Moment 0 is minute 0, then start and end of each task. */
interface DateArc extends Arc {
  readonly rule: string;
  readonly part: ConflictPart;
}

function dateArcs(problem: Problem): DateArc[] {
  const index = new Map(problem.tasks.map((t, i) => [t.id, i]));
  const moment = (m: Moment) => 1 + 2 * index.get(m.task)! + (m.at === "end" ? 1 : 0);
  const arcs: DateArc[] = [];
  problem.tasks.forEach((t, i) => {
    const name = t.label ?? t.id;
    const [start, end] = [1 + 2 * i, 2 + 2 * i];
    const open = (t.status ?? "open") === "open";
    const pinned = t.pin?.start !== undefined && t.pin.end !== undefined;
    const add = (from: number, to: number, length: number, rule: string, kind: ConflictPart["kind"]) =>
      arcs.push({ from, to, length, rule, part: { kind, tasks: [t.id] } });
    if (pinned) {
      add(start, end, t.pin!.end! - t.pin!.start!, `time taken by ${name}`, "duration");
      add(end, start, t.pin!.start! - t.pin!.end!, `time taken by ${name}`, "duration");
    } else {
      add(start, end, Math.min(...t.modes.map((m) => m.duration)), `duration of ${name}`, "duration");
      if (t.modes.every((m) => (m.interrupt ?? "no") === "no" || !m.people?.length))
        add(end, start, -Math.max(...t.modes.map((m) => m.duration)), `duration of ${name}`, "duration");
    }
    if (t.pin?.start !== undefined) {
      add(0, start, t.pin.start, `pin of ${name}`, "pin");
      add(start, 0, -t.pin.start, `pin of ${name}`, "pin");
    }
    if (!open) return;
    if (t.release !== undefined && t.release > (problem.now ?? 0))
      add(0, start, t.release, `release of ${name}`, "release");
    else add(0, start, problem.now ?? 0, "now", "now");
    if (t.deadline !== undefined && t.deadline < problem.horizon)
      add(end, 0, -t.deadline, `deadline of ${name}`, "deadline");
    else add(end, 0, -problem.horizon, "horizon", "horizon");
  });
  for (const lag of problem.lags ?? []) {
    const [from, to] = [moment(lag.from), moment(lag.to)];
    const name = lag.rule ?? `${lag.from.task} ${lag.from.at} to ${lag.to.task} ${lag.to.at}`;
    const part = (kind: ConflictPart["kind"]) => ({
      ...{ kind, tasks: [lag.from.task, lag.to.task] },
      ...(lag.rule === undefined ? {} : { on: lag.rule }),
    });
    if (lag.least !== undefined)
      arcs.push({ from, to, length: lag.least, rule: `least wait: ${name}`, part: part("least") });
    if (lag.most !== undefined)
      arcs.push({ from: to, to: from, length: -lag.most, rule: `longest wait: ${name}`, part: part("most") });
  }
  return arcs;
}
