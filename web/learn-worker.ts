import type { Book } from "../core/book/schema.ts";
import { learn } from "../core/learning/learn.ts";
import { withLearned } from "../core/learning/overlay.ts";
import type { Result } from "../core/run/result.ts";
import { run } from "../core/run/run.ts";
import type { Effect, FromLearn, ToLearn } from "./compute/learn-protocol.ts";

/** What the log tells of the book, and what it would change, computed away from the page. */
const say = (message: FromLearn): void =>
  (globalThis as unknown as { postMessage(m: FromLearn): void }).postMessage(message);

function effectOf(asked: Extract<ToLearn, { type: "effect" }>): Effect {
  const { book, estimate, service, covers, kitchen } = asked;
  const planned = estimate.figure.kind === "work";
  const at = (of: Book): Result =>
    run(of, service, {
      ...{ covers, trace: false, remedies: false },
      ...(kitchen === undefined ? {} : { kitchen }),
      ...(planned ? { schedules: 20 } : { plan: false }),
    });
  const [before, after] = [at(book), at(withLearned(book, [estimate]))];
  const packs = (result: Result) =>
    new Map(result.orders.flatMap(({ lines }) => lines.map((line) => [line.offer, line] as const)));
  const [old, now] = [packs(before), packs(after)];
  const changed = [...new Set([...old.keys(), ...now.keys()])].flatMap((offer) => {
    const [from, to] = [old.get(offer)?.packs ?? 0, now.get(offer)?.packs ?? 0];
    const line = now.get(offer) ?? old.get(offer)!;
    return from === to ? [] : [{ name: `${line.name}, ${line.pack}`, from, to }];
  });
  return {
    packs: changed,
    costPerCover: [before.summary.costPerCover, after.summary.costPerCover],
    orderTotal: [before.summary.orderTotal, after.summary.orderTotal],
    currency: before.cost.currency,
    ...(planned
      ? {
          handsMin: [before.summary.handsMinutes, after.summary.handsMinutes],
          fits: [before.summary.status === "feasible", after.summary.status === "feasible"],
        }
      : {}),
  };
}

addEventListener("message", (event: MessageEvent<ToLearn>) => {
  const asked = event.data;
  if (asked.type === "learn") {
    say({ type: "learned", id: asked.id, estimates: learn(asked.book, asked.lines) });
    return;
  }
  let effect: Effect | undefined;
  try {
    effect = effectOf(asked);
  } catch {
    // The service can't be computed at all: Run says why.
  }
  say({ type: "effect", id: asked.id, effect });
});
