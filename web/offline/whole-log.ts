import type { LogLine } from "../../core/safety/log-lines.ts";
import { type Sent, toSent } from "./entry.ts";
import { tablet } from "./store.ts";

/** Lines of one call; the server gives no more than ten thousand. */
const PAGE = 5000;

export interface WholeLogState {
  readonly status: "loading" | "ready";
  /** Without network: only what this tablet has. */
  readonly offline: boolean;
  readonly lines: readonly LogLine[];
}

/** The log of all services: what was learned and where lots went is a matter of many. Read once, then what is new. */
export class WholeLog {
  #after = 0;
  #lines: LogLine[] = [];
  #state: WholeLogState = { status: "loading", offline: false, lines: [] };
  #loading: Promise<void> | undefined;
  readonly #listeners = new Set<() => void>();

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };
  readonly state = (): WholeLogState => this.#state;

  load(): Promise<void> {
    this.#loading ??= this.#read().finally(() => {
      this.#loading = undefined;
    });
    return this.#loading;
  }

  async #read(): Promise<void> {
    try {
      for (;;) {
        const answer = await fetch(`/api/log?after=${this.#after}&most=${PAGE}`);
        if (!answer.ok) throw new Error(`the log did not come: ${answer.status}`);
        const { entries } = (await answer.json()) as { entries: (Sent & { readonly seq: number })[] };
        this.#lines.push(...entries);
        this.#after = entries.at(-1)?.seq ?? this.#after;
        if (entries.length < PAGE) break;
      }
      this.#set({ status: "ready", offline: false, lines: [...this.#lines] });
    } catch {
      const own = await tablet()
        .then((db) => db.getAll("entries"))
        .catch(() => []);
      const known = new Set(this.#lines.map(({ id }) => id));
      const more = own.filter(({ id }) => !known.has(id)).map(({ sent: _, ...entry }) => toSent(entry));
      this.#set({ status: "ready", offline: true, lines: [...this.#lines, ...more] });
    }
  }

  #set(state: WholeLogState): void {
    this.#state = state;
    for (const listener of this.#listeners) listener();
  }
}
