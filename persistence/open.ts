import { mkdirSync } from "node:fs";
import { dirname } from "node:path";
import { Kysely, PostgresDialect } from "kysely";
import pg from "pg";
import { sqlStore } from "./sql-store.ts";
import { sqliteDialect } from "./sqlite-dialect.ts";
import type { BookStore } from "./store.ts";
import type { Tables } from "./tables.ts";

/** Opens the embedded store in a file (its folder is made), or in memory for ":memory:". */
export async function openEmbedded(file: string): Promise<BookStore> {
  if (file !== ":memory:") mkdirSync(dirname(file), { recursive: true });
  return await sqlStore(new Kysely<Tables>({ dialect: sqliteDialect(file) }), "sqlite");
}

const CHANNEL = "tournant_saved";

/** Opens the store on a PostgreSQL server; processes on one server hear of each other's saves. */
export async function openPostgres(url: string): Promise<BookStore> {
  const pool = new pg.Pool({ connectionString: url, max: 10 });
  // A server that goes away while a connection idles is told by the next query, not by an end of the process.
  pool.on("error", () => {});
  const store = await sqlStore(new Kysely<Tables>({ dialect: new PostgresDialect({ pool }) }), "postgres", {
    async listen(heard) {
      const client = await pool.connect();
      client.on("notification", (message) => heard(Number(message.payload)));
      await client.query(`listen ${CHANNEL}`);
      return async () => {
        await client.query(`unlisten ${CHANNEL}`);
        client.release();
      };
    },
  });
  const tell = (revision: number) => pool.query("select pg_notify($1, $2)", [CHANNEL, String(revision)]);
  return {
    ...store,
    async save(writes, at, by, seen) {
      const answer = await store.save(writes, at, by, seen);
      if (answer.ok) await tell(answer.revision);
      return answer;
    },
    async replaceAll(documents, at, by) {
      const revision = await store.replaceAll(documents, at, by);
      await tell(revision);
      return revision;
    },
  };
}
