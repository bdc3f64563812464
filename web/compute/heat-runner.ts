import type { Found } from "../../core/heat/inverse.ts";
import type { Problem } from "../../core/heat/problem.ts";
import type { FromHeat, HeatTold, HeatTrial, Inverse, ToHeat } from "./heat-protocol.ts";

export interface HeatState {
  readonly working: boolean;
  /** Newest answer; what was computed before stays while the next is on its way or refused. */
  readonly told: HeatTold | undefined;
  readonly found: Found | undefined;
  readonly problems: readonly Problem[];
}

/** What the worker must be able to do; a page's Worker, or a stand-in of a test. */
export interface HeatHand {
  postMessage(message: ToHeat): void;
  terminate(): void;
  onmessage: ((event: { data: FromHeat }) => void) | null;
}

type Asked = Omit<Extract<ToHeat, { type: "trial" }>, "id"> | Omit<Extract<ToHeat, { type: "find" }>, "id">;

/** Pause before a trial is begun, so that a figure being typed does not begin one at each key, ms. */
const SETTLE_MS = 180;

/** One question of heat at a time: the latest wins, what still computes an older one is stopped (A2). */
export class HeatRunner {
  #hand: HeatHand | undefined;
  #busy = false;
  #id = 0;
  #settle: ReturnType<typeof setTimeout> | undefined;
  readonly #make: () => HeatHand;
  readonly #listeners = new Set<() => void>();
  #state: HeatState = { working: false, told: undefined, found: undefined, problems: [] };

  constructor(make: () => HeatHand) {
    this.#make = make;
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };
  readonly state = (): HeatState => this.#state;

  trial(trial: HeatTrial): void {
    this.#set({ working: true });
    clearTimeout(this.#settle);
    this.#settle = setTimeout(() => this.#ask({ type: "trial", trial }), SETTLE_MS);
  }

  find(trial: HeatTrial, inverse: Inverse): void {
    this.#set({ working: true, found: undefined, problems: [] });
    this.#ask({ type: "find", trial, inverse });
  }

  /** Stops what is being computed; what was told stays. */
  stop(): void {
    clearTimeout(this.#settle);
    if (this.#busy) this.#drop();
    this.#set({ working: false });
  }

  close(): void {
    clearTimeout(this.#settle);
    this.#drop();
  }

  #ask(asked: Asked): void {
    if (this.#busy) this.#drop();
    if (!this.#hand) {
      this.#hand = this.#make();
      this.#hand.onmessage = (event) => this.#hear(event.data);
    }
    this.#busy = true;
    this.#id++;
    this.#hand.postMessage({ ...asked, id: this.#id });
  }

  #drop(): void {
    this.#hand?.terminate();
    this.#hand = undefined;
    this.#busy = false;
  }

  #hear(said: FromHeat): void {
    if (said.id !== this.#id) return;
    if (said.last) this.#busy = false;
    const working = this.#busy;
    if (said.type === "told") this.#set({ told: said.told, problems: [], working });
    else if (said.type === "found") this.#set({ found: said.found, problems: [], working });
    else if (said.type === "refused") this.#set({ problems: said.problems, working });
    else this.#set({ working });
  }

  #set(more: Partial<HeatState>): void {
    this.#state = { ...this.#state, ...more };
    for (const listener of this.#listeners) listener();
  }
}
