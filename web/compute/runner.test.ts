import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { Book } from "../../core/book/schema.ts";
import type { FromWorker, Told, ToWorker } from "./protocol.ts";
import { type Hand, Runner } from "./runner.ts";

class Stand implements Hand {
  readonly asked: ToWorker[] = [];
  ended = false;
  onmessage: ((event: { data: FromWorker }) => void) | null = null;
  postMessage(message: ToWorker): void {
    this.asked.push(message);
  }
  terminate(): void {
    this.ended = true;
  }
  say(data: FromWorker): void {
    this.onmessage?.({ data });
  }
  questions() {
    return this.asked.filter((m) => m.type === "ask");
  }
}

const book = {} as Book;
const told = (covers: number) => ({ summary: { covers } }) as unknown as Told;
const hands: Stand[] = [];
const make = () => {
  const hand = new Stand();
  hands.push(hand);
  return hand;
};

beforeEach(() => {
  vi.useFakeTimers();
  hands.length = 0;
});
afterEach(() => {
  vi.useRealTimers();
});

describe("runner", () => {
  it("A2 while one question is answered only the newest of the others waits", () => {
    const runner = new Runner(make);
    for (const covers of [72, 73, 74, 75]) runner.ask(book, 1, { service: "s", covers });
    const amounts = hands[0]!;
    expect(amounts.questions().map((q) => q.question.covers)).toEqual([72]);
    amounts.say({ type: "told", id: amounts.questions()[0]!.id, told: told(72), last: true, ms: 1 });
    expect(amounts.questions().map((q) => q.question.covers)).toEqual([72, 75]);
    amounts.say({ type: "told", id: amounts.questions()[1]!.id, told: told(75), last: true, ms: 1 });
    expect(runner.state().amounts?.summary.covers).toBe(75);
  });

  it("A2 a plan waits until the question settles, and is dropped when another comes", () => {
    const runner = new Runner(make);
    runner.ask(book, 1, { service: "s", covers: 72 });
    runner.ask(book, 1, { service: "s", covers: 80 });
    expect(hands.length).toBe(1);
    vi.advanceTimersByTime(1000);
    const first = hands[1]!;
    expect(first.questions().map((q) => q.question.covers)).toEqual([80]);
    runner.ask(book, 1, { service: "s", covers: 90 });
    vi.advanceTimersByTime(1000);
    expect(first.ended).toBe(true);
    expect(hands[2]!.questions().map((q) => q.question.covers)).toEqual([90]);
    first.say({ type: "told", id: first.questions()[0]!.id, told: told(80), last: true, ms: 1 });
    expect(runner.state().plan).toBeUndefined();
  });

  it("A2 the best so far is shown, progress follows, and the plan can be stopped and taken up again", () => {
    const runner = new Runner(make);
    runner.ask(book, 1, { service: "s" });
    vi.advanceTimersByTime(1000);
    const planner = hands[1]!;
    const { id } = planner.questions()[0]!;
    planner.say({ type: "told", id, told: told(72), last: false, next: "improving", ms: 1 });
    planner.say({ type: "progress", id, done: 10, of: 40 });
    expect(runner.state()).toMatchObject({ planning: "working", stage: "improving", progress: 0.25 });
    runner.stop();
    expect(planner.ended).toBe(true);
    expect(runner.state().planning).toBe("stopped");
    expect(runner.state().plan).toBeDefined();
    runner.resume();
    expect(runner.state().planning).toBe("working");
  });

  it("A2 each remedy is shown as it is found, and stays when the search for more is stopped", () => {
    const runner = new Runner(make);
    runner.ask(book, 1, { service: "s" });
    vi.advanceTimersByTime(1000);
    const planner = hands[1]!;
    const { id } = planner.questions()[0]!;
    const remedy = (change: string) => ({
      change,
      apply: {},
      result: "fits",
      status: "feasible" as const,
      proof: [],
    });
    planner.say({ type: "remedies", id, remedies: [remedy("too soon")] });
    expect(runner.state().plan).toBeUndefined();
    planner.say({ type: "told", id, told: told(72), last: false, next: "remedies", ms: 1 });
    planner.say({ type: "remedies", id, remedies: [remedy("one more oven")] });
    planner.say({ type: "remedies", id: id + 7, remedies: [remedy("of another question")] });
    const shown = () => runner.state().plan?.plan.remedies.map(({ change }) => change);
    expect(shown()).toEqual(["one more oven"]);
    expect(runner.state()).toMatchObject({ planning: "working", stage: "remedies" });
    runner.stop();
    expect(shown()).toEqual(["one more oven"]);
  });

  it("the book is handed over once a version, before the question", () => {
    const runner = new Runner(make);
    runner.ask(book, 1, { service: "s", covers: 1 });
    const amounts = hands[0]!;
    amounts.say({ type: "told", id: amounts.questions()[0]!.id, told: told(1), last: true, ms: 1 });
    runner.ask(book, 1, { service: "s", covers: 2 });
    amounts.say({ type: "told", id: amounts.questions()[1]!.id, told: told(2), last: true, ms: 1 });
    runner.ask(book, 2, { service: "s", covers: 2 });
    expect(amounts.asked.map((m) => m.type)).toEqual(["book", "ask", "ask", "book", "ask"]);
  });

  it("A3 a refusal is told and what was computed before stays", () => {
    const runner = new Runner(make);
    runner.ask(book, 1, { service: "s", covers: 72 });
    const amounts = hands[0]!;
    amounts.say({ type: "told", id: amounts.questions()[0]!.id, told: told(72), last: true, ms: 1 });
    runner.ask(book, 2, { service: "s", covers: 72 });
    amounts.say({
      type: "refused",
      id: amounts.questions()[1]!.id,
      problems: [{ path: "/x", what: "w", mend: "m" }],
    });
    expect(runner.state().problems[0]?.what).toBe("w");
    expect(runner.state().amounts?.summary.covers).toBe(72);
  });

  it("A5 a trace is answered to whoever asked", async () => {
    const runner = new Runner(make);
    runner.ask(book, 1, { service: "s" });
    const answer = runner.trace("/needs/0/amount/value");
    const asked = hands[0]!.asked.find((m) => m.type === "trace")!;
    const node = { value: 1, unit: "g", rule: "given", inputs: [] };
    hands[0]!.say({ type: "traced", id: asked.id, traced: { node, inputs: [] } });
    await expect(answer).resolves.toEqual({ node, inputs: [] });
  });
});
