import type { Problem } from "../../core/book/problem.ts";
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
  readonly problems: readonly Problem[];
  readonly ms: number;
}

export interface LiveHand {
  postMessage(message: ToLive): void;
  terminate(): void;
  onmessage: ((event: { data: FromLive }) => void) | null;
}

/**
 * Asks one worker for the mended plan, the latest question winning, and another for remedies, which is dropped when
 * something new happens: a cook's mark never waits for a remedy.
 */
export class LiveRunner {
  #asker: LiveHand | undefined;
  #trier: LiveHand | undefined;
  #busy = false;
  #waiting: LiveQuestion | undefined;
  #asked: LiveQuestion | undefined;
  #tried = "";
  #id = 0;
  readonly #open: LiveOpen;
  readonly #make: () => LiveHand;
  readonly #listeners = new Set<() => void>();
  #state: LiveAnswer = { live: undefined, write: [], remedies: undefined, problems: [], ms: 0 };

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
    this.#trier?.terminate();
    this.#asker = undefined;
    this.#trier = undefined;
    this.#busy = false;
    this.#tried = "";
  }

  #hand(): LiveHand {
    const hand = this.#make();
    hand.postMessage({ type: "open", ...this.#open });
    hand.onmessage = ({ data }) => this.#hear(data);
    return hand;
  }

  #hear(said: FromLive): void {
    if (said.type === "remedies") return;
    this.#busy = false;
    if (said.type === "refused") this.#set({ problems: said.problems });
    else {
      this.#set({ live: said.live, write: said.write, problems: [], ms: said.ms });
      this.#remedies(said.live);
    }
    const waiting = this.#waiting;
    this.#waiting = undefined;
    if (waiting) this.ask(waiting);
  }

  /** The same breaches are tried once. */
  #remedies(live: LivePlan): void {
    const key = JSON.stringify([live.breaches, live.closed, live.away]);
    if (key === this.#tried) return;
    this.#tried = key;
    this.#trier?.terminate();
    this.#trier = undefined;
    this.#set({ remedies: live.breaches.length === 0 ? [] : undefined });
    if (live.breaches.length === 0 || !this.#asked) return;
    this.#trier = this.#hand();
    const id = this.#id;
    this.#trier.onmessage = ({ data }) => {
      if (data.type === "remedies" && this.#tried === key) this.#set({ remedies: data.remedies });
    };
    this.#trier.postMessage({ type: "remedies", id, ...this.#asked });
  }

  #set(more: Partial<LiveAnswer>): void {
    this.#state = { ...this.#state, ...more };
    for (const listener of this.#listeners) listener();
  }
}
