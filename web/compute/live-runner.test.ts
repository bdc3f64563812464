import { describe, expect, test } from "vitest";
import type { FromLive, LiveOpen, LiveQuestion, ToLive } from "./live-protocol.ts";
import { type LiveHand, LiveRunner } from "./live-runner.ts";

/** Workers that answer when they are told to. */
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
  return { made, make, answer };
}

const question: LiveQuestion = { entries: [], now: 0, rehearsal: false };
const live = (because: string, broken: readonly object[] = []) =>
  ({
    ...{ type: "live", id: 1, write: [], ms: 1 },
    live: { because, changes: [], breaches: broken, closed: [], away: [] },
  }) as unknown as FromLive;
const finding = { rule: "busy", tasks: ["a"], by: 3, unit: "min", what: "a is in two places" };
const kinds = (asked: readonly ToLive[]) => asked.map(({ type }) => type);

describe("L11 the mended plan is judged after it is shown", () => {
  test("the answer stands before anything is judged; the judgement comes after it, before remedies", () => {
    const { made, make, answer } = workers();
    const runner = new LiveRunner(make, {} as LiveOpen);
    runner.ask(question);
    answer(0, live("one", [{ what: "late" }]));
    expect(runner.state().live?.because).toBe("one");
    expect(runner.state().findings).toBeUndefined();
    expect(kinds(made[0]!.asked)).toEqual(["open", "ask"]);
    expect(kinds(made[1]!.asked)).toEqual(["open", "judge", "remedies"]);
    answer(1, { type: "judged", id: 1, findings: [finding] });
    expect(runner.state().findings).toEqual([finding]);
    expect(runner.state().remedies).toBeUndefined();
    answer(1, { type: "remedies", id: 1, remedies: [] });
    expect(runner.state().remedies).toEqual([]);
  });

  test("the same plan is judged once; remedies of the one before are dropped, and what it says late is not heard", () => {
    const { made, make, answer } = workers();
    const runner = new LiveRunner(make, {} as LiveOpen);
    const next = (because: string, broken: readonly object[] = []) => {
      runner.ask(question);
      answer(0, live(because, broken));
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
    const [before, last] = made[2]!.asked.slice(1).map((message) => (message as { id: number }).id);
    answer(2, { type: "judged", id: before!, findings: [finding] });
    expect(runner.state().findings).toBeUndefined();
    answer(2, { type: "judged", id: last!, findings: [] });
    expect(runner.state().findings).toEqual([]);
  });
});
