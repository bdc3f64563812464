import { answerInverse, answerTrial } from "./compute/heat-answer.ts";
import type { FromHeat, ToHeat } from "./compute/heat-protocol.ts";

/** Heat trials, computed away from the page. */
const say = (message: FromHeat): void =>
  (globalThis as unknown as { postMessage(m: FromHeat): void }).postMessage(message);

function answer(asked: ToHeat): void {
  const { id } = asked;
  if (asked.type === "find") {
    const found = answerInverse(asked.trial, asked.inverse);
    if ("problems" in found) say({ type: "refused", id, problems: found.problems, last: true });
    else say({ type: "found", id, found, last: true });
    return;
  }
  for (const told of answerTrial(asked.trial)) {
    if ("problems" in told) say({ type: "refused", id, problems: told.problems, last: true });
    else say({ type: "told", id, told, last: false });
  }
  say({ type: "done", id, last: true });
}

addEventListener("message", (event: MessageEvent<ToHeat>) => {
  try {
    answer(event.data);
  } catch (error) {
    const what = `this could not be computed: ${(error as Error).message}`;
    const problem = { path: "", what, mend: "put the last change back" };
    say({ type: "refused", id: event.data.id, problems: [problem], last: true });
  }
});
