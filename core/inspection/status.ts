import type { Plan } from "../run/result.ts";
import type { Finding } from "./types.ts";

/** Words by which a plan may own up to a rule that the inspector finds broken; the rule's own word is always one. */
const ALSO_SAID_AS: Readonly<Record<string, readonly string[]>> = {
  equipment: ["room", "range"],
  room: ["equipment"],
  range: ["equipment"],
  hands: ["shift", "skill"],
  skill: ["hands", "shift"],
  busy: ["hands"],
  duration: ["shift"],
  days: ["shift", "room", "equipment"],
  exclusive: ["room"],
  cleaning: ["changeover"],
  store: ["room"],
  ready: ["hold", "life"],
  hold: ["life"],
  course: ["pin"],
  "line-check": ["pin"],
  "plate-up": ["course"],
  horizon: ["delivery"],
  now: ["delivery", "plate-up"],
  away: ["shift", "hands"],
  out: ["equipment", "room"],
  missing: ["equipment", "room", "range", "skill", "hands", "shift"],
};

/** Whether the plan says itself that it breaks this rule, of one of these tasks. */
export function isAdmitted(plan: Plan, finding: Finding): boolean {
  const words = [finding.rule, ...(ALSO_SAID_AS[finding.rule] ?? [])];
  return plan.broken.some(
    (broken) =>
      words.includes(broken.rule) &&
      broken.tasks.some((task) => finding.tasks.some((id) => touches(id, task))),
  );
}

/** The same task, or a part of it: the waiting of a step is broken with its work. */
const touches = (a: string, b: string) => a === b || a.startsWith(`${b}/`) || b.startsWith(`${a}/`);

/** Judges what the plan says of itself. */
export function judgeStatus(plan: Plan): Finding[] {
  const say = (by: number, what: string): Finding[] => [
    { rule: "status", tasks: [], by, unit: "rule", what },
  ];
  const { length } = plan.broken;
  if (plan.status === "feasible" && length > 0)
    return say(length, `the plan calls itself feasible and lists ${length} broken rules`);
  if (plan.status !== "feasible" && length === 0)
    return say(1, `the plan is ${plan.status} and does not say why`);
  if (plan.status === "none" && plan.tasks.length > 0) return say(1, "the plan is none and holds tasks");
  return [];
}
