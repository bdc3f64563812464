import { afterAll, describe, expect, test } from "vitest";
import { demoBook } from "../../data/demo/book.ts";
import { parseBook } from "../book/index.ts";
import type { Book } from "../book/schema.ts";
import { inspect } from "../inspection/index.ts";
import { scopeOf } from "../inspection/scope.ts";
import { randomBook } from "../inspection/testing/random-book.ts";
import type { Judged } from "../inspection/types.ts";
import { SAID_RULES } from "../inspection/types.ts";
import type { PlanTask, Result } from "./result.ts";
import { openRun } from "./run.ts";

const read = parseBook(demoBook);
const demo = read.ok ? read.value : undefined!;
const SEEDS = [2, 4, 5, 7, 8, 11];

const seen = { plans: 0, moved: 0, told: 0, bound: 0 };

/**
 * Judged by the inspector, who knows neither the engine nor who explained: a task that moves as far as it is said to
 * breaks no rule, one minute further it breaks one.
 */
function judge(book: Book, service: string, schedules: number, most: number): void {
  const open = openRun(book, service);
  const result = open.at({ seed: 1, schedules, remedies: false, trace: false });
  if (result.plan.status !== "feasible") return;
  seen.plans++;
  const scope = scopeOf(book, { service });
  const { tasks } = result.plan;
  const step = (task: PlanTask) =>
    book.preparations.find(({ id }) => id === task.preparation)?.steps.find(({ id }) => id === task.step);
  // Interrupted work changes its length; a thaw and a moment have rules of their own.
  const plain = tasks.filter(
    (task) =>
      (task.kind === "work" || task.kind === "passive") && step(task) && !step(task)!.work?.interruptible,
  );
  const every = Math.max(1, Math.floor(plain.length / most));
  for (const task of plain.filter((_, i) => i % every === 0)) {
    const { later, earlier } = open.explain(task.id)!;
    for (const [bound, way] of [
      [later, 1],
      [earlier, -1],
    ] as const) {
      const findings = (by: number) =>
        inspect(book, movedBy(result, task, by, scope.textOf), { service }).findings.filter(
          ({ rule }) => !SAID_RULES.includes(rule),
        );
      expect(findings(way * bound.playMin), `${task.id} ${bound.says}`).toEqual([]);
      seen.moved++;
      const further = findings(way * (bound.playMin + 1));
      if (further.length > 0) seen.bound++;
      seen.told++;
    }
  }
}

/** The result with a task and what belongs to it elsewhere; what follows from its times is left out. */
function movedBy(result: Result, asked: PlanTask, by: number, text: (minute: number) => string): Judged {
  const base = asked.id.replace(/\/(wait|look-\d+)$/, "");
  const alone = asked.id.includes("/look-");
  const tasks = result.plan.tasks.map((task) => {
    const own = alone ? task.id === asked.id : task.id === base || task.id.startsWith(`${base}/`);
    if (!own) return task;
    const [startMin, endMin] = [task.startMin + by, task.endMin + by];
    return { ...task, startMin, endMin, start: text(startMin), end: text(endMin) };
  });
  const { plates, needs, plan } = result;
  return { plates, needs, orders: [], plan: { ...plan, tasks, objective: [] } };
}

describe("P23 why not later, why not earlier, judged by the inspector", () => {
  test("the demo", () => judge(demo, "demo", 4, 3), 60_000);
  test.each(SEEDS)("random book %i", (seed) =>
    judge(randomBook(seed, 3 + ((seed * 7) % 20)), "service-1", 4, 4),
  );
});

afterAll(() => {
  expect(seen.plans).toBeGreaterThan(2);
  expect(seen.moved).toBeGreaterThan(20);
  // The inspector lets any batch go to any taker, so that now and then it breaks nothing that the queue does.
  expect(seen.bound / seen.told).toBeGreaterThan(0.9);
});
