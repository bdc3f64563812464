import type { Problem } from "../../core/book/problem.ts";
import type { Finding } from "../../core/inspection/index.ts";
import type { LivePlan } from "../../core/production/live.ts";
import type { LiveEntry } from "../../core/production/live-entries.ts";
import type { LiveRemedy } from "../../core/production/live-remedies.ts";
import type { WrittenPlace } from "../../core/production/live-schema.ts";
import { type TasksById, tasksById, tasksTold } from "./live-changed.ts";
import type { FromLive, LiveOpen, LiveQuestion, LiveTold, ToLive } from "./live-protocol.ts";

export interface LiveAnswer {
  readonly live: LivePlan | undefined;
  /** What is to be written down after the last event. */
  readonly write: readonly WrittenPlace[];
  /** Undefined while they are being tried. */
  readonly remedies: readonly LiveRemedy[] | undefined;
  /** What the inspector finds that the plan does not say; undefined until it has judged. */
  readonly findings: readonly Finding[] | undefined;
  readonly problems: readonly Problem[];
  readonly ms: number;
}

export interface LiveHand {
  postMessage(message: ToLive): void;
  terminate(): void;
  onmessage: ((event: { data: FromLive }) => void) | null;
}

/** Before anything is known. */
export const NOTHING: LiveAnswer = {
  ...{ live: undefined, write: [], remedies: undefined, findings: undefined, problems: [], ms: 0 },
};

/** The answer is drawn before anything that follows it takes a core of the machine, ms. */
const AFTER_MS = 250;

/** Does something in a while, unless it is called off. */
export type Later = (go: () => void) => () => void;

const later: Later = (go) => {
  const timer = setTimeout(go, AFTER_MS);
  return () => clearTimeout(timer);
};

/**
 * Asks one worker for the mended plan, the latest question winning, and another for what follows the answer: the
 * inspector's judgement and remedies. That one is dropped when something new happens: a cook's mark never waits for it.
 * What moves nothing, such as the answer once it is written down, is not asked about.
 */
export class LiveRunner {
  #asker: LiveHand | undefined;
  /** Judges and tries. */
  #second: LiveHand | undefined;
  #trying = false;
  #busy = false;
  #waiting: LiveQuestion | undefined;
  #asked: LiveQuestion | undefined;
  #followed = "";
  /** Calls off what follows the answer, as long as it has not begun. */
  #due: (() => void) | undefined;
  #id = 0;
  readonly #open: LiveOpen;
  readonly #make: () => LiveHand;
  readonly #later: Later;
  readonly #told = new WeakMap<LiveHand, readonly LiveEntry[]>();
  readonly #listeners = new Set<() => void>();
  #tasks: TasksById;
  #state: LiveAnswer = NOTHING;

  constructor(make: () => LiveHand, open: LiveOpen, wait: Later = later) {
    this.#make = make;
    this.#open = open;
    this.#later = wait;
    this.#tasks = tasksById(open.plan.tasks);
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };
  readonly state = (): LiveAnswer => this.#state;

  ask(question: LiveQuestion): void {
    if (this.#busy) {
      this.#waiting = question;
      return;
    }
    if (this.#asked && this.#sameAs(this.#asked, question)) return;
    this.#due?.();
    // Remedies for what is past are not waited for; a minute gone by leaves them at it.
    if (this.#trying && this.#asked?.entries.length !== question.entries.length) {
      this.#drop();
      this.#followed = "";
    }
    this.#asker ??= this.#hand();
    this.#busy = true;
    this.#asked = question;
    this.#tell(this.#asker, "ask", ++this.#id, question);
  }

  close(): void {
    this.#asker?.terminate();
    this.#asker = undefined;
    this.#drop();
    this.#busy = false;
    this.#asked = undefined;
    this.#waiting = undefined;
    this.#followed = "";
    this.#due?.();
    this.#due = undefined;
    this.#tasks = tasksById(this.#open.plan.tasks);
  }

  #hand(): LiveHand {
    const hand = this.#make();
    hand.postMessage({ type: "open", ...this.#open });
    hand.onmessage = ({ data }) => this.#hear(data);
    return hand;
  }

  /** Sends of the log what the hand was not told yet. */
  #tell(hand: LiveHand, type: "ask" | "judge" | "remedies", id: number, question: LiveQuestion): void {
    const { entries, now, rehearsal } = question;
    const before = this.#told.get(hand) ?? [];
    const differs = entries.findIndex((entry, k) => entry !== before[k]);
    const keep = differs < 0 ? entries.length : differs;
    this.#told.set(hand, entries);
    hand.postMessage({ type, id, keep, entries: entries.slice(keep), now, rehearsal });
  }

  /** Whether nothing that could move the plan was said since: "seen", or just what was answered, as it was answered. */
  #sameAs(asked: LiveQuestion, { entries, now, rehearsal }: LiveQuestion): boolean {
    if (asked.now !== now || asked.rehearsal !== rehearsal || entries.length < asked.entries.length)
      return false;
    if (asked.entries.some((entry, k) => entry !== entries[k])) return false;
    return entries.slice(asked.entries.length).every(({ body }) => {
      const { kind, because, places } = body as { kind?: string; because?: string; places?: unknown };
      if (kind === "heard") return true;
      const { live, write } = this.#state;
      return kind === "placed" && because === live?.because && places === write;
    });
  }

  #hear(said: FromLive): void {
    if (said.type === "remedies" || said.type === "judged") return;
    this.#busy = false;
    const waiting = this.#waiting;
    this.#waiting = undefined;
    if (said.type === "refused") this.#set({ problems: said.problems });
    else this.#answered(this.#whole(said.live), said);
    // Who heard the answer may have asked already, with all that waited and what the answer moved.
    if (waiting && !this.#busy) this.ask(waiting);
  }

  /** The answer with the tasks that were not told anew. */
  #whole(told: LiveTold): LivePlan {
    const tasks = tasksTold(this.#tasks, told.plan.tasks);
    this.#tasks = tasksById(tasks);
    return { ...told, plan: { ...told.plan, tasks } };
  }

  /** The same plan is judged once, and its breaches are tried once: a judgement ends by itself before long. */
  #answered(live: LivePlan, { write, ms }: Extract<FromLive, { readonly type: "live" }>): void {
    const key = JSON.stringify([live.because, live.changes, live.breaches, live.closed, live.away]);
    const anew = key !== this.#followed;
    const tries = live.breaches.length > 0;
    this.#set({
      ...{ live, write, ms, problems: [] },
      ...(anew ? { findings: undefined, remedies: tries ? undefined : [] } : {}),
    });
    if (!anew && !this.#due) return;
    this.#followed = key;
    if (this.#trying) this.#drop();
    this.#due?.();
    const [question, id] = [this.#asked!, this.#id];
    this.#due = this.#later(() => {
      this.#due = undefined;
      this.#follow(question, id, tries);
    });
  }

  #follow(question: LiveQuestion, id: number, tries: boolean): void {
    const second = this.#second ?? this.#hand();
    this.#second = second;
    this.#trying = tries;
    second.onmessage = ({ data }) => {
      if (data.id !== id) return;
      if (data.type === "judged") this.#set({ findings: data.findings });
      if (data.type !== "remedies" && data.type !== "refused") return;
      this.#trying = false;
      this.#set({ remedies: data.type === "remedies" ? data.remedies : [] });
    };
    this.#tell(second, "judge", id, question);
    if (tries) this.#tell(second, "remedies", id, question);
  }

  #drop(): void {
    this.#second?.terminate();
    this.#second = undefined;
    this.#trying = false;
  }

  #set(more: Partial<LiveAnswer>): void {
    this.#state = { ...this.#state, ...more };
    for (const listener of this.#listeners) listener();
  }
}
