import type { PlanTask } from "../run/result.ts";
import { named } from "./named.ts";
import type { Load } from "./parts.ts";
import type { Scope } from "./scope.ts";
import { covered, type Span } from "./spans.ts";
import { type Finding, type InspectOptions, roundDown, roundUp } from "./types.ts";

/** Judges what each task takes: minutes of hands and of waiting, look-ins, and the waiting at once after the work. */
export function judgeWork(scope: Scope, loads: readonly Load[], options: InspectOptions): Finding[] {
  const found: Finding[] = [];
  for (const load of loads) {
    const { work, wait } = load;
    if (work) {
      const wanted = workMinutes(scope, load, Math.max(1, work.hands.length));
      const planned = minutesWorked(scope, work, load.step.work?.interruptible ?? false);
      tell(found, "duration", work, planned - wanted, `needs ${wanted} min of work, ${planned} are planned`);
    }
    if (wait) {
      const wanted = waitMinutes(load, options);
      const planned = wait.endMin - wait.startMin;
      if (wanted !== undefined)
        tell(found, "duration", wait, planned - wanted, `needs ${wanted} min, ${planned} are planned`);
      if (work)
        tell(
          found,
          "follows",
          wait,
          wait.startMin - work.endMin,
          `should begin when its work ends, and begins ${Math.abs(wait.startMin - work.endMin)} min ${wait.startMin > work.endMin ? "later" : "earlier"}`,
        );
      judgeLooks(load, wait, found);
    }
  }
  return found;
}

function tell(found: Finding[], rule: string, task: PlanTask, by: number, what: string): void {
  if (by !== 0)
    found.push({ rule, tasks: [task.id], by: Math.abs(by), unit: "min", what: `${named(task.id)} ${what}` });
}

/** (fixed + variable ÷ hands) × (1 + share around the work), whole minutes; undivided where all are needed. */
export function workMinutes(scope: Scope, load: Load, hands: number): number {
  const work = load.step.work!;
  const variable =
    (work.perKgMin ?? 0) * load.inKg + (work.perPieceMin ?? 0) * load.pieces + (work.perBatchMin ?? 0);
  const own = work.fixedMin + (work.hands.split === "divides" ? variable / hands : variable);
  return roundUp(own * (1 + scope.kitchen.around));
}

function waitMinutes(load: Load, options: InspectOptions): number | undefined {
  const { passive, target } = load.step;
  if (passive && "min" in passive) return roundUp(passive.min);
  if (passive) return roundUp(passive.fixedMin + passive.perKgMin * load.inKg);
  if (!target) return 0;
  const heated = options.heatMinutes?.(load.preparation.id, load.step.id);
  return heated === undefined ? undefined : roundUp(heated);
}

/** Minutes from start to end, less the breaks of those who do it where it may be interrupted. */
export function minutesWorked(scope: Scope, task: PlanTask, interruptible: boolean): number {
  const whole = task.endMin - task.startMin;
  if (!interruptible) return whole;
  const hands = scope.kitchen.crew.filter((each) => task.hands.includes(each.id));
  const rests = hands.flatMap((person) => person.shifts.flatMap((shift) => shift.breaks));
  const spans = rests.map((rest): Span => [scope.minuteOf(rest.from), scope.minuteOf(rest.to)]);
  return whole - covered(spans, task.startMin, task.endMin);
}

/** The k-th look-in begins k × every after the waiting begins, give or take a quarter, and ends within it. */
function judgeLooks(load: Load, wait: PlanTask, found: Finding[]): void {
  const { attended } = load.step;
  const byName = new Map(load.looks.map((look) => [look.id, look]));
  if (attended) {
    const lasts = roundUp(attended.min);
    for (let k = 1; k * attended.every + lasts <= wait.endMin - wait.startMin; k++) {
      const id = `${load.id}/look-${k}`;
      const look = byName.get(id);
      if (!look) {
        const what = `look-in ${k} of ${named(load.id)} is not in the plan`;
        found.push({ rule: "look-in", tasks: [wait.id], by: 1, unit: "task", what });
        continue;
      }
      const off = Math.abs(look.startMin - wait.startMin - k * attended.every);
      const late = Math.max(off - roundUp(attended.every / 4), look.endMin - wait.endMin, 0);
      tell(found, "look-in", look, late, `comes ${late} min too early or too late`);
    }
    for (const look of load.looks) {
      tell(
        found,
        "duration",
        look,
        look.endMin - look.startMin - lasts,
        `needs ${lasts} min, ${look.endMin - look.startMin} are planned`,
      );
      const k = Number(look.id.split("-").at(-1));
      if (k * attended.every >= wait.endMin - wait.startMin)
        tell(found, "unknown", look, 1, "stands after the waiting is over");
    }
  } else for (const look of load.looks) tell(found, "unknown", look, 1, "is asked for by nothing");
}

/** Longest wait that a hold allows, whole minutes. */
export function holdMinutes(hold: { readonly maxMin: number }): number {
  return roundDown(hold.maxMin);
}
