import type { PlanTask } from "./plan-types.ts";
import type { Task } from "./tasks.ts";

/** A task with its place in the plan. */
export interface Planned {
  readonly task: Task;
  readonly plan: PlanTask;
}
