import { describe, expect, test } from "vitest";
import { demoBook } from "../../data/demo/book.ts";
import { parseBook } from "../book/parse.ts";
import type { Book } from "../book/schema.ts";
import { inspect } from "../inspection/index.ts";
import { replayTrace } from "./replay.ts";
import type { Result } from "./result.ts";
import { openRun, RunRefusal, run } from "./run.ts";

const read = parseBook(demoBook);
if (!read.ok) throw new Error(JSON.stringify(read.problems[0]));
const book: Book = read.value;
const [service] = book.services;
const options = { seed: 1, schedules: 40 };
const result = run(book, service!.id, options);

describe("run", () => {
  test("R1 every number of the result has a trace, and every rule gives its value again", () => {
    expect(replayTrace(book, result, options).slice(0, 10)).toEqual([]);
  });

  test("R1 the replay can fail: a falsified number, input or rule is found", () => {
    const falsified: Result = {
      ...result,
      summary: { ...result.summary, covers: result.summary.covers + 1 },
    };
    expect(replayTrace(book, falsified, options).map((u) => u.path)).toEqual(["/summary/covers"]);
    const [path, node] = Object.entries(result.trace).find(([, n]) => n.rule === "times")!;
    const bent: Result = { ...result, trace: { ...result.trace, [path]: { ...node, rule: "sum" } } };
    expect(replayTrace(book, bent, options).some((u) => u.path === path)).toBe(true);
  });

  test("R2 the same book, service and options give the same result", () => {
    expect(run(book, service!.id, options)).toEqual(result);
  });

  test("R3 what is dragged to is what is computed from scratch", () => {
    const open = openRun(book, service!.id);
    const quick = { plan: false, trace: false };
    for (const covers of [120, 35, 72, 300]) {
      const dragged = open.at({ ...quick, covers });
      const { trace: _, ...fresh } = run(book, service!.id, { ...quick, covers });
      expect(dragged).toMatchObject(fresh);
    }
  });

  test("R4 the inspector, who shares no code with the planner, has nothing to add", () => {
    const report = inspect(book, result, { service: service!.id });
    expect(report.findings).toEqual([]);
  });

  test("R5 a service, kitchen or number of covers that cannot be is refused in words", () => {
    for (const call of [
      () => run(book, "no-such-service"),
      () => run(book, service!.id, { kitchen: "no-such-kitchen" }),
      () => run(book, service!.id, { covers: 1 }),
    ]) {
      let refusal: unknown;
      try {
        call();
      } catch (error) {
        refusal = error;
      }
      expect(refusal).toBeInstanceOf(RunRefusal);
      for (const { what, mend } of (refusal as RunRefusal).problems)
        expect(`${what}${mend}`.length).toBeGreaterThan(10);
    }
  });

  test("R6 everyone is fed at every course", () => {
    const covers = new Map<string, number>();
    for (const plate of result.plates) {
      expect(plate.notFed).toEqual([]);
      covers.set(plate.course, (covers.get(plate.course) ?? 0) + plate.count);
    }
    for (const count of covers.values()) expect(count).toBe(result.summary.covers);
  });
});
