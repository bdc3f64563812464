import type { PlanTask, Result } from "./result.ts";

/** How a figure of a kept plan came, as it was told when it was kept: the rule, and what it was given by name. */
export interface Came {
  readonly rule: string;
  readonly inputs: readonly { readonly name: string; readonly value: number; readonly unit: string }[];
  /** Inputs beyond those listed. */
  readonly more: number;
}

/** Figures of a kept plan that have a trace. */
export type KeptFigure =
  | "covers"
  | "spareMin"
  | "breaches"
  | "handsMinutes"
  | "peakHands"
  | "heatUps"
  | "holdsNearlyUsed"
  | "costPerCover";

/** Where a figure stands in the result. */
export function placeOf(figure: KeptFigure, { plan }: Pick<Result, "plan">): string {
  if (figure === "heatUps")
    return `/plan/objective/${plan.objective.findIndex((term) => term.key === "heatUps")}/value`;
  return `/summary/${figure === "breaches" ? "rulesBroken" : figure}`;
}

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
  /** How its figures came, and the starts of its tasks, which all came the same way; plans kept earlier have none. */
  readonly came?: Readonly<Partial<Record<KeptFigure | "starts", Came>>>;
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
    peakHands: summary.peakHands ?? 0,
    holdsNearlyUsed: summary.holdsNearlyUsed ?? 0,
    breaches: summary.rulesBroken ?? 0,
    costPerCover: summary.costPerCover,
    tasks: plan.tasks.map(({ id, name: of, start, startMin, endMin, hands }) => ({
      ...{ id, name: of, start, startMin, endMin, hands },
    })),
  };
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
