import type { PlanTask } from "../run/result.ts";
import { named } from "./named.ts";
import type { Scope } from "./scope.ts";
import type { Finding } from "./types.ts";

/** Judges what is pinned: start, persons and equipment. A pin on what is not in the plan is left out. */
export function judgePins(scope: Scope, tasks: readonly PlanTask[]): Finding[] {
  const found: Finding[] = [];
  const byId = new Map(tasks.map((task) => [task.id, task]));
  const crew = new Set(scope.kitchen.crew.map((person) => person.id));
  for (const pin of scope.service.pins) {
    const task = byId.get(pin.task);
    if (!task) continue;
    const say = (by: number, unit: string, what: string) =>
      found.push({ rule: "pin", tasks: [task.id], by, unit, what: `${named(task.id)} ${what}` });
    if (pin.start !== undefined) {
      const by = Math.abs(task.startMin - scope.minuteOf(pin.start));
      if (by > 0) say(by, "min", `is pinned to ${pin.start} and begins ${task.start}`);
    }
    const persons = (pin.crew ?? []).filter((id) => crew.has(id));
    if (persons.length > 0 && task.hands.length > 0) {
      const other =
        task.hands.length <= persons.length
          ? task.hands.filter((id) => !persons.includes(id))
          : persons.filter((id) => !task.hands.includes(id));
      if (other.length > 0)
        say(other.length, "person", `is pinned to ${persons.map((id) => named(id, "person")).join(", ")}`);
    }
    const units = task.equipment.map((each) => each.id);
    for (const id of pin.equipment ?? []) {
      const known = scope.kitchen.equipment.find((each) => each.id === id.split("#")[0]);
      const mayServe = known && task.equipment.some((each) => kindOf(scope, each.id) === known.kind);
      if (mayServe && !units.some((unit) => unit === id || unit.split("#")[0] === id))
        say(1, "unit", `is pinned to ${named(id, "unit")}`);
    }
  }
  return found;
}

const kindOf = (scope: Scope, unit: string) =>
  scope.kitchen.equipment.find((each) => each.id === unit.split("#")[0])?.kind;

/** Tasks that have begun or are done: what has happened is not judged. */
export function happened(scope: Scope): ReadonlySet<string> {
  return new Set(
    scope.service.pins
      .filter((pin) => pin.status === "started" || pin.status === "done")
      .map((pin) => pin.task),
  );
}
