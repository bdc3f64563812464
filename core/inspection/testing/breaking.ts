import { BookSchema } from "../../book/schema.ts";
import { inspect } from "../inspect.ts";
import { type InspectOptions, type Judged, type Report, SAID_RULES } from "../types.ts";
import { smallBook } from "./small-book.ts";
import { smallResult } from "./small-result.ts";

/** A document or a result into which anything may be written: a breakage is one wrong word somewhere. */
// biome-ignore lint/suspicious/noExplicitAny: a breakage may write anything anywhere
export type Open = any;

/** The small service and its run, open to be broken. */
export interface Small {
  readonly book: Open;
  readonly result: Open;
  /** Options of the inspection. */
  readonly options: { -readonly [K in keyof InspectOptions]: InspectOptions[K] };
  readonly service: Open;
  readonly kitchen: Open;
  readonly supplier: Open;
  ingredient(id: string): Open;
  prep(id: string): Open;
  step(prep: string, step: string): Open;
  unit(id: string): Open;
  row(dish: string, variant?: string): Open;
  task(id: string): Open;
  /** Takes a task out of the plan. */
  drop(id: string): void;
  /** Puts a copy of a task into the plan under another id. */
  copy(id: string, to: string, more?: object): void;
  /** Gives a task other times of the day of service, like "17:00". */
  time(id: string, start: string, end: string): void;
  /** Moves a task by minutes. */
  move(id: string, minutes: number): void;
}

/** A finding without its sentence. */
export type Told = readonly [rule: string, tasks: readonly string[], by: number];

/** What the inspector says of the small service once it has been broken, but for what is said of single tasks. */
export function judged(breaking: (small: Small) => unknown): Report {
  const report = judgedWhole(breaking);
  const findings = report.findings.filter(({ rule }) => !SAID_RULES.includes(rule));
  return { ...report, ok: findings.length === 0, findings };
}

/** All that the inspector says of it. */
export function judgedWhole(breaking: (small: Small) => unknown): Report {
  const book: Open = BookSchema.parse(smallBook());
  const result: Open = structuredClone(smallResult());
  const options = { service: "supper" };
  const byId = (list: Open[], id: string) => {
    const found = list.find((each) => each.id === id);
    if (found === undefined) throw new Error(`the small service has no ${id}`);
    return found;
  };
  const small: Small = {
    ...{ book, result, options, service: book.services[0], kitchen: book.kitchens[0] },
    supplier: book.suppliers[0],
    ingredient: (id) => byId(book.ingredients, id),
    prep: (id) => byId(book.preparations, id),
    step: (prep, step) => byId(byId(book.preparations, prep).steps, step),
    unit: (id) => byId(book.kitchens[0].equipment, id),
    row: (dish, variant = "standard") =>
      result.plates.find((row: Open) => row.dish === dish && row.variant === variant),
    task: (id) => byId(result.plan.tasks, id),
    drop(id) {
      result.plan.tasks.splice(result.plan.tasks.indexOf(small.task(id)), 1);
    },
    copy(id, to, more = {}) {
      result.plan.tasks.push({ ...small.task(id), id: to, ...more });
    },
    time(id, start, end) {
      const [startMin, endMin] = [minuteOf(start), minuteOf(end)];
      Object.assign(small.task(id), { startMin, endMin, start: `D ${start}`, end: `D ${end}` });
    },
    move(id, minutes) {
      const { startMin, endMin } = small.task(id);
      small.time(id, clockOf(startMin + minutes), clockOf(endMin + minutes));
    },
  };
  breaking(small);
  return inspect(book, result as Judged, options);
}

/** The findings of a report, short. */
export function toldBy(report: Report): Told[] {
  return report.findings.map(({ rule, tasks, by }): Told => [rule, tasks, Math.round(by * 1e6) / 1e6]);
}

/** Findings in an order of their own, so that lists of them compare. */
export function inOrder(told: readonly Told[]): Told[] {
  const sorted = told.map(([rule, tasks, by]): Told => [rule, [...tasks].sort(), by]);
  return sorted.sort((a, b) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1));
}

/** Minutes from the horizon of the small service, D-1 08:00, to a clock of the day of service. */
const minuteOf = (clock: string) => 960 + 60 * Number(clock.slice(0, 2)) + Number(clock.slice(3));

const clockOf = (minute: number) => {
  const of = minute - 960;
  return [of / 60, of % 60].map((n) => String(Math.floor(n)).padStart(2, "0")).join(":");
};
