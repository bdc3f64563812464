import type { Problem } from "../../core/book/problem.ts";
import type { Finding } from "../../core/inspection/index.ts";
import type { LivePlan } from "../../core/production/live.ts";
import type { LiveRemedy } from "../../core/production/live-remedies.ts";
import type { WrittenPlace } from "../../core/production/live-schema.ts";
import type { FromLive, LiveOpen, LiveQuestion, ToLive } from "./live-protocol.ts";

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

/**
 * Asks one worker for the mended plan, the latest question winning, and another for what follows the answer: the
 * inspector's judgement and remedies. That one is dropped when something new happens: a cook's mark never waits for it.
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
  #id = 0;
  readonly #open: LiveOpen;
  readonly #make: () => LiveHand;
  readonly #listeners = new Set<() => void>();
  #state: LiveAnswer = NOTHING;

  constructor(make: () => LiveHand, open: LiveOpen) {
    this.#make = make;
    this.#open = open;
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
    this.#asker ??= this.#hand();
    this.#busy = true;
    this.#asked = question;
    this.#asker.postMessage({ type: "ask", id: ++this.#id, ...question });
  }

  close(): void {
    this.#asker?.terminate();
    this.#asker = undefined;
    this.#drop();
    this.#busy = false;
    this.#followed = "";
  }

  #hand(): LiveHand {
    const hand = this.#make();
    hand.postMessage({ type: "open", ...this.#open });
    hand.onmessage = ({ data }) => this.#hear(data);
    return hand;
  }

  #hear(said: FromLive): void {
    if (said.type === "remedies" || said.type === "judged") return;
    this.#busy = false;
    if (said.type === "refused") this.#set({ problems: said.problems });
    else {
      this.#set({ live: said.live, write: said.write, problems: [], ms: said.ms });
      this.#follow(said.live);
    }
    const waiting = this.#waiting;
    this.#waiting = undefined;
    if (waiting) this.ask(waiting);
  }

  /** The same plan is judged once, and its breaches are tried once. */
  #follow(live: LivePlan): void {
    const key = JSON.stringify([live.because, live.changes, live.breaches, live.closed, live.away]);
    if (key === this.#followed || !this.#asked) return;
    this.#followed = key;
    // A judgement ends by itself before long; remedies for what is past are not waited for.
    if (this.#trying) this.#drop();
    this.#trying = live.breaches.length > 0;
    this.#set({ findings: undefined, remedies: this.#trying ? undefined : [] });
    const id = this.#id;
    const second = this.#second ?? this.#hand();
    this.#second = second;
    second.onmessage = ({ data }) => {
      if (data.id !== id) return;
      if (data.type === "judged") this.#set({ findings: data.findings });
      if (data.type !== "remedies" && data.type !== "refused") return;
      this.#trying = false;
      this.#set({ remedies: data.type === "remedies" ? data.remedies : [] });
    };
    second.postMessage({ type: "judge", id, ...this.#asked });
    if (this.#trying) second.postMessage({ type: "remedies", id, ...this.#asked });
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
