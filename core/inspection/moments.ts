import type { PlanTask, PlateCount } from "../run/result.ts";
import { takesOf } from "./feeding.ts";
import { namedForm } from "./forms.ts";
import { lastStepsOf } from "./masses.ts";
import { named } from "./named.ts";
import type { Made } from "./needs.ts";
import { lastTask } from "./order.ts";
import { madeMin, type Parts } from "./parts.ts";
import { happened } from "./pins.ts";
import type { Scope } from "./scope.ts";
import type { Lot, Take } from "./supply.ts";
import { takenTooEarly } from "./supply.ts";
import { type Finding, roundDown, roundUp } from "./types.ts";
import { holdMinutes } from "./work.ts";

/** Line check and tasting begin so long before the service (trade.md, fixed milestone). */
export const LINE_CHECK_MIN = 60;

/** Judges the fixed moments: line check, courses, plate-ups in their windows, and what is ready for the line check. */
export function judgeMoments(
  scope: Scope,
  made: ReadonlyMap<string, Made>,
  parts: Parts,
  plates: readonly PlateCount[],
): Finding[] {
  const found: Finding[] = [];
  const check = parts.milestones.get("line-check");
  const due = scope.serviceMin - LINE_CHECK_MIN;
  const past = happened(scope);
  found.push(...momentAt("line-check", check, due));
  for (const course of scope.menu.courses) {
    const moment = scope.serviceMin + course.afterMin;
    const milestone = parts.milestones.get(`course/${course.id}`);
    found.push(...momentAt("course", milestone, moment, `course/${course.id}`));
    for (const option of course.options)
      found.push(
        ...judgePlateUp(
          scope,
          parts.plates.filter((task) => task.step === course.id && task.preparation === option.dish),
          plates.filter((row) => row.course === course.id && row.dish === option.dish),
          // A course that the plan moves is told once: its plates are judged by where it stands. One that was marked
          // as served before its plates were does not make them late.
          !milestone
            ? moment
            : past.has(milestone.id)
              ? Math.max(moment, milestone.startMin)
              : milestone.startMin,
        ),
      );
  }
  const names = new Set([...scope.menu.courses.map((course) => `course/${course.id}`), "line-check"]);
  for (const task of parts.milestones.values())
    if (!names.has(task.id))
      found.push({ ...about("unknown", task, 1, "nothing asks for it"), unit: "task" });
  const wanted = new Set(
    plates.filter((row) => row.count + row.spare > 0).map((row) => `${row.course} ${row.dish}`),
  );
  for (const task of parts.plates)
    if (!wanted.has(`${task.step} ${task.preparation}`))
      found.push({ ...about("unknown", task, 1, "no such plates are asked for"), unit: "task" });
  found.push(...judgeLineCheck(scope, made, parts, plates, check?.startMin ?? due));
  return found;
}

const about = (rule: string, task: PlanTask, by: number, what: string): Finding => ({
  ...{ rule, tasks: [task.id], by, unit: "min", what: `${named(task.id)}: ${what}` },
});

function momentAt(rule: string, task: PlanTask | undefined, minute: number, id = rule): Finding[] {
  if (!task)
    return [{ rule: "missing", tasks: [id], by: 1, unit: "task", what: `${named(id)} is not in the plan` }];
  const by = Math.abs(task.startMin - minute);
  return by < 1 ? [] : [about(rule, task, by, `stands ${by} min from its moment`)];
}

/** Plate-up of one dish: hand-seconds over hands, inside the window before the course's moment. */
function judgePlateUp(
  scope: Scope,
  tasks: readonly PlanTask[],
  rows: readonly PlateCount[],
  moment: number,
): Finding[] {
  const asked = rows.filter((row) => row.count + row.spare > 0);
  const [row] = asked;
  if (!row) return [];
  const [task, ...more] = tasks;
  if (!task) {
    const id = `plate/${row.course}/${row.dish}`;
    return [{ rule: "missing", tasks: [id], by: 1, unit: "task", what: `${named(id)} is not in the plan` }];
  }
  const found = more.map((each) => about("unknown", each, 1, "the dish is plated twice"));
  const dish = scope.dishes.get(row.dish)!;
  let seconds = 0;
  for (const { variant, count, spare } of asked)
    for (const placement of namedForm(dish, variant)!)
      seconds += (count + spare) * placement.seconds * placement.hands;
  const wanted = roundUp(seconds / 60 / Math.max(1, task.hands.length));
  const takes = task.endMin - task.startMin;
  if (takes !== wanted)
    found.push(
      about("duration", task, Math.abs(takes - wanted), `needs ${wanted} min, ${takes} are planned`),
    );
  const early = moment - roundDown(dish.windowMin) - task.startMin;
  if (early > 0) found.push(about("plate-up", task, early, `begins ${early} min before its window`));
  const late = task.endMin - moment;
  if (late > 0) found.push(about("plate-up", task, late, `ends ${late} min after its course`));
  return found;
}

/** What goes on plates and may wait for them other than hot is made when the line check begins. */
function judgeLineCheck(
  scope: Scope,
  made: ReadonlyMap<string, Made>,
  parts: Parts,
  plates: readonly PlateCount[],
  checkMin: number,
): Finding[] {
  const found: Finding[] = [];
  const moments = new Map(scope.menu.courses.map((c) => [c.id, scope.serviceMin + c.afterMin] as const));
  const plated = new Map(parts.plates.map((task) => [task.id, moments.get(task.step)!] as const));
  const takes = takesOf(scope, parts, plates);
  for (const [id, batches] of parts.batches) {
    const holds = lastStepsOf(batches[0]!.preparation).flatMap((step) => step.hold ?? []);
    if (holds.length === 0 || holds.some((hold) => hold.state === "hot")) continue;
    const shortest = Math.min(...holds.map(holdMinutes));
    const due = (takes.get(id) ?? []).filter((take) => {
      const moment = plated.get(take.task);
      return moment !== undefined && shortest >= moment - checkMin;
    });
    if (due.length === 0) continue;
    const lots: Lot[] = batches.flatMap((batch) => {
      const readyMin = madeMin(batch);
      const last = [...batch.loads.values()].flat().find((load) => load.endMin === readyMin);
      return readyMin === undefined || !last ? [] : [{ task: lastTask(last), amount: batch.grams, readyMin }];
    });
    lots.push({ task: "stock", amount: made.get(id)!.stockG, readyMin: -Infinity });
    const all = sumOf(due);
    const one: Take = { task: "line-check", amount: all, takenMin: checkMin, usedMin: checkMin };
    const others = (takes.get(id) ?? []).filter((take) => !due.includes(take) && take.takenMin < checkMin);
    found.push(
      ...takenTooEarly(lots, [one, ...others], {
        ready: "line-check",
        hold: "hold",
        what: named(id, "preparation"),
      }),
    );
  }
  return found.filter((each) => each.tasks.includes("line-check"));
}

const sumOf = (takes: readonly Take[]) => takes.reduce((sum, take) => sum + take.amount, 0);
