import type { Plan, PlanTask } from "../../core/run/result.ts";

/** A mark that more than this share of the tasks would carry says nothing: then the whole plan is tight. */
const MOST = 0.25;
/** A hold with less than this share left is marked in any case. */
const LITTLE = 0.1;

/**
 * The tasks worth a mark: with less slack than the service asks for, unless most are so; and those whose hold is
 * nearly used up. The least slack first.
 */
export function tightTasks(plan: Plan, slackMin: number): PlanTask[] {
  const tasks = plan.tasks.filter((task) => task.kind === "work" || task.kind === "passive");
  const little = tasks.filter((task) => task.slackMin < slackMin);
  const few = little.length <= MOST * tasks.length ? little : [];
  const held = tasks.filter(nearlyUsed);
  return [...new Set([...held, ...few])].sort((a, b) => a.slackMin - b.slackMin || a.startMin - b.startMin);
}

/** Whether next to nothing of a task's hold is left when what is held is used. */
export function nearlyUsed({ hold }: PlanTask): boolean {
  return hold !== undefined && hold.usedMin > 0 && hold.usedMin > (1 - LITTLE) * hold.maxMin;
}
