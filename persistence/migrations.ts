import { type Kysely, sql } from "kysely";
import type { Tables } from "./tables.ts";

type Step = (db: Kysely<Tables>, dialect: "sqlite" | "postgres") => Promise<void>;

/** One step a version, without gaps; a step once shipped is never changed. */
export const MIGRATIONS: readonly Step[] = [
  async (db) => {
    await db.schema
      .createTable("revision")
      .addColumn("number", "integer", (c) => c.primaryKey())
      .addColumn("at", "text", (c) => c.notNull())
      .addColumn("by", "text", (c) => c.notNull())
      .execute();
    await db.schema
      .createTable("document")
      .addColumn("kind", "text", (c) => c.notNull())
      .addColumn("id", "text", (c) => c.notNull())
      .addColumn("revision", "integer", (c) => c.notNull().references("revision.number"))
      .addColumn("json", "text")
      .addColumn("place", "integer", (c) => c.notNull())
      .addPrimaryKeyConstraint("document_key", ["kind", "id", "revision"])
      .execute();
    await db.schema
      .createTable("head")
      .addColumn("kind", "text", (c) => c.notNull())
      .addColumn("id", "text", (c) => c.notNull())
      .addColumn("revision", "integer", (c) => c.notNull())
      .addColumn("place", "integer", (c) => c.notNull())
      .addColumn("gone", "integer", (c) => c.notNull())
      .addPrimaryKeyConstraint("head_key", ["kind", "id"])
      .execute();
    await db.schema.createIndex("head_revision").on("head").column("revision").execute();
  },
  async (db, dialect) => {
    const table = db.schema.createTable("log");
    await (dialect === "sqlite"
      ? table.addColumn("seq", "integer", (c) => c.primaryKey().autoIncrement())
      : table.addColumn("seq", "bigserial", (c) => c.primaryKey())
    )
      .addColumn("id", "text", (c) => c.notNull().unique())
      .addColumn("service", "text", (c) => c.notNull())
      .addColumn("at", "text", (c) => c.notNull())
      .addColumn("by", "text", (c) => c.notNull())
      .addColumn("corrects", "text")
      .addColumn("json", "text", (c) => c.notNull())
      .execute();
    await db.schema.createIndex("log_service").on("log").columns(["service", "seq"]).execute();
  },
];

/**
 * Brings the tables up to date, in one transaction, one process at a time.
 * @throws when the database is newer than this program.
 */
export async function migrate(db: Kysely<Tables>, dialect: "sqlite" | "postgres"): Promise<void> {
  await db.transaction().execute(async (tx) => {
    // Several processes may start at once on one server: the second waits here.
    if (dialect === "postgres") await sql`select pg_advisory_xact_lock(7401512)`.execute(tx);
    await tx.schema
      .createTable("migration")
      .ifNotExists()
      .addColumn("version", "integer", (c) => c.primaryKey())
      .execute();
    const rows = await tx.selectFrom("migration").select("version").execute();
    const version = Math.max(0, ...rows.map((row) => row.version));
    if (version > MIGRATIONS.length)
      throw new Error(
        `The database is of version ${version}; this program knows ${MIGRATIONS.length}. Start a newer Tournant on it.`,
      );
    for (let next = version; next < MIGRATIONS.length; next++) {
      await MIGRATIONS[next]!(tx, dialect);
      await tx
        .insertInto("migration")
        .values({ version: next + 1 })
        .execute();
    }
  });
}
