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
  /** Something was written while the call before was under way. */
  #again = false;
  #skewMs = 0;
  readonly #own = new Set<string>();
  /** What the server is known to have. */
  readonly #there = new Set<string>();
  /** What could not be kept on this tablet; it lives as long as the page. */
  readonly #loose = new Map<string, Entry>();
  /** Place in the server's log up to which this page has read, of the service in hand. */
  #after = 0;

  readonly subscribe = (listener: Listener): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };
  /** Entries of the service in order of writing; the same list as long as nothing was written or heard of. */
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
    this.#after = 0;
    await this.#read();
    void this.send();
    await this.refresh(true);
  }

  /**
   * Fetches what others have written since.
   * @param whole all of it anew, should anything have been overheard
   */
  async refresh(whole = false): Promise<void> {
    const service = this.#service;
    if (service === "") return;
    try {
      const after = whole ? 0 : this.#after;
      const answer = await fetch(`/api/log/${encodeURIComponent(service)}?after=${after}`);
      if (!answer.ok) return;
      const date = Date.parse(answer.headers.get("date") ?? "");
      // The header counts whole seconds; less than that is no news.
      const skew = date + 500 - Date.now();
      if (Number.isFinite(skew) && Math.abs(skew - this.#skewMs) > 1000) this.#skewMs = skew;
      const { entries } = (await answer.json()) as { entries: (Sent & { readonly seq: number })[] };
      const fresh = entries.filter(({ id }) => !this.#there.has(id));
      if (fresh.length > 0) {
        const tx = (await tablet()).transaction("entries", "readwrite");
        const puts = fresh.map(({ seq: _, ...sent }) => tx.store.put({ ...fromSent(sent), sent: 1 }));
        await Promise.all([...puts, tx.done]);
        for (const { id } of fresh) this.#there.add(id);
      }
      if (service !== this.#service) return;
      this.#after = Math.max(this.#after, entries.at(-1)?.seq ?? 0);
      if (fresh.length > 0) await this.#read();
    } catch {
      // No network: the tablet's own entries stand.
    }
  }

  /** Writes one entry down here, then tries to send. Whoever listens hears of it at once. */
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
    // Until the tablet's store has it.
    this.#loose.set(whole.id, whole);
    this.#list = [...this.#list, whole];
    this.#tell();
    try {
      const tx = (await tablet()).transaction("entries", "readwrite");
      const put = tx.store.put({ ...whole, sent: 0 });
      // Without waiting for the answer first: the page may be closed the next moment.
      tx.commit();
      await Promise.all([put, tx.done]);
      this.#loose.delete(whole.id);
    } catch {
      // Nothing can be kept here: the entry lives as long as the page, and is sent from it.
    }
    await this.#count();
    void this.send();
  }

  /** Sends what waits, oldest first; stops at the first failure and tries again at the next call. */
  async send(): Promise<void> {
    if (this.#sending) {
      this.#again = true;
      return;
    }
    this.#sending = true;
    this.#again = false;
    let [refusedAny, went] = [false, false];
    try {
      const db = await tablet().catch(() => undefined);
      const kept = (await db?.getAllFromIndex("entries", "sent", 0)) ?? [];
      const known = new Set(kept.map(({ id }) => id));
      const loose = [...this.#loose.values()].filter(({ id }) => !known.has(id) && !this.#there.has(id));
      const waiting: Entry[] = [...kept.map(({ sent: _, ...entry }) => entry), ...loose];
      waiting.sort((a, b) => (a.at < b.at ? -1 : 1));
      // A call takes a thousand; the rest follows with the next.
      waiting.splice(500);
      if (waiting.length > 0) {
        const answer = await fetch("/api/log", {
          method: "POST",
          headers: { "content-type": "application/json" },
          body: JSON.stringify({ entries: waiting.map(toSent) }),
        });
        const { refused } = (await answer.json()) as { refused?: readonly RefusedHere[] };
        // Where nothing of it could be kept the call is off, and each says why.
        went = answer.ok || refused !== undefined;
        if (went) {
          const why = new Map(refused?.map(({ id, problems }) => [id, problems[0]]));
          refusedAny = why.size > 0;
          const tx = db?.transaction("entries", "readwrite");
          const puts = waiting.map((entry) => {
            const problem = why.get(entry.id);
            // It stays here with the reason; sending it again would change nothing.
            const said = problem ? { refused: `${problem.what}: ${problem.mend}` } : {};
            this.#there.add(entry.id);
            return known.has(entry.id) ? tx?.store.put({ ...entry, ...said, sent: 1 }) : undefined;
          });
          await Promise.all([...puts, tx?.done]);
        }
      }
    } catch {
      // No network or no store: they wait.
    } finally {
      this.#sending = false;
    }
    if (refusedAny) await this.#read();
    else await this.#count();
    if (this.#again && went) await this.send();
  }

  /** The list as the tablet's store has it; an entry that is the same stays the same object. */
  async #read(): Promise<void> {
    const service = this.#service;
    try {
      const db = await tablet();
      const kept = await db.getAllFromIndex("entries", "service", service);
      if (service !== this.#service) return;
      const before = new Map(this.#list.map((entry) => [entry.id, entry]));
      const stored = new Set(kept.map(({ id }) => id));
      const loose = [...this.#loose.values()].filter((one) => one.service === service && !stored.has(one.id));
      const own: Entry[] = [...kept.map(({ sent: _, ...entry }) => entry), ...loose];
      const next = own.map((entry) => {
        const known = before.get(entry.id);
        return known && known.refused === entry.refused ? known : entry;
      });
      next.sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : (a.turn ?? 0) - (b.turn ?? 0)));
      if (next.length !== this.#list.length || next.some((entry, k) => entry !== this.#list[k]))
        this.#list = next;
    } catch {
      // Nothing is kept here: what was written since the page came stands.
    }
    await this.#count();
  }

  async #count(): Promise<void> {
    try {
      this.#waiting = await (await tablet()).countFromIndex("entries", "sent", 0);
    } catch {
      this.#waiting = [...this.#loose.keys()].filter((id) => !this.#there.has(id)).length;
    }
    this.#tell();
  }

  #tell(): void {
    for (const listener of this.#listeners) listener();
  }
}
