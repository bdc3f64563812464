import { LIVE_KINDS } from "../../core/production/live-schema.ts";
import { type Entry, fromSent, type Sent, toSent } from "./entry.ts";
import { tablet } from "./store.ts";

type Listener = () => void;

/** An entry the server did not keep. */
interface RefusedHere {
  readonly id: string;
  readonly problems: readonly { readonly what: string; readonly mend: string }[];
}

/** Entries of the service in hand, kept on the tablet first and sent when the server can be reached (A6). */
export class Entries {
  #list: readonly Entry[] = [];
  #waiting = 0;
  #service = "";
  readonly #listeners = new Set<Listener>();
  #sending = false;
  #skewMs = 0;
  readonly #own = new Set<string>();

  readonly subscribe = (listener: Listener): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };
  /** Entries of the service in order of writing. */
  readonly list = (): readonly Entry[] => this.#list;
  /** How many the server does not have yet, of any service. */
  readonly waiting = (): number => this.#waiting;
  /** How far the server's clock is ahead of this tablet's, ms; 0 until it was heard. */
  readonly skew = (): number => this.#skewMs;
  /** Whether this page wrote the entry. */
  isOwn(id: string): boolean {
    return this.#own.has(id);
  }

  /** Turns to another service: what the tablet has of it, then what the server has. */
  async open(service: string): Promise<void> {
    this.#service = service;
    await this.#read();
    void this.send();
    await this.refresh();
  }

  /** Fetches what others have written. */
  async refresh(): Promise<void> {
    const service = this.#service;
    if (service === "") return;
    try {
      const answer = await fetch(`/api/log/${encodeURIComponent(service)}`);
      if (!answer.ok) return;
      const date = Date.parse(answer.headers.get("date") ?? "");
      // The header counts whole seconds.
      if (Number.isFinite(date)) this.#skewMs = date + 500 - Date.now();
      const { entries } = (await answer.json()) as { entries: Sent[] };
      const db = await tablet();
      const known = new Set(this.#list.filter((e) => !this.#own.has(e.id)).map((e) => e.id));
      for (const sent of entries)
        if (!known.has(sent.id)) await db.put("entries", { ...fromSent(sent), sent: 1 });
      if (service === this.#service) await this.#read();
    } catch {
      // No network: the tablet's own entries stand.
    }
  }

  /** Writes one entry down here, then tries to send. */
  async write(entry: Omit<Entry, "id" | "at" | "service">): Promise<void> {
    const turn = 1 + this.#list.reduce((most, one) => Math.max(most, one.turn ?? 0), 0);
    const whole: Entry = {
      ...entry,
      ...(LIVE_KINDS.has(entry.kind) ? { turn } : {}),
      id: crypto.randomUUID(),
      at: new Date().toISOString(),
      service: this.#service,
    };
    this.#own.add(whole.id);
    this.#list = [...this.#list, whole];
    this.#tell();
    try {
      await (await tablet()).put("entries", { ...whole, sent: 0 });
    } catch {
      // Nothing can be kept here: the entry lives as long as the page.
    }
    await this.#read(whole);
    void this.send();
  }

  /** Sends what waits, oldest first; stops at the first failure and tries again at the next call. */
  async send(): Promise<void> {
    if (this.#sending) return;
    this.#sending = true;
    try {
      const db = await tablet();
      const waiting = await db.getAllFromIndex("entries", "sent", 0);
      waiting.sort((a, b) => (a.at < b.at ? -1 : 1));
      // A call takes a thousand; the rest follows with the next.
      waiting.splice(500);
      if (waiting.length > 0) {
        const answer = await fetch("/api/log", {
          method: "POST",
          headers: { "content-type": "application/json" },
          body: JSON.stringify({ entries: waiting.map(({ sent: _, ...entry }) => toSent(entry)) }),
        });
        if (answer.ok) {
          const { refused = [] } = (await answer.json()) as { refused?: readonly RefusedHere[] };
          const why = new Map(refused.map(({ id, problems }) => [id, problems[0]]));
          for (const entry of waiting) {
            const problem = why.get(entry.id);
            // It stays here with the reason; sending it again would change nothing.
            const said = problem ? { refused: `${problem.what}: ${problem.mend}` } : {};
            await db.put("entries", { ...entry, ...said, sent: 1 });
          }
        }
      }
    } catch {
      // No network or no store: they wait.
    } finally {
      this.#sending = false;
    }
    await this.#read();
  }

  async #read(fallback?: Entry): Promise<void> {
    try {
      const db = await tablet();
      const own = await db.getAllFromIndex("entries", "service", this.#service);
      own.sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));
      this.#list = own;
      this.#waiting = await db.countFromIndex("entries", "sent", 0);
    } catch {
      if (fallback) this.#waiting += 1;
    }
    this.#tell();
  }

  #tell(): void {
    for (const listener of this.#listeners) listener();
  }
}
