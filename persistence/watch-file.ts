import { type Kysely, sql } from "kysely";
import type { BookStore, Heard } from "./store.ts";
import type { Tables } from "./tables.ts";

/** How often the file is looked at, ms: with the answer to the page well under two seconds. */
const EVERY_MS = 1000;
/** Lines of the log read at once. */
const MOST = 500;

/**
 * Hears of what other processes write to the same file. SQLite's data_version changes only by commits of other
 * connections (sqlite.org/pragma.html#pragma_data_version), so that a quiet file costs one small question a second.
 */
export async function watchFile(
  db: Kysely<Tables>,
  store: Pick<BookStore, "revision" | "newestLog" | "wholeLog">,
  heard: (what: Heard) => void,
): Promise<() => Promise<void>> {
  const version = async () => {
    const { rows } = await sql<{ data_version: number }>`pragma data_version`.execute(db);
    return rows[0]!.data_version;
  };
  let last = { version: await version(), revision: await store.revision(), seq: await store.newestLog() };
  const look = async () => {
    const now = await version();
    if (now === last.version) return;
    const revision = await store.revision();
    const services = new Set<string>();
    let { seq } = last;
    for (let more = true; more; ) {
      const lines = await store.wholeLog(seq, MOST);
      for (const line of lines) services.add(line.service);
      seq = lines.at(-1)?.seq ?? seq;
      more = lines.length === MOST;
    }
    const moved = revision !== last.revision;
    last = { version: now, revision, seq };
    if (moved) heard({ revision });
    if (services.size > 0) heard({ services: [...services] });
  };
  let looking: Promise<void> = Promise.resolve();
  // A file that cannot be read for a moment is looked at again; what a call needs of it is told by that call.
  const timer = setInterval(() => {
    looking = looking.then(look).catch(() => {});
  }, EVERY_MS);
  timer.unref();
  return async () => {
    clearInterval(timer);
    await looking;
  };
}
