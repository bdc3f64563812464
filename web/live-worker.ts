import { placesToWrite } from "../core/production/live.ts";
import type { LiveEntry } from "../core/production/live-entries.ts";
import { liveRemedies } from "../core/production/live-remedies.ts";
import { type OpenLive, openLive } from "../core/run/live.ts";
import { warmings } from "../core/run/live-warm.ts";
import { RunRefusal } from "../core/run/run.ts";
import { type TasksById, tasksById, toldTasks } from "./compute/live-changed.ts";
import type { FromLive, ToLive } from "./compute/live-protocol.ts";

/** Idle time after an answer before it warms up, ms. */
const IDLE_MS = 400;
/** Between two steps of it, so that what is asked meanwhile waits for one step at the most. */
const BREATH_MS = 20;
let steps: (() => void)[] | undefined;
let timer: ReturnType<typeof setTimeout> | undefined;

/** Mends the plan after each event, away from the page; the service stays open between them. */
let open: OpenLive | undefined;
let trouble: unknown;
/** The log as the page has told it, and the tasks as the page knows them. */
let entries: readonly LiveEntry[] = [];
let known: TasksById = new Map();

const say = (message: FromLive): void =>
  (globalThis as unknown as { postMessage(m: FromLive): void }).postMessage(message);

function hear(asked: ToLive): void {
  if (asked.type === "open") {
    const { covers, kitchen, service } = asked.question;
    known = tasksById(asked.plan.tasks);
    open = openLive(asked.book, service, asked.plan, {
      ...(covers === undefined ? {} : { covers }),
      ...(kitchen === undefined ? {} : { kitchen }),
    });
    return;
  }
  if (!open) throw trouble;
  const began = performance.now();
  const { now, rehearsal } = asked;
  entries = [...entries.slice(0, asked.keep), ...asked.entries];
  const question = { entries, now, rehearsal };
  const made = open.at(question);
  if (asked.type === "remedies")
    say({ type: "remedies", id: asked.id, remedies: liveRemedies(open.base, question, made) });
  else if (asked.type === "judge")
    say({ type: "judged", id: asked.id, findings: open.unsaid(made, asked.now) });
  else {
    steps ??= warmings(open, question);
    clearTimeout(timer);
    timer = setTimeout(warmUp, IDLE_MS);
    const { plan } = made.live;
    const tasks = toldTasks(known, plan.tasks);
    known = tasksById(plan.tasks);
    say({
      type: "live",
      id: asked.id,
      live: { ...made.live, plan: { ...plan, tasks } },
      write: placesToWrite(open.base, made, entries),
      ms: performance.now() - began,
    });
  }
}

/** A step while nobody asks, then the next. */
function warmUp(): void {
  const step = steps?.shift();
  if (!step) return;
  step();
  timer = setTimeout(warmUp, BREATH_MS);
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
