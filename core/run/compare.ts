import type { Plan, PlanTask, Result } from "./result.ts";

/** What is kept of a plan to set another beside it: plain values. */
export interface KeptPlan {
  readonly name: string;
  readonly service: string;
  readonly covers: number;
  readonly kitchen: string;
  readonly handsMinutes: number;
  readonly spareMin?: number;
  readonly heatUps?: number;
  /** Most pairs of hands at work at once. */
  readonly peakHands: number;
  /** Holds with less than a tenth left when what is held is used. */
  readonly holdsNearlyUsed: number;
  readonly breaches: number;
  readonly costPerCover: number;
  readonly tasks: readonly Pick<PlanTask, "id" | "name" | "start" | "startMin" | "endMin" | "hands">[];
}

/** A task that stands elsewhere, or with other hands, or in one of the plans alone. */
export interface Difference {
  readonly task: string;
  readonly name: string;
  readonly before?: string;
  readonly after?: string;
  /** Minutes later; negative when earlier; 0 where only the hands differ or one plan lacks it. */
  readonly byMin: number;
  readonly otherHands: boolean;
}

/** A result as it is kept under a name. */
export function keptPlan(name: string, { summary, plan }: Pick<Result, "summary" | "plan">): KeptPlan {
  const heatUps = plan.objective.find((term) => term.key === "heatUps")?.value;
  return {
    ...{ name, service: summary.service, covers: summary.covers, kitchen: summary.kitchen },
    handsMinutes: summary.handsMinutes,
    ...(summary.spareMin === undefined ? {} : { spareMin: summary.spareMin }),
    ...(heatUps === undefined ? {} : { heatUps }),
    peakHands: peakHands(plan),
    holdsNearlyUsed: plan.tasks.filter(
      ({ hold }) => hold && hold.usedMin > 0 && hold.usedMin > 0.9 * hold.maxMin,
    ).length,
    breaches: plan.broken.length,
    costPerCover: summary.costPerCover,
    tasks: plan.tasks.map(({ id, name: of, start, startMin, endMin, hands }) => ({
      ...{ id, name: of, start, startMin, endMin, hands },
    })),
  };
}

/** Most pairs of hands at work at once. */
function peakHands({ tasks }: Pick<Plan, "tasks">): number {
  const steps = tasks.flatMap((task): [number, number][] =>
    task.endMin > task.startMin && task.hands.length > 0
      ? [
          [task.startMin, task.hands.length],
          [task.endMin, -task.hands.length],
        ]
      : [],
  );
  // Who ends at a minute is free for what begins then.
  steps.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  let [busy, most] = [0, 0];
  for (const [, by] of steps) {
    busy += by;
    most = Math.max(most, busy);
  }
  return most;
}

/** What differs from one plan to another, what moved furthest first. */
export function differences(before: KeptPlan, after: KeptPlan): Difference[] {
  const was = new Map(before.tasks.map((task) => [task.id, task]));
  const is = new Map(after.tasks.map((task) => [task.id, task]));
  const both = after.tasks.flatMap((task): Difference[] => {
    const old = was.get(task.id);
    if (!old) return [{ task: task.id, name: task.name, after: task.start, byMin: 0, otherHands: false }];
    const otherHands = [...old.hands].sort().join() !== [...task.hands].sort().join();
    const byMin = task.startMin - old.startMin;
    if (byMin === 0 && !otherHands) return [];
    return [{ task: task.id, name: task.name, before: old.start, after: task.start, byMin, otherHands }];
  });
  const gone = before.tasks
    .filter((task) => !is.has(task.id))
    .map(
      ({ id, name, start }): Difference => ({ task: id, name, before: start, byMin: 0, otherHands: false }),
    );
  return [...gone, ...both].sort((a, b) => Math.abs(b.byMin) - Math.abs(a.byMin));
}
