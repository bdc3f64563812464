import { type LiveAsk, placesToWrite } from "../core/production/live.ts";
import { liveRemedies } from "../core/production/live-remedies.ts";
import { type OpenLive, openLive } from "../core/run/live.ts";
import { RunRefusal } from "../core/run/run.ts";
import type { FromLive, ToLive } from "./compute/live-protocol.ts";

/** Idle time after an answer before it warms up, ms. */
const IDLE_MS = 400;
let warm = false;

/** Mends the plan after each event, away from the page; the service stays open between them. */
let open: OpenLive | undefined;
let trouble: unknown;

const say = (message: FromLive): void =>
  (globalThis as unknown as { postMessage(m: FromLive): void }).postMessage(message);

function hear(asked: ToLive): void {
  if (asked.type === "open") {
    const { covers, kitchen, service } = asked.question;
    open = openLive(asked.book, service, asked.plan, {
      ...(covers === undefined ? {} : { covers }),
      ...(kitchen === undefined ? {} : { kitchen }),
    });
    return;
  }
  if (!open) throw trouble;
  const began = performance.now();
  const made = open.at(asked);
  if (asked.type === "remedies")
    say({ type: "remedies", id: asked.id, remedies: liveRemedies(open.base, asked, made) });
  else if (asked.type === "judge")
    say({ type: "judged", id: asked.id, findings: open.unsaid(made, asked.now) });
  else {
    if (!warm) setTimeout(warmUp, IDLE_MS, open, asked);
    say({
      type: "live",
      id: asked.id,
      live: made.live,
      write: placesToWrite(open.base, made, asked.entries),
      ms: performance.now() - began,
    });
  }
}

/**
 * Mends once for nothing while nobody asks: the first event of a service should not take three times as long as the
 * second, because no code has been run before.
 */
function warmUp(live: OpenLive, asked: LiveAsk): void {
  if (warm) return;
  warm = true;
  const { site, plan } = live.base;
  const task = plan.tasks.find((one) => one.startMin > asked.now && one.hands.length > 0);
  if (!task) return;
  const { clock } = site;
  const [when, to] = [clock.textOf(asked.now), clock.textOf(asked.now + 60)];
  for (const body of [
    { kind: "absent", person: task.hands[0], from: when, to },
    { kind: "late", task: task.id, edge: "start", byMin: 20, to: clock.textOf(task.startMin + 20) },
  ]) {
    const turn = asked.entries.length + 1;
    const entry = { id: "warm-up", at: "1970-01-01T00:00:00Z", body: { ...body, when, turn } };
    live.at({ ...asked, entries: [...asked.entries, entry] });
  }
}

addEventListener("message", ({ data }: MessageEvent<ToLive>) => {
  try {
    hear(data);
  } catch (error) {
    if (data.type === "open") {
      trouble = error;
      return;
    }
    const problems =
      error instanceof RunRefusal
        ? error.problems
        : [
            {
              path: "",
              what: `the plan could not be mended: ${(error as Error)?.message ?? error}`,
              mend: "work by the plan as it was, and take the last entry back",
            },
          ];
    say({ type: "refused", id: data.id, problems });
  }
});
