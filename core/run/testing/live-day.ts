import type { LiveMade } from "../../production/live.ts";
import { writtenPlace } from "../../production/live.ts";
import type { LiveEntry } from "../../production/live-entries.ts";
import type { OpenLive } from "../live.ts";

/** A day as a tablet keeps it: events one after another, what moved written down after each. */
export class LiveDay {
  readonly open: OpenLive;
  readonly entries: LiveEntry[] = [];
  now: number;
  made: LiveMade;
  #n = 0;

  constructor(open: OpenLive, now: number) {
    this.open = open;
    this.now = now;
    this.made = this.ask();
  }

  ask(entries: readonly LiveEntry[] = this.entries, now = this.now): LiveMade {
    return this.open.at({ entries, now, rehearsal: false });
  }

  text(minute: number): string {
    return this.open.base.site.clock.textOf(minute);
  }

  entry(body: object, more: Partial<LiveEntry> = {}): LiveEntry {
    const n = ++this.#n;
    const id = `00000000-0000-4000-8000-${String(n).padStart(12, "0")}`;
    return {
      id,
      at: new Date(1_800_000_000_000 + n * 1000).toISOString(),
      body: { turn: n, when: this.text(this.now), ...body },
      ...more,
    };
  }

  /** Something happens; what it moves is written down with it. */
  say(body: object, more: Partial<LiveEntry> = {}): LiveMade {
    const said = this.entry(body, more);
    this.entries.push(said);
    this.made = this.ask();
    const told = this.made;
    if (told.live.changes.length > 0) {
      const places = told.live.changes.map((change) => writtenPlace(this.open.base.site, change));
      this.entries.push(this.entry({ kind: "placed", because: said.id, places }));
    }
    return told;
  }
}
