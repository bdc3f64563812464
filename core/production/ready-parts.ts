import type { Plan, PlanTask } from "./plan-types.ts";

/** A part that is ready before the plate-up it goes on: places of both in the plan's tasks. */
export interface Ready {
  readonly plate: number;
  readonly part: number;
}

/** What each plate-up waits for. */
export function readyParts(plan: Pick<Plan, "tasks">): Ready[] {
  const at = new Map(plan.tasks.map((task, i) => [task.id, i]));
  return plan.tasks.flatMap((task, plate) =>
    task.kind === "plate"
      ? task.after.flatMap((id): Ready[] => {
          const part = at.get(id);
          return part !== undefined && isMade(plan.tasks[part]!) ? [{ plate, part }] : [];
        })
      : [],
  );
}

const isMade = (task: PlanTask) => task.kind === "work" || task.kind === "passive";

/** Minutes between the last part that is ready and the plate-up that waits for it; undefined without plates. */
export function spareOf(plan: Pick<Plan, "tasks">): number | undefined {
  const gaps = readyParts(plan).map(
    ({ plate, part }) => plan.tasks[plate]!.startMin - plan.tasks[part]!.endMin,
  );
  return gaps.length === 0 ? undefined : Math.min(...gaps);
}
