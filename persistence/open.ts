import { randomUUID } from "node:crypto";
import { mkdirSync } from "node:fs";
import { dirname } from "node:path";
import { Kysely, PostgresDialect } from "kysely";
import pg from "pg";
import { sqlStore } from "./sql-store.ts";
import { sqliteDialect } from "./sqlite-dialect.ts";
import type { BookStore, Heard } from "./store.ts";
import type { Tables } from "./tables.ts";
import { watchFile } from "./watch-file.ts";

/** Opens the embedded store in a file (its folder is made), or in memory for ":memory:". */
export async function openEmbedded(file: string): Promise<BookStore> {
  if (file !== ":memory:") mkdirSync(dirname(file), { recursive: true });
  const db = new Kysely<Tables>({ dialect: sqliteDialect(file) });
  const store = await sqlStore(db, "sqlite");
  return file === ":memory:" ? store : { ...store, listen: (heard) => watchFile(db, store, heard) };
}

const CHANNEL = "tournant_saved";

/** Opens the store on a PostgreSQL server; processes on one server hear of each other's saves. */
export async function openPostgres(url: string): Promise<BookStore> {
  const pool = new pg.Pool({ connectionString: url, max: 10 });
  // A server that goes away while a connection idles is told by the next query, not by an end of the process.
  pool.on("error", () => {});
  const own = randomUUID();
  const store = await sqlStore(new Kysely<Tables>({ dialect: new PostgresDialect({ pool }) }), "postgres", {
    async listen(heard) {
      const client = await pool.connect();
      client.on("notification", ({ payload = "" }) => {
        const told = JSON.parse(payload) as Heard & { readonly from: string };
        // What grows in this process is told here already.
        if (told.revision !== undefined || told.from !== own) heard(told);
      });
      await client.query(`listen ${CHANNEL}`);
      return async () => {
        await client.query(`unlisten ${CHANNEL}`);
        client.release();
      };
    },
  });
  const tell = (what: Heard) =>
    pool.query("select pg_notify($1, $2)", [CHANNEL, JSON.stringify({ ...what, from: own })]);
  return {
    ...store,
    async save(writes, at, by, seen) {
      const answer = await store.save(writes, at, by, seen);
      if (answer.ok) await tell({ revision: answer.revision });
      return answer;
    },
    async replaceAll(documents, at, by) {
      const revision = await store.replaceAll(documents, at, by);
      await tell({ revision });
      return revision;
    },
    async appendLog(entries) {
      const added = await store.appendLog(entries);
      // A notice holds 8,000 bytes; the services of one call are few.
      const services = [...new Set(entries.map((entry) => entry.service))];
      for (let i = 0; added > 0 && i < services.length; i += 20)
        await tell({ services: services.slice(i, i + 20) });
      return added;
    },
  };
}
