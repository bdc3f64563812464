import { type Kysely, sql, type Transaction } from "kysely";
import type { DocumentKind } from "../core/book/index.ts";
import { migrate } from "./migrations.ts";
import type { BookStore, LogEntry, Logged, SaveAnswer, Saved, Write } from "./store.ts";
import type { Tables } from "./tables.ts";

/** Rows put in by one statement: SQLite takes at most 32,766 parameters. */
const CHUNK = 500;

/** The store over a Kysely database of either dialect; its tables are brought up to date first. */
export async function sqlStore(
  db: Kysely<Tables>,
  dialect: "sqlite" | "postgres",
  more: Pick<BookStore, "listen"> & { close?(): Promise<void> } = {},
): Promise<BookStore> {
  await migrate(db, dialect);

  const standing = () =>
    db
      .selectFrom("head")
      .innerJoin("document", (join) =>
        join
          .onRef("document.kind", "=", "head.kind")
          .onRef("document.id", "=", "head.id")
          .onRef("document.revision", "=", "head.revision"),
      )
      .innerJoin("revision", "revision.number", "document.revision")
      .select([
        "document.kind",
        "document.id",
        "document.revision",
        "document.json",
        "revision.at",
        "revision.by",
      ]);

  return {
    async revision() {
      return await newest(db);
    },

    async all() {
      const rows = await standing().where("head.gone", "=", 0).orderBy("head.place").execute();
      return rows.map(savedOf);
    },

    async get(kind, id) {
      const row = await standing()
        .where("head.kind", "=", kind)
        .where("head.id", "=", id)
        .where("head.gone", "=", 0)
        .executeTakeFirst();
      return row && savedOf(row);
    },

    async save(writes, at, by, seen) {
      return await db.transaction().execute(async (tx): Promise<SaveAnswer> => {
        await oneWriter(tx, dialect);
        const conflict: Saved[] = [];
        const heads = new Map<string, { revision: number; place: number; gone: number }>();
        for (const { kind, id, baseRevision } of writes) {
          const head = await tx
            .selectFrom("head")
            .select(["revision", "place", "gone"])
            .where("kind", "=", kind)
            .where("id", "=", id)
            .executeTakeFirst();
          if (head) heads.set(`${kind} ${id}`, head);
          // One that was taken out may be written anew by whoever believes there is none.
          const standsAt = head && (head.gone === 0 || baseRevision !== 0) ? head.revision : 0;
          if (standsAt === baseRevision) continue;
          const theirs = await tx
            .selectFrom("document")
            .innerJoin("revision", "revision.number", "document.revision")
            .select(["kind", "id", "revision", "json", "at", "by"])
            .where("kind", "=", kind)
            .where("id", "=", id)
            .where("revision", "=", head?.revision ?? 0)
            .executeTakeFirst();
          conflict.push(theirs ? savedOf(theirs) : { kind, id, revision: 0, document: null, at, by });
        }
        if (conflict.length > 0) return { ok: false, conflict };
        if (seen !== undefined) {
          const now = await newest(tx);
          if (now !== seen) return { ok: false, moved: now };
        }
        const revision = await nextRevision(tx, at, by);
        let place = await nextPlace(tx);
        await write(
          tx,
          revision,
          writes.map((one) => ({ ...one, place: heads.get(`${one.kind} ${one.id}`)?.place ?? place++ })),
        );
        return { ok: true, revision };
      });
    },

    async replaceAll(documents, at, by) {
      return await db.transaction().execute(async (tx) => {
        await oneWriter(tx, dialect);
        const revision = await nextRevision(tx, at, by);
        const wanted = new Set(documents.map(({ kind, id }) => `${kind} ${id}`));
        const heads = await tx.selectFrom("head").select(["kind", "id", "place", "gone"]).execute();
        const gone = heads
          .filter((head) => head.gone === 0 && !wanted.has(`${head.kind} ${head.id}`))
          .map(({ kind, id, place }) => ({ kind: kind as DocumentKind, id, document: null, place }));
        const first = await nextPlace(tx);
        await write(tx, revision, [...gone, ...documents.map((one, i) => ({ ...one, place: first + i }))]);
        return revision;
      });
    },

    async history(kind, id) {
      const rows = await db
        .selectFrom("document")
        .innerJoin("revision", "revision.number", "document.revision")
        .select(["kind", "id", "revision", "json", "at", "by"])
        .where("kind", "=", kind)
        .where("id", "=", id)
        .orderBy("revision", "desc")
        .execute();
      return rows.map(savedOf);
    },

    async since(revision) {
      const rows = await standing()
        .where("head.revision", ">", revision)
        .orderBy("head.revision")
        .orderBy("head.place")
        .execute();
      return rows.map(savedOf);
    },

    async appendLog(entries) {
      if (entries.length === 0) return 0;
      return await db.transaction().execute(async (tx) => {
        let added = 0;
        for (let i = 0; i < entries.length; i += CHUNK) {
          const answer = await tx
            .insertInto("log")
            .values(entries.slice(i, i + CHUNK).map(rowOf))
            .onConflict((on) => on.column("id").doNothing())
            .executeTakeFirst();
          added += Number(answer.numInsertedOrUpdatedRows ?? 0);
        }
        return added;
      });
    },

    async log(service, afterSeq = 0) {
      const rows = await db
        .selectFrom("log")
        .selectAll()
        .where("service", "=", service)
        .where("seq", ">", afterSeq)
        .orderBy("seq")
        .execute();
      return rows.map(loggedOf);
    },

    async newestLog() {
      const row = await db
        .selectFrom("log")
        .select((e) => e.fn.max("seq").as("seq"))
        .executeTakeFirst();
      return Number(row?.seq ?? 0);
    },

    async wholeLog(afterSeq, most) {
      const rows = await db
        .selectFrom("log")
        .selectAll()
        .where("seq", ">", afterSeq)
        .orderBy("seq")
        .limit(most)
        .execute();
      return rows.map(loggedOf);
    },

    ...(more.listen ? { listen: more.listen } : {}),

    async close() {
      await more.close?.();
      await db.destroy();
    },
  };
}

/** SQLite's transactions already hold the write lock; on a server, writers queue up behind one lock. */
async function oneWriter(tx: Transaction<Tables>, dialect: "sqlite" | "postgres"): Promise<void> {
  if (dialect === "postgres") await sql`select pg_advisory_xact_lock(7401513)`.execute(tx);
}

async function newest(db: Kysely<Tables>): Promise<number> {
  const row = await db
    .selectFrom("revision")
    .select((eb) => eb.fn.max("number").as("number"))
    .executeTakeFirst();
  return Number(row?.number ?? 0);
}

async function nextRevision(tx: Transaction<Tables>, at: string, by: string): Promise<number> {
  const number = (await newest(tx)) + 1;
  await tx.insertInto("revision").values({ number, at, by }).execute();
  return number;
}

async function nextPlace(tx: Transaction<Tables>): Promise<number> {
  const row = await tx
    .selectFrom("head")
    .select((eb) => eb.fn.max("place").as("place"))
    .executeTakeFirst();
  return row?.place === null || row?.place === undefined ? 0 : Number(row.place) + 1;
}

async function write(
  tx: Transaction<Tables>,
  revision: number,
  writes: readonly Pick<Write & { place: number }, "kind" | "id" | "document" | "place">[],
): Promise<void> {
  for (let i = 0; i < writes.length; i += CHUNK) {
    const chunk = writes.slice(i, i + CHUNK);
    await tx
      .insertInto("document")
      .values(
        chunk.map(({ kind, id, document, place }) => ({
          kind,
          id,
          revision,
          json: document === null ? null : JSON.stringify(document),
          place,
        })),
      )
      .execute();
    await tx
      .insertInto("head")
      .values(
        chunk.map(({ kind, id, document, place }) => ({
          kind,
          id,
          revision,
          place,
          gone: document === null ? 1 : 0,
        })),
      )
      .onConflict((on) =>
        on.columns(["kind", "id"]).doUpdateSet((eb) => ({
          revision: eb.ref("excluded.revision"),
          place: eb.ref("excluded.place"),
          gone: eb.ref("excluded.gone"),
        })),
      )
      .execute();
  }
}

function savedOf(row: {
  kind: string;
  id: string;
  revision: number;
  json: string | null;
  at: string;
  by: string;
}): Saved {
  const { json, kind, ...rest } = row;
  return { ...rest, kind: kind as DocumentKind, document: json === null ? null : JSON.parse(json) };
}

function loggedOf({
  json,
  seq,
  corrects,
  ...row
}: {
  json: string;
  seq: number | string | bigint;
  corrects: string | null;
  id: string;
  service: string;
  at: string;
  by: string;
}): Logged {
  return {
    ...row,
    seq: Number(seq),
    ...(corrects === null ? {} : { corrects }),
    body: JSON.parse(json),
  };
}

function rowOf({ corrects, body, ...entry }: LogEntry) {
  const { id, service, at, by } = entry;
  return { id, service, at, by, corrects: corrects ?? null, json: JSON.stringify(body) };
}
