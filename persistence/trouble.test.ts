import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { CompiledQuery, Kysely } from "kysely";
import { expect, test } from "vitest";
import { openEmbedded } from "./open.ts";
import { sqliteDialect } from "./sqlite-dialect.ts";
import { troubleOf } from "./trouble.ts";

const failure = (work: Promise<unknown>) => work.then(() => undefined).catch((error: unknown) => error);

test("T12 a file that is no database is told in words", async () => {
  const folder = mkdtempSync(join(tmpdir(), "tournant-trouble-"));
  const file = join(folder, "book.db");
  writeFileSync(file, "only words. ".repeat(1000));
  expect(troubleOf(await failure(openEmbedded(file)))?.what).toBe("the book's file is not a book");
  writeFileSync(join(folder, "plain"), "");
  const under = await failure(openEmbedded(join(folder, "plain", "book.db")));
  expect(troubleOf(under)?.what).toBe("the data folder is a file");
  rmSync(folder, { recursive: true });
});

test("T12 a full place is told in words, nothing of the save stays, and there is room again later", async () => {
  const folder = mkdtempSync(join(tmpdir(), "tournant-full-"));
  const db = new Kysely<{ t: { x: string } }>({ dialect: sqliteDialect(join(folder, "full.db")) });
  const say = (text: string) => db.executeQuery(CompiledQuery.raw(text));
  await say("create table t (x text)");
  await say("pragma max_page_count = 20");
  const fill = db.transaction().execute(async (tx) => {
    for (let i = 0; i < 100; i++)
      await tx
        .insertInto("t")
        .values({ x: "x".repeat(4000) })
        .execute();
  });
  expect(troubleOf(await failure(fill))?.what).toBe("the disk is full: nothing of this was saved");
  expect(await db.selectFrom("t").selectAll().execute()).toEqual([]);
  await say("pragma max_page_count = 1000");
  await db.transaction().execute((tx) => tx.insertInto("t").values({ x: "room" }).execute());
  expect(await db.selectFrom("t").selectAll().execute()).toEqual([{ x: "room" }]);
  await db.destroy();
  rmSync(folder, { recursive: true });
});

test("T12 other errors are nobody's trouble here", () => {
  for (const error of [new Error("x"), undefined, null, { code: "constructor" }, { errcode: 1 }])
    expect(troubleOf(error)).toBeUndefined();
});
