import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { parseBook } from "../book/index.ts";
import type { Book } from "../book/schema.ts";
import { type InspectOptions, inspect } from "../inspection/index.ts";
import { scopeOf } from "../inspection/scope.ts";
import { randomBook } from "../inspection/testing/random-book.ts";
import { SAID_RULES } from "../inspection/types.ts";
import { inspected } from "./judge.ts";
import { replayTrace } from "./replay.ts";
import type { Result } from "./result.ts";
import { contextRules, run } from "./run.ts";

const SEEDS = Array.from({ length: 40 }, (_, i) => i + 1);
const SERVICE = "service-1";
const OPTIONS = { seed: 1, schedules: 4, remedies: false } as const;
const sizeOf = (seed: number) => 3 + ((seed * 7) % 38);

test("R4 what a planner leaves unsaid is seen, though the run adds it", () => {
  const seed = SEEDS.find((each) => planned(each).plan.status === "feasible")!;
  const [book, result, options] = [randomBook(seed, sizeOf(seed)), planned(seed), { service: SERVICE }];
  const tasks = result.plan.tasks.map((task, i) => (i === 0 ? task : { ...task, hands: [] }));
  const silent = { ...result, plan: { ...result.plan, tasks } };
  const { findings } = inspect(book, silent, options);
  const added = { ...result, plan: inspected(silent.plan, findings) };
  expect(added.plan.status).toBe("broken");
  expect(inspect(book, added, options).findings).toEqual([]);
  expect(inspect(book, plannedAlone(book, added, options), options).findings).toEqual(findings);
});

describe("R4 another kitchen, other covers", () => {
  test.each([3, 10, 15, 21])("random book %i", (seed) => {
    const book = randomBook(seed, sizeOf(seed));
    for (const kitchen of ["small", "large"]) {
      const other = { kitchen, covers: book.services[0]!.covers + 7 };
      const result = run(book, SERVICE, { ...OPTIONS, ...other, trace: false });
      const options = { service: SERVICE, ...other };
      expect(inspect(book, plannedAlone(book, result, options), options).findings).toEqual([]);
      expect(inspect(book, result, { service: SERVICE }).findings[0]?.rule).toBe("plates");
    }
  });
});

// In 90 an allergen comes after what must be kept from it, in 48 work takes no time.
test.each([48, 90])("I20 what is said of each task holds: random book %i", (seed) => {
  const result = planned(seed);
  expect(result.plan.status).toBe("feasible");
  expect(inspect(randomBook(seed, sizeOf(seed)), result, { service: SERVICE }).findings).toEqual([]);
});

const planned = (seed: number) => run(randomBook(seed, sizeOf(seed)), SERVICE, { ...OPTIONS, trace: false });

/** What the books happened to hold, so that a generator gone dull is noticed. */
const seen = {
  feasible: 0,
  broken: 0,
  none: 0,
  loads: 0,
  thaws: 0,
  looks: 0,
  heated: 0,
  pins: 0,
  terms: 0,
  said: 0,
};

describe.each(SEEDS)("R4 random book %i", (seed) => {
  const book = randomBook(seed, sizeOf(seed));
  let result: Result;
  beforeAll(() => {
    result = run(book, SERVICE, OPTIONS);
    count(book, result);
  }, 60_000);

  test("is valid as a file, and always the same", () => {
    expect(parseBook(JSON.parse(JSON.stringify(book)))).toEqual({ ok: true, value: book });
    expect(randomBook(seed, sizeOf(seed))).toEqual(book);
  });

  test("the planner keeps every rule or says itself what it breaks", () => {
    const options = { service: SERVICE, heatMinutes: heatOf(book) };
    const alone = plannedAlone(book, result, options);
    expect(inspect(book, alone, options).findings).toEqual([]);
    expect(alone.plan.status).toBe(result.plan.status);
  });

  test("every number is proved by its trace", () => {
    expect(replayTrace(book, result, OPTIONS)).toEqual([]);
    expect(unprovedGivens(result)).toEqual([]);
  });

  test("a figure of what the plan is good at that is off by one is found, each of them", () => {
    if (result.plan.status !== "feasible" || book.services[0]!.pins.some((pin) => pin.status !== undefined))
      return;
    // Of a unit whose temperatures are not stated heat-ups are anybody's reading.
    const objective = result.plan.objective.filter(({ key }) => key !== "heatUps");
    const wrong = objective.map((term) => ({ ...term, value: term.value + 1 }));
    const off = { ...result, plan: { ...result.plan, objective: wrong } };
    const { findings } = inspect(book, off, { service: SERVICE });
    const told = findings.map(({ rule, by }) => [rule, Math.round(by * 1e6) / 1e6]);
    expect(told).toEqual(objective.map(() => ["term", 1]));
    seen.terms += objective.length;
  });

  test("what is said of a task that is off by one is found, of each task", () => {
    if (result.plan.status !== "feasible" || book.services[0]!.pins.some((pin) => pin.status !== undefined))
      return;
    const tasks = result.plan.tasks.map((task) => ({
      ...{ ...task, slackMin: task.slackMin + 1, after: [...task.after, task.id] },
      ...(task.hold ? { hold: { ...task.hold, usedMin: task.hold.usedMin + 1 } } : {}),
    }));
    const { findings } = inspect(book, { ...result, plan: { ...result.plan, tasks } }, { service: SERVICE });
    expect(findings.map(({ rule, tasks: [id] }) => `${rule} ${id}`)).toEqual(
      tasks.flatMap(({ id, hold }) => [`slack ${id}`, `comes-after ${id}`, ...(hold ? [`waits ${id}`] : [])]),
    );
    seen.said += tasks.length;
  });

  test("a task may begin at its earliest, everything else left as it is", () => {
    if (result.plan.status !== "feasible") return;
    const scope = scopeOf(book, { service: SERVICE });
    const free = result.plan.tasks.filter((task) => task.earliest !== task.start).slice(0, 4);
    for (const { id, earliest, startMin } of free) {
      const by = scope.minuteOf(earliest) - startMin;
      const moved = result.plan.tasks.map((task) => {
        if (task.id !== id) return task;
        const end = task.endMin + by;
        return { ...task, startMin: startMin + by, endMin: end, start: earliest, end: scope.textOf(end) };
      });
      // Orders, what the plan is good at and what it says of other tasks follow the plan, so they are left out here.
      const early = { ...result, orders: [], plan: { ...result.plan, tasks: moved, objective: [] } };
      const { findings } = inspect(book, early, { service: SERVICE });
      expect(findings.filter(({ rule }) => !SAID_RULES.includes(rule))).toEqual([]);
    }
  });
});

afterAll(() => {
  expect(seen.feasible).toBeGreaterThan(SEEDS.length / 3);
  expect(seen.broken).toBeGreaterThan(3);
  for (const what of ["loads", "thaws", "looks", "heated", "pins", "terms", "said"] as const)
    expect(seen[what], what).toBeGreaterThan(0);
});

/**
 * The result with the planner's own words alone: a run adds what the inspector finds to what the plan breaks, and
 * that is taken out again.
 */
function plannedAlone(book: Book, result: Result, options: InspectOptions): Result {
  const words = new Set(inspect(book, result, options).admitted.map((finding) => finding.what));
  const broken = result.plan.broken.filter((one) => !words.has(one.what));
  const status = broken.length === 0 && result.plan.status === "broken" ? "feasible" : result.plan.status;
  return { ...result, plan: { ...result.plan, status, broken } };
}

function count(book: Book, { plan }: Result): void {
  seen[plan.status] += 1;
  seen.loads += plan.tasks.filter((task) => /\/\d+\.\d+/.test(task.id)).length;
  seen.thaws += plan.tasks.filter((task) => task.id.startsWith("thaw/")).length;
  seen.looks += plan.tasks.filter((task) => task.id.includes("/look-")).length;
  seen.pins += book.services[0]!.pins.length;
  const heated = (task: Result["plan"]["tasks"][number]) =>
    book.preparations.find((one) => one.id === task.preparation)?.steps.find((step) => step.id === task.step)
      ?.target;
  seen.heated += plan.tasks.filter(heated).length;
}

/** What heat says, from the run's own rules: the inspector knows none. */
function heatOf(book: Book) {
  const rules = contextRules(book, SERVICE, OPTIONS);
  return (id: string, stepId: string) => {
    const at = book.preparations.findIndex((each) => each.id === id);
    const step = book.preparations[at]!.steps.findIndex((each) => each.id === stepId);
    return rules.heatedMinutes!(at, step);
  };
}

/** Ordinals, the plan's own options, and one label a container: numbers of a result that rest on nothing. */
const GIVEN = [
  /^\/needs\/\d+\/batches\/\d+\/index$/,
  /^\/(plan\/tasks|batchSheets|labels)\/\d+\/(batch|count)$/,
  /^\/plan\/seed$/,
];

/** Numbers of the result that are only stated, where they should follow from something. */
function unprovedGivens(result: Result): string[] {
  return Object.entries(result.trace)
    .filter(([path, node]) => path.startsWith("/") && node.rule === "given" && node.inputs.length === 0)
    .map(([path]) => path)
    .filter((path) => !GIVEN.some((known) => known.test(path)));
}
