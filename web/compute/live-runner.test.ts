import { describe, expect, test } from "vitest";
import type { LiveEntry } from "../../core/production/live-entries.ts";
import { tasksById, tasksTold, toldTasks } from "./live-changed.ts";
import type { FromLive, LiveOpen, LiveQuestion, ToLive } from "./live-protocol.ts";
import { type LiveHand, LiveRunner } from "./live-runner.ts";

/** Workers that answer when they are told to, and a while that passes when it is told to. */
function workers() {
  const made: (LiveHand & { readonly asked: ToLive[]; ended: boolean })[] = [];
  const make = (): LiveHand => {
    const hand = {
      ...{ asked: [] as ToLive[], ended: false, onmessage: null as LiveHand["onmessage"] },
      postMessage: (message: ToLive) => void hand.asked.push(message),
      terminate: () => {
        hand.ended = true;
      },
    };
    made.push(hand);
    return hand;
  };
  const answer = (n: number, data: FromLive) => made[n]!.onmessage!({ data });
  let due: (() => void) | undefined;
  const later = (go: () => void) => {
    due = go;
    return () => {
      if (due === go) due = undefined;
    };
  };
  const pass = () => {
    const go = due;
    due = undefined;
    go?.();
  };
  const runner = new LiveRunner(make, { plan: { tasks: [] } } as unknown as LiveOpen, later);
  return { made, answer, pass, runner };
}

const entry = (id: string, body: object): LiveEntry => ({ id, at: "2027-01-30T12:00:00Z", body });
const question = (now: number, entries: readonly LiveEntry[] = []): LiveQuestion => ({
  ...{ entries, now, rehearsal: false },
});
const live = (because: string, broken: readonly object[] = [], write: readonly object[] = []) =>
  ({
    ...{ type: "live", id: 1, write, ms: 1 },
    live: { because, changes: [], breaches: broken, closed: [], away: [], plan: { tasks: [] } },
  }) as unknown as FromLive;
const finding = { rule: "busy", tasks: ["a"], by: 3, unit: "min", what: "a is in two places" };
const kinds = (asked: readonly ToLive[]) => asked.map(({ type }) => type);
const idsOf = (asked: readonly ToLive[]) => asked.slice(1).map((message) => (message as { id: number }).id);

describe("L11 the mended plan is judged after it is shown", () => {
  test("the answer stands before anything is judged; the judgement comes after it, before remedies", () => {
    const { made, answer, pass, runner } = workers();
    runner.ask(question(0));
    answer(0, live("one", [{ what: "late" }]));
    expect(runner.state().live?.because).toBe("one");
    expect(runner.state().findings).toBeUndefined();
    expect(kinds(made[0]!.asked)).toEqual(["open", "ask"]);
    expect(made).toHaveLength(1);
    pass();
    expect(kinds(made[1]!.asked)).toEqual(["open", "judge", "remedies"]);
    answer(1, { type: "judged", id: 1, findings: [finding] });
    expect(runner.state().findings).toEqual([finding]);
    expect(runner.state().remedies).toBeUndefined();
    answer(1, { type: "remedies", id: 1, remedies: [] });
    expect(runner.state().remedies).toEqual([]);
  });

  test("the same plan is judged once; remedies of the one before are dropped, and what it says late is not heard", () => {
    const { made, answer, pass, runner } = workers();
    let now = 0;
    const next = (because: string, broken: readonly object[] = []) => {
      runner.ask(question(++now));
      answer(0, live(because, broken));
      pass();
    };
    next("one", [{ what: "late" }]);
    next("one", [{ what: "late" }]);
    expect(kinds(made[1]!.asked)).toEqual(["open", "judge", "remedies"]);
    next("two");
    expect(made[1]!.ended).toBe(true);
    expect(kinds(made[2]!.asked)).toEqual(["open", "judge"]);
    // No remedies are tried: the next judgement is asked of the same one, and only the last counts.
    next("three");
    expect(made).toHaveLength(3);
    expect(kinds(made[2]!.asked)).toEqual(["open", "judge", "judge"]);
    const [before, last] = idsOf(made[2]!.asked);
    answer(2, { type: "judged", id: before!, findings: [finding] });
    expect(runner.state().findings).toBeUndefined();
    answer(2, { type: "judged", id: last!, findings: [] });
    expect(runner.state().findings).toEqual([]);
  });

  test("a mark ends what is tried for the plan before it; a minute gone by does not, nor loses what is due", () => {
    const { made, answer, pass, runner } = workers();
    runner.ask(question(0));
    answer(0, live("one", [{ what: "late" }]));
    // The minute goes by before the judgement has begun.
    runner.ask(question(1));
    pass();
    expect(made).toHaveLength(1);
    answer(0, live("one", [{ what: "late" }]));
    pass();
    expect(kinds(made[1]!.asked)).toEqual(["open", "judge", "remedies"]);
    runner.ask(question(2));
    expect(made[1]!.ended).toBe(false);
    answer(0, live("one", [{ what: "late" }]));
    runner.ask(question(2, [entry("a", { kind: "started", task: "t" })]));
    expect(made[1]!.ended).toBe(true);
    // The mark changed nothing: what was dropped is tried again.
    answer(0, live("one", [{ what: "late" }]));
    pass();
    expect(kinds(made[2]!.asked)).toEqual(["open", "judge", "remedies"]);
  });
});

describe("L14 one question a mark, and of the answer what changed", () => {
  const [mark, seen] = [entry("a", { kind: "late", task: "t" }), entry("h", { kind: "heard", of: "p" })];

  test("what is written down as it was answered, and what was seen, is not asked about; the next mark tells it", () => {
    const { made, answer, runner } = workers();
    runner.ask(question(0, [mark]));
    const write = [{ task: "t" }];
    answer(0, live("a", [], write));
    const placed = entry("p", { kind: "placed", because: "a", places: write });
    runner.ask(question(0, [mark]));
    runner.ask(question(0, [mark, placed]));
    runner.ask(question(0, [mark, placed, seen]));
    expect(kinds(made[0]!.asked)).toEqual(["open", "ask"]);
    const next = entry("b", { kind: "done", task: "t" });
    runner.ask(question(0, [mark, placed, seen, next]));
    expect(made[0]!.asked.at(-1)).toMatchObject({ type: "ask", keep: 1, entries: [placed, seen, next] });
  });

  test("what another tablet has written down is asked about, and so is a log in which something came between", () => {
    const { made, answer, runner } = workers();
    runner.ask(question(0, [mark]));
    answer(0, live("a", [], [{ task: "t" }]));
    runner.ask(question(0, [mark, entry("p", { kind: "placed", because: "a", places: [{ task: "t" }] })]));
    expect(kinds(made[0]!.asked)).toEqual(["open", "ask", "ask"]);
    answer(0, live("a"));
    const between = entry("c", { kind: "absent", person: "x" });
    runner.ask(question(0, [between, mark]));
    expect(made[0]!.asked.at(-1)).toMatchObject({ type: "ask", keep: 0, entries: [between, mark] });
  });

  test("tasks come back whole, each the same object where nothing of it changed", () => {
    const task = (id: string, startMin: number) => ({ id, startMin, hands: ["a"] }) as never;
    const [a, b, c] = [task("a", 1), task("b", 2), task("c", 3)];
    const known = tasksById([a, b, c]);
    const told = toldTasks(known, structuredClone([c, a, task("b", 9)]));
    expect(told.filter((one) => typeof one === "string")).toEqual(["c", "a"]);
    const back = tasksTold(known, structuredClone(told));
    expect(back).toEqual([c, a, task("b", 9)]);
    expect(back[0]).toBe(c);
    expect(back[1]).toBe(a);
  });
});
