import type { Tracer } from "../ledger/tracer.ts";
import type { StepTimes } from "../production/amounts-result.ts";
import { mostInUse } from "../production/plan-rules.ts";
import type { Plan } from "../production/plan-types.ts";
import { type CountedPull, type PulledPart, turnsOf, WASHED_IN_MIN } from "../production/pull.ts";
import type { FrontOfHouseLine } from "../safety/front-of-house.ts";
import type { Label } from "../safety/labels.ts";
import type { BatchSheet, PlateCount, PreparationNeed } from "./result.ts";

/** When each step of each batch begins and how long it takes, with its waiting. */
export function stepTimesOf(plan: Plan): StepTimes {
  const found = new Map<string, { start: string; startMin: number; endMin: number }>();
  for (const task of plan.tasks) {
    if (task.kind === "plate" || task.kind === "milestone") continue;
    const key = `${task.preparation} ${task.step} ${task.batch}`;
    const known = found.get(key);
    if (!known) found.set(key, { start: task.start, startMin: task.startMin, endMin: task.endMin });
    else {
      if (task.startMin < known.startMin)
        Object.assign(known, { start: task.start, startMin: task.startMin });
      known.endMin = Math.max(known.endMin, task.endMin);
    }
  }
  return (preparation, step, batch) => {
    const time = found.get(`${preparation} ${step} ${batch}`);
    return time && { start: time.start, minutes: time.endMin - time.startMin };
  };
}

/** Minutes of the steps on batch sheets: from their first start to their last end in the plan. */
export function traceSheets(tracer: Tracer, sheets: readonly BatchSheet[], plan: Plan): void {
  const tasks = new Map<string, { first: number; last: number }>();
  plan.tasks.forEach((task, i) => {
    if (task.kind === "plate" || task.kind === "milestone") return;
    const key = `${task.preparation} ${task.step} ${task.batch}`;
    const known = tasks.get(key);
    if (!known) tasks.set(key, { first: i, last: i });
    else {
      if (task.startMin < plan.tasks[known.first]!.startMin) known.first = i;
      if (task.endMin > plan.tasks[known.last]!.endMin) known.last = i;
    }
  });
  sheets.forEach((sheet, i) => {
    sheet.steps.forEach((step, k) => {
      const task = tasks.get(`${sheet.preparation} ${step.step} ${sheet.batch}`);
      if (step.minutes === undefined || !task) return;
      tracer.note(`/batchSheets/${i}/steps/${k}/minutes`, {
        value: step.minutes,
        unit: "min",
        rule: "minutesBetween",
        inputs: [`/plan/tasks/${task.last}/endMin`, `/plan/tasks/${task.first}/startMin`],
      });
    });
  });
}

/** What to lay out is counted task by task from what the steps write; tools by how many are in use at once. */
export function tracePull(tracer: Tracer, pull: readonly CountedPull[]): void {
  const given = (path: string, value: number, unit: string, inputs: readonly string[] = []) => {
    tracer.note(path, { value, unit, rule: "given", inputs });
    return path;
  };
  const countOf = (part: PulledPart): string => {
    const times = given(`calc:/pull/times/${part.task}/${part.per}`, part.times, part.per);
    if (part.per === "plate") return times;
    const written = part.pointer ?? "const:/number/1";
    given(written, part.written, "piece");
    const path = `calc:/pull/${part.task}/${written.replace(/^[a-z]+:/, "")}`;
    tracer.note(path, { value: part.count, unit: "piece", rule: "pulledWhole", inputs: [written, times] });
    return path;
  };
  const untilOf = ({ last, held, until }: NonNullable<PulledPart["inUse"]>): string => {
    const path = `calc:/pull/until/${last}${held ? "/used" : ""}`;
    const inputs = [
      `/plan/tasks/${last}/endMin`,
      ...(held ? [`/plan/tasks/${last}/hold/usedMin`] : []),
      given("const:/pull/washed-in", WASHED_IN_MIN, "min"),
    ];
    tracer.note(path, { value: until, unit: "min", rule: "sum", inputs });
    return path;
  };
  pull.forEach(({ item, parts }, i) => {
    const { spent, groups } = turnsOf(parts);
    const turns = [...groups.values()].map((group, k) => {
      const path = `calc:/pull/at-once/${i}/${k}`;
      const uses = group.flatMap(({ count, inUse }) => [count, inUse.from, inUse.until]);
      const inputs = group.flatMap((part) => [
        countOf(part),
        `/plan/tasks/${part.inUse.first}/startMin`,
        untilOf(part.inUse),
      ]);
      tracer.note(path, { value: mostInUse(...uses), unit: "piece", rule: "mostInUse", inputs });
      return path;
    });
    tracer.note(`/pull/${i}/count`, {
      ...{ value: item.count, unit: "piece", rule: "sum" },
      inputs: [...spent.map(countOf), ...turns],
    });
  });
}

/** Labels repeat what batches weigh, the floor what plates count: the same numbers, cited. */
export function traceServed(
  tracer: Tracer,
  result: {
    readonly labels: readonly Label[];
    readonly described: readonly FrontOfHouseLine[];
    readonly plates: readonly PlateCount[];
    readonly needs: readonly PreparationNeed[];
  },
): void {
  const same = (at: string, value: number, unit: string, input: string) =>
    tracer.note(at, { value, unit, rule: "given", inputs: [input] });
  const needAt = new Map(result.needs.map((need, i) => [need.preparation, i]));
  result.labels.forEach((label, i) => {
    const batch = `/needs/${needAt.get(label.preparation)}/batches/${label.batch - 1}`;
    same(`/labels/${i}/batch`, label.batch, "", `${batch}/index`);
    same(`/labels/${i}/amount/value`, label.amount.value, label.amount.unit, `${batch}/amount/value`);
    tracer.note(`/labels/${i}/count`, { value: label.count, unit: "label", rule: "given", inputs: [] });
  });
  result.described.forEach((line, i) => {
    const at = result.plates.findIndex(
      (row) => row.course === line.course && row.dish === line.dish && row.variant === line.variant,
    );
    same(`/frontOfHouse/${i}/count`, line.count, "plate", `/plates/${at}/count`);
  });
}
