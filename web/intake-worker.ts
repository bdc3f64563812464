import { IntakeDesk } from "./compute/intake-desk.ts";
import type { FromIntake, ToIntake } from "./compute/intake-protocol.ts";

/** Reads recipes, price lists and lists of ingredients away from the page; works without network. */
const desk = new IntakeDesk();
const say = (message: FromIntake): void =>
  (globalThis as unknown as { postMessage(m: FromIntake): void }).postMessage(message);

addEventListener("message", async ({ data }: MessageEvent<ToIntake>) => {
  if (data.type === "book") {
    desk.take(data.book);
    return;
  }
  const { id, what, asked } = data;
  try {
    say({ id, told: await desk.answer(what, asked as never) });
  } catch (error) {
    say({ id, failed: (error as Error).message });
  }
});
